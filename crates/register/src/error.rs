//! What can go wrong with a register, and what to do then.

use std::io;
use std::path::{Path, PathBuf};

use millrace_core::calendar::NotAMoment;
use millrace_core::case::{CommandRefused, TextRefused};
use millrace_core::case_file::CaseFileError;
use millrace_core::finding::OtherCase;
use millrace_core::signing::{Obstacle, SheetNumber};
use rusqlite::ErrorCode;
use rusqlite::ffi;

use crate::case_id::CaseId;
use crate::check::CheckProblem;
use crate::entry::Revision;
use crate::head::{Head, PrintedHead};
use crate::problem::Problem;
use crate::sheet::SheetEntry;

/// Why a register could not do what was asked. What was saved before is untouched.
#[derive(Debug, thiserror::Error)]
#[error("{fault}: {}", path.display())]
pub struct RegisterError {
    /// The register, or the backup that was to be written.
    pub path: PathBuf,
    pub fault: Fault,
}

/// What happened, and what to do.
#[derive(Debug, thiserror::Error)]
#[error("{self:?}")]
#[non_exhaustive]
pub enum Fault {
    Directory(io::Error),
    /// On another computer's drive.
    NetworkDrive {
        /// Kind of file system.
        kind: &'static str,
    },
    /// Nothing there, and nobody asked for a new one.
    Absent,
    /// A directory, a device, a pipe.
    NotAFile,
    /// A file without a byte in it.
    Empty,
    NotARegister,
    /// The file is gone, but not what was last written to it.
    LeftOver,
    /// The journal beside the file does not continue it.
    ForeignJournal {
        journal: PathBuf,
    },
    /// The register holds less than it held when it was seen last.
    SetBack {
        seen: Box<PrintedHead>,
        now: Head,
    },
    /// The register holds something else than it held when it was seen last.
    OtherHead {
        seen: Box<PrintedHead>,
        now: Head,
    },
    /// A register was seen here that held something, and none is here now.
    Missing {
        seen: Box<PrintedHead>,
    },
    /// The file that keeps the head that was seen last is not what this program writes.
    SeenHead,
    /// What is open is no longer at its place.
    Gone,
    /// Something else is at the place of what is open.
    Replaced,
    /// Another program wrote to a file that is only read here.
    ChangedMeanwhile,
    /// Written by a newer program.
    Newer {
        /// Schema of the register.
        found: i64,
        /// Newest schema this program knows.
        newest: i64,
    },
    /// No right to write.
    ReadOnly,
    /// Could not be opened for another reason.
    Access(Problem),
    /// Another program is writing and did not finish in time.
    Locked,
    /// No room, or a drive that fails to write.
    Full,
    /// What is in the file cannot be.
    Damaged(Problem),
    /// A file of the system could not be read or written.
    File(io::Error),
    /// A backup over something that exists.
    Exists,
    /// A copy that is not whole when it is read back.
    BadBackup(Box<CheckProblem>),
    /// What was saved is damaged itself, not only what follows from it.
    BeyondRepair(Box<CheckProblem>),
    NoSuchCase,
    /// Several cases fit what was typed.
    ManyCases {
        /// Those that fit, at most ten.
        cases: Vec<CaseId>,
    },
    /// A revision the case does not have.
    NoSuchRevision {
        asked: u32,
        /// Newest number.
        newest: u32,
    },
    /// A sheet the register does not have.
    NoSuchSheet {
        asked: SheetNumber,
        newest: Option<SheetNumber>,
    },
    Nobody,
    /// The clock tells a time that cannot be stored.
    Time(#[from] NotAMoment),
    /// The name of the person could forge a line.
    Hidden(#[from] TextRefused),
    /// A case that would not read back as it is.
    Case(Box<CaseFileError>),
    /// A case that takes no place in the order of its day.
    NotOrdered(CommandRefused),
    /// No random numbers for the name of a case.
    Random(getrandom::Error),
    Stopped,
    /// Anything else the database says.
    Database(Problem),
}

#[derive(Debug, thiserror::Error)]
#[error("{self:?}")]
#[non_exhaustive]
pub enum SignError {
    /// Somebody saved the case meanwhile.
    Conflict {
        theirs: Box<Revision>,
    },
    AlreadySigned {
        sheet: Box<SheetEntry>,
    },
    /// What the case says of other cases with its patient's number or name is no longer so.
    OtherCases {
        /// As they stand.
        others: Vec<OtherCase>,
    },
    /// Something stands against it.
    Obstacles {
        obstacles: Vec<Obstacle>,
    },
    Register(#[from] RegisterError),
}

#[derive(Debug, thiserror::Error)]
#[error("{self:?}")]
#[non_exhaustive]
pub enum SaveError {
    /// Somebody else saved the case meanwhile. Theirs is kept, and so is what was to be saved, by the
    /// caller; a person chooses.
    Conflict {
        /// What stands in the register.
        theirs: Box<Revision>,
    },
    /// The register could not do it.
    Register(#[from] RegisterError),
}

impl Fault {
    /// Whether the register is not what it was when it was seen last: somebody who knows why may take it as it
    /// is.
    pub const fn is_another_head(&self) -> bool {
        matches!(
            self,
            Self::SetBack { .. } | Self::OtherHead { .. } | Self::Missing { .. } | Self::SeenHead
        )
    }

    /// Puts the path beside it.
    pub(crate) fn at(path: &Path) -> impl Fn(Self) -> RegisterError {
        let path = path.to_owned();
        move |fault| RegisterError {
            path: path.clone(),
            fault,
        }
    }

    /// A draft that cannot be stored.
    pub(crate) fn case(error: CaseFileError) -> Self {
        Self::Case(Box::new(error))
    }
}

impl From<rusqlite::Error> for Fault {
    fn from(error: rusqlite::Error) -> Self {
        let problem = Problem::Reported(error.to_string());
        match &error {
            rusqlite::Error::SqliteFailure(failure, _) => match failure.code {
                ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => Self::Locked,
                ErrorCode::DiskFull => Self::Full,
                ErrorCode::SystemIoFailure if failed_to_write(failure.extended_code) => Self::Full,
                ErrorCode::ReadOnly | ErrorCode::PermissionDenied => Self::ReadOnly,
                ErrorCode::CannotOpen => Self::Access(problem),
                ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase => Self::Damaged(problem),
                _ => Self::Database(problem),
            },
            // A column of another type, or no text: no program of ours wrote that.
            rusqlite::Error::FromSqlConversionFailure(..)
            | rusqlite::Error::IntegralValueOutOfRange(..)
            | rusqlite::Error::InvalidColumnType(..)
            | rusqlite::Error::Utf8Error(..) => Self::Damaged(problem),
            _ => Self::Database(problem),
        }
    }
}

const fn failed_to_write(extended_code: i32) -> bool {
    matches!(
        extended_code,
        ffi::SQLITE_IOERR_WRITE
            | ffi::SQLITE_IOERR_SHMSIZE
            | ffi::SQLITE_IOERR_TRUNCATE
            | ffi::SQLITE_IOERR_FSYNC
            | ffi::SQLITE_IOERR_DIR_FSYNC
    )
}
