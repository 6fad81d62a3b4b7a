//! Why a command could not do its work.

use std::io;
use std::path::{Path, PathBuf};

use millrace_core::case_file::CaseFileError;
use millrace_core::limits::{LimitError, Limits};
use millrace_core::plan::PlanRefused;
use millrace_core::signing::{CannotRecompute, FingerprintError, SheetNumber};
use millrace_register::{RegisterError, SaveError, SignError};

/// A failure, as it is told to the user; the path stands last.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    #[error("cannot read: {error}: {}", path.display())]
    Read { path: PathBuf, error: io::Error },
    #[error("not a text file (UTF-8): {}", path.display())]
    NotText { path: PathBuf },
    #[error("cannot write: {error}: {}", path.display())]
    Write { path: PathBuf, error: io::Error },
    #[error("cannot write the output: {0}")]
    Output(io::Error),
    #[error("case refused: {error}: {}", path.display())]
    Case {
        path: PathBuf,
        error: Box<CaseFileError>,
    },
    #[error("case refused: {error}: {}", path.display())]
    Plan { path: PathBuf, error: PlanRefused },
    #[error("{error}: {}", path.display())]
    Limits {
        path: PathBuf,
        error: Box<LimitError>,
    },
    #[error("no window can be opened: {0}; the commands work without one, see millrace --help")]
    Window(String),
    #[error("simulation refused: {0}")]
    Simulation(millrace_core::simulation::SimulationError),
    #[error("no {kind} is called \"{name}\"; there are: {known}")]
    Unknown {
        kind: &'static str,
        name: String,
        known: String,
    },
    #[error("header refused: {problem}: {}", path.display())]
    Header {
        path: PathBuf,
        problem: crate::tabulate::HeaderError,
    },
    #[error("the output would overwrite the input: {}", path.display())]
    SameFile { path: PathBuf },
    #[error("the file exists; --force replaces it: {}", path.display())]
    Exists { path: PathBuf },
    #[error("no sheet is written: {0}")]
    Sheet(#[from] millrace_sheet::SheetError),
    #[error("{0}")]
    Register(#[from] RegisterError),
    #[error("{0}")]
    Save(#[from] SaveError),
    #[error("nothing was imported: {refused} of {files} files refused")]
    Import { refused: usize, files: usize },
    #[error("a further revision of a case is imported from one file, not {files}")]
    OneFile { files: usize },
    #[error("the system does not tell who you are: name yourself with --who")]
    Nobody,
    #[error("no case file was named")]
    NoCase,
    #[error("sheets are numbered from 1")]
    NoSheet,
    #[error("no case of the register is planned for {}", millrace_core::words::day(*day))]
    NobodyOn { day: chrono::NaiveDate },
    #[error("{0}")]
    Fingerprint(FingerprintError),
    #[error("{0}")]
    Sign(#[from] SignError),
    #[error("sheet {number} cannot be computed again: {error}")]
    Recompute {
        number: SheetNumber,
        error: Box<CannotRecompute>,
    },
    #[error("this system has no place for a register: name one with --register")]
    NoPlace,
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

    pub(crate) fn is_closed_pipe(&self) -> bool {
        matches!(self, Self::Output(error) if error.kind() == io::ErrorKind::BrokenPipe)
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

/// Reads a whole text file.
pub(crate) fn read_text(path: &Path) -> Result<String, Failure> {
    let bytes = std::fs::read(path).map_err(Failure::reading(path))?;
    let text = String::from_utf8(bytes).map_err(|_| Failure::NotText {
        path: path.to_owned(),
    })?;
    // Some editors put a byte-order mark in front; it is no part of the text.
    Ok(match text.strip_prefix('\u{feff}') {
        Some(rest) => rest.to_owned(),
        None => text,
    })
}
