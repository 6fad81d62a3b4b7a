//! What can go wrong with a register, and what to do then.

use core::fmt;
use std::io;
use std::path::{Path, PathBuf};

use millrace_core::calendar::NotAMoment;
use millrace_core::case::HiddenCharacter;
use millrace_core::case_file::CaseFileError;
use millrace_core::signing::{Obstacle, SheetNumber};
use millrace_core::words::moment;
use rusqlite::ErrorCode;
use rusqlite::ffi;

use crate::case_id::CaseId;
use crate::entry::Revision;
use crate::sheet::SheetEntry;

/// Why a register could not do what was asked. What was saved before is untouched.
#[derive(Debug, thiserror::Error)]
#[error("{fault}: {}", path.display())]
pub struct RegisterError {
    /// The register, or the backup that was to be written.
    pub path: PathBuf,
    /// What happened.
    pub fault: Fault,
}

/// What happened, and what to do.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum Fault {
    /// No directory to put it in.
    #[error("its directory cannot be made ({0}); choose another place for the register")]
    Directory(io::Error),
    /// On another computer's drive.
    #[error(
        "it would lie on a network drive ({kind}), where two programs that write at once damage it; \
         choose a place on this computer"
    )]
    NetworkDrive {
        /// Kind of file system.
        kind: &'static str,
    },
    /// Nothing there, and nobody asked for a new one.
    #[error("there is no register here; import a case to start one, or name the place of yours")]
    Absent,
    /// A directory, a device, a pipe.
    #[error("this is not a file; name a file for the register")]
    NotAFile,
    /// A file without a byte in it.
    #[error(
        "the file is empty, so it is no register; if it was one, restore the latest backup, \
         otherwise remove the file"
    )]
    Empty,
    /// Another kind of file.
    #[error("this file is no register of Millrace, and was left as it is; choose another place")]
    NotARegister,
    /// The file is gone, but not what was last written to it.
    #[error(
        "the register is gone, but a file with its last changes is still there; put the register \
         back beside it, or move that file away to start anew"
    )]
    LeftOver,
    /// Written by a newer program.
    #[error(
        "the register has schema {found} and this program knows {newest}; it was left as it is; \
         use the newer program"
    )]
    Newer {
        /// Schema of the register.
        found: i64,
        /// Newest schema this program knows.
        newest: i64,
    },
    /// No right to write.
    #[error(
        "the register cannot be written; nothing was changed; see to the rights of the file and of \
         its directory, and that the drive is not read-only"
    )]
    ReadOnly,
    /// Could not be opened for another reason.
    #[error(
        "the register cannot be opened ({0}); see to the rights of the file and of its directory"
    )]
    Access(Problem),
    /// Another program is writing and did not finish in time.
    #[error(
        "another program holds the register; nothing was saved; try again, and close the other \
         program if it stays so"
    )]
    Locked,
    /// No room, or a drive that fails to write.
    #[error("the drive is full or fails to write; nothing was saved; make room and save again")]
    Full,
    /// What is in the file cannot be.
    #[error(
        "the register is damaged ({0}); do not write to it, keep the file, and restore the latest \
         backup"
    )]
    Damaged(Problem),
    /// A file of the system could not be read or written.
    #[error("{0}")]
    File(io::Error),
    /// A backup over something that exists.
    #[error("this file exists and is not overwritten; name a new file for the backup")]
    Exists,
    /// A backup that cannot be read back.
    #[error("the backup does not read back ({0}) and was thrown away; check the register")]
    BadBackup(Problem),
    /// No case of this name.
    #[error("no case of the register is called this")]
    NoSuchCase,
    /// Several cases fit what was typed.
    #[error("more than one case fits; name one of them: {}", list(cases))]
    ManyCases {
        /// Those that fit, at most ten.
        cases: Vec<CaseId>,
    },
    /// A revision the case does not have.
    #[error("the case has no revision {asked}; its newest is {newest}")]
    NoSuchRevision {
        /// Number asked for.
        asked: u32,
        /// Newest number.
        newest: u32,
    },
    /// A sheet the register does not have.
    #[error("the register has no sheet {asked}; {}", newest_sheet(*newest))]
    NoSuchSheet {
        /// Number asked for.
        asked: SheetNumber,
        /// Newest number.
        newest: Option<SheetNumber>,
    },
    /// Nobody is named as the one who saves.
    #[error("nobody is named as the person who saves; nothing was saved")]
    Nobody,
    /// The clock tells a time that cannot be stored.
    #[error(
        "the time is not one of the years 1 to 9999; nothing was saved; set the clock of this computer"
    )]
    Time(#[from] NotAMoment),
    /// The name of the person could forge a line.
    #[error("{0}; nothing was saved")]
    Hidden(#[from] HiddenCharacter),
    /// A case that would not read back as it is.
    #[error("the case cannot be stored ({0}); nothing was saved")]
    Case(Box<CaseFileError>),
    /// No random numbers for the name of a case.
    #[error("the system gave no random numbers ({0}); nothing was saved")]
    Random(getrandom::Error),
    /// The person stopped it.
    #[error("stopped")]
    Stopped,
    /// Anything else the database says.
    #[error("the database reports: {0}")]
    Database(Problem),
}

/// A problem in the words of the database or of this crate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem(String);

impl Problem {
    pub(crate) fn new(words: impl Into<String>) -> Self {
        Self(words.into())
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

fn list(cases: &[CaseId]) -> String {
    let names: Vec<_> = cases.iter().map(|case| case.short()).collect();
    names.join(", ")
}

fn newest_sheet(newest: Option<SheetNumber>) -> String {
    newest.map_or_else(
        || "none was signed yet".to_owned(),
        |newest| format!("its newest is {newest}"),
    )
}

/// Why nothing was signed.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SignError {
    /// Somebody saved the case meanwhile.
    #[error(
        "the case was changed meanwhile: revision {} by {} at {}; nothing was signed",
        theirs.entry.number, theirs.entry.saved_by,
        moment(theirs.entry.saved_at)
    )]
    Conflict {
        /// The newest revision.
        theirs: Box<Revision>,
    },
    /// This revision is signed.
    #[error(
        "the case is signed as it stands: sheet {} by {} at {}; nothing was signed",
        sheet.number, sheet.signed_by, moment(sheet.signed_at)
    )]
    AlreadySigned {
        /// Its sheet.
        sheet: Box<SheetEntry>,
    },
    /// Something stands against it.
    #[error("the plan cannot be signed; {}", obstacles_in_words(obstacles))]
    Obstacles {
        /// Everything that does.
        obstacles: Vec<Obstacle>,
    },
    /// The register itself.
    #[error(transparent)]
    Register(#[from] RegisterError),
}

fn obstacles_in_words(obstacles: &[Obstacle]) -> String {
    let words: Vec<_> = obstacles.iter().map(ToString::to_string).collect();
    words.join("; ")
}

/// Why nothing was saved.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SaveError {
    /// Somebody else saved the case meanwhile. Theirs is kept, and so is what was to be saved, by the
    /// caller; a person chooses.
    #[error(
        "the case was changed meanwhile: revision {} by {} at {}; nothing was saved",
        theirs.entry.number, theirs.entry.saved_by,
        moment(theirs.entry.saved_at)
    )]
    Conflict {
        /// What stands in the register.
        theirs: Box<Revision>,
    },
    /// The register could not do it.
    #[error(transparent)]
    Register(#[from] RegisterError),
}

impl Fault {
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

    /// Something stored that cannot be.
    pub(crate) fn damaged(words: impl Into<String>) -> Self {
        Self::Damaged(Problem::new(words))
    }
}

impl From<rusqlite::Error> for Fault {
    fn from(error: rusqlite::Error) -> Self {
        let problem = Problem::new(error.to_string());
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
