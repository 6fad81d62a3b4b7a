//! Why a command could not do its work.

use std::borrow::Cow;
use std::fs::File;
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};

use millrace_core::case_file::CaseFileError;
use millrace_core::limits::{LimitError, Limits};
use millrace_core::plan::PlanRefused;
use millrace_core::reference::FORMULAS;
use millrace_core::rules;
use millrace_core::signing::{CannotRecompute, FingerprintError, SheetNumber};
use millrace_press::PressError;
use millrace_register::{NotAHead, RegisterError, SaveError, SignError};
use millrace_wording::{Show, Words, command_line as say, limits, press};

use crate::{NOT_SHOWN, REFUSED};

/// A failure, as it is told to the user; the path stands last.
#[derive(Debug, thiserror::Error)]
#[error("{self:?}")]
pub(crate) enum Failure {
    Read {
        path: PathBuf,
        error: io::Error,
    },
    NotText {
        path: PathBuf,
    },
    /// Larger than any file of its kind is.
    TooLarge {
        path: PathBuf,
    },
    Write {
        path: PathBuf,
        error: io::Error,
    },
    Output(io::Error),
    Case {
        path: PathBuf,
        error: Box<CaseFileError>,
    },
    Plan {
        path: PathBuf,
        error: PlanRefused,
    },
    Limits {
        path: PathBuf,
        error: Box<LimitError>,
    },
    Window(String),
    Simulation(millrace_simulate::SimulationError),
    NoFormula {
        name: String,
    },
    NoRule {
        name: String,
    },
    Json(serde_json::Error),
    Header {
        path: PathBuf,
        problem: crate::tabulate::HeaderError,
    },
    SameFile {
        path: PathBuf,
    },
    /// The output would take the place of a register, a backup, or a file that belongs to one.
    OverRegister {
        path: PathBuf,
    },
    /// What was asked is done and on the drive, and the answer could not be written.
    NotShown(io::Error),
    Exists {
        path: PathBuf,
    },
    Press(#[from] PressError),
    /// A sheet of this number that was signed, by a press that died.
    NotPrinted {
        number: SheetNumber,
        error: PressError,
    },
    /// Nothing was signed: whether it could be printed was not found out.
    NotTried(PressError),
    Register(#[from] RegisterError),
    Save(#[from] SaveError),
    Import {
        refused: usize,
        files: usize,
    },
    OneFile {
        files: usize,
    },
    Nobody,
    NoCase,
    /// Why the clinic's lens records cannot be read or kept.
    LensRecords(String),
    NoLensRecords {
        path: PathBuf,
    },
    /// A file of lens records.
    LensFile {
        path: PathBuf,
        error: Box<CaseFileError>,
    },
    /// Two records of one name to import.
    LensTwice {
        path: PathBuf,
        name: String,
    },
    /// Records of these names are kept, and are others.
    LensesThere {
        count: usize,
    },
    /// Neither a file nor a case of the register.
    NoFileNoCase {
        case: String,
        error: RegisterError,
    },
    NoSheet,
    NobodyOn {
        day: chrono::NaiveDate,
    },
    Fingerprint(FingerprintError),
    Head(NotAHead),
    Sign(#[from] SignError),
    Recompute {
        number: SheetNumber,
        error: Box<CannotRecompute>,
    },
    NoPlace,
}

impl Show for Failure {
    fn show(&self, words: Words) -> Cow<'_, str> {
        let at = |path: &Path| path.display().to_string();
        match self {
            Self::Read { path, error } => say::cannot_read(words, error.to_string(), at(path)),
            Self::NotText { path } => say::not_text(words, at(path)),
            Self::TooLarge { path } => say::too_large(words, LARGEST_TEXT.to_string(), at(path)),
            Self::Write { path, error } => say::cannot_write(words, error.to_string(), at(path)),
            Self::Output(error) => say::no_output(words, error.to_string()),
            Self::Json(error) => say::document_not_written(words, error.to_string()),
            Self::Case { path, error } => say::case_refused(words, error, at(path)),
            Self::Plan { path, error } => say::case_refused(words, error, at(path)),
            Self::Limits { path, error } => {
                say::refused_at(words, limits::in_file(words, error), at(path))
            }
            Self::Window(problem) => say::no_window(words, problem),
            Self::Simulation(error) => {
                say::simulation_refused(words, crate::simulate::refused(error, words))
            }
            Self::NoFormula { name } => {
                let known = words.list(FORMULAS.iter().map(|entry| entry.key));
                say::no_such_formula(words, name, known)
            }
            Self::NoRule { name } => {
                let known = words.list(rules::ALL.iter().map(|rule| rule.id));
                say::no_such_rule(words, name, known)
            }
            Self::Header { path, problem } => say::header_refused(words, problem, at(path)),
            Self::SameFile { path } => say::same_file(words, at(path)),
            Self::OverRegister { path } => say::over_register(words, at(path)),
            Self::NotShown(error) => say::done_not_shown(words, error.to_string()),
            Self::Exists { path } => say::file_exists(words, at(path)),
            Self::Press(error) => say::no_sheet_written(words, error),
            Self::NotPrinted { number, error } => {
                say::no_sheet_written(words, press::still_signed(words, error, number.get()))
            }
            Self::NotTried(error) => press::nothing_signed(words, error),
            Self::Register(error) => return error.show(words),
            Self::Save(error) => return error.show(words),
            Self::Import { refused, files } => say::nothing_imported(words, refused, files),
            Self::LensRecords(problem) => return problem.into(),
            Self::NoLensRecords { path } => say::no_lens_records(words, at(path)),
            Self::LensFile { path, error } => say::lenses_refused(words, error, at(path)),
            Self::LensTwice { path, name } => say::lens_twice(words, name, at(path)),
            Self::LensesThere { count } => say::lenses_there(words, *count),
            Self::NoFileNoCase { case, error } => say::no_file_no_case(words, case, error),
            Self::OneFile { files } => say::one_file(words, files),
            Self::Nobody => return say::nobody(words).into(),
            Self::NoCase => return say::no_case_named(words).into(),
            Self::NoSheet => return say::sheets_from_1(words).into(),
            Self::NobodyOn { day } => say::nobody_on(words, day),
            Self::Fingerprint(error) => return error.show(words),
            Self::Head(error) => return error.show(words),
            Self::Sign(error) => return error.show(words),
            Self::Recompute { number, error } => {
                say::not_computed_again(words, number.get(), error)
            }
            Self::NoPlace => return say::no_place(words).into(),
        }
        .into()
    }
}

impl Failure {
    pub(crate) fn reading(path: &Path) -> impl FnOnce(io::Error) -> Self {
        let path = path.to_owned();
        move |error| Self::Read { path, error }
    }

    pub(crate) fn writing(path: &Path) -> impl FnOnce(io::Error) -> Self {
        let path = path.to_owned();
        move |error| Self::Write { path, error }
    }

    pub(crate) fn exists(path: &Path) -> Self {
        Self::Exists {
            path: path.to_owned(),
        }
    }

    /// What the program ends with.
    pub(crate) const fn status(&self) -> u8 {
        match self {
            Self::NotShown(_) => NOT_SHOWN,
            _ => REFUSED,
        }
    }

    /// Of a sheet that was signed: what is said against the sheet itself, or that it is not lost.
    pub(crate) fn not_printed(number: SheetNumber, error: PressError) -> Self {
        if error.is_of_the_press() {
            return Self::NotPrinted { number, error };
        }
        Self::Press(error)
    }

    /// Of a signature that was not given, for the same two reasons.
    pub(crate) fn not_signed(error: PressError) -> Self {
        if error.is_of_the_press() {
            return Self::NotTried(error);
        }
        Self::Press(error)
    }

    pub(crate) fn is_closed_pipe(&self) -> bool {
        matches!(self, Self::Output(error) | Self::NotShown(error) if error.kind() == io::ErrorKind::BrokenPipe)
    }
}

/// The clinic's limits, or the shipped ones.
pub(crate) fn read_limits(path: Option<&Path>) -> Result<Limits, Failure> {
    let Some(path) = path else {
        return Ok(Limits::shipped().clone());
    };
    Limits::parse(&read_text(path)?).map_err(|error| Failure::Limits {
        path: path.to_owned(),
        error: Box::new(error),
    })
}

/// Largest text file that is read, bytes (house value: twice a case whose every text is as long and whose every
/// list is as full as may be).
pub(crate) const LARGEST_TEXT: u64 = 8 * 1024 * 1024;

/// Reads a whole text file, and no more of it than such a file can have: a device or a pipe has no end.
pub(crate) fn read_text(path: &Path) -> Result<String, Failure> {
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(Failure::reading(path))?;
    file.take(LARGEST_TEXT + 1)
        .read_to_end(&mut bytes)
        .map_err(Failure::reading(path))?;
    if bytes.len() as u64 > LARGEST_TEXT {
        return Err(Failure::TooLarge {
            path: path.to_owned(),
        });
    }
    let text = String::from_utf8(bytes).map_err(|_| Failure::NotText {
        path: path.to_owned(),
    })?;
    // Some editors put a byte-order mark in front; it is no part of the text.
    Ok(match text.strip_prefix('\u{feff}') {
        Some(rest) => rest.to_owned(),
        None => text,
    })
}
