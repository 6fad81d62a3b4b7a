//! Why a file cannot be used.

use crate::case::CommandRefused;

/// Why a case file or a file of lens records cannot be used.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CaseFileError {
    /// Malformed, or a field that is unknown, missing, repeated or of the wrong kind.
    #[error("line {}, column {}: {}", .0.span.start.line, .0.span.start.col, .0.code)]
    Syntax(#[from] ron::error::SpannedError),
    /// The same of a document in JSON, as the register keeps it.
    #[error("line {line}, column {column}: {problem}")]
    Json {
        /// Line, from 1.
        line: usize,
        /// Column, from 1; 0 where the line ended too early.
        column: usize,
        problem: String,
    },
    #[error("this is a file of format \"{found}\", not \"{wanted}\"")]
    Format { found: String, wanted: &'static str },
    /// A version this program does not know.
    #[error("the file has version {found}; this program reads version {newest}")]
    Version {
        found: u32,
        /// Newest version this program reads.
        newest: u32,
    },
    /// A value that reads well but cannot be.
    #[error("{place}: {error}")]
    Content {
        place: &'static str,
        error: ContentError,
    },
    #[error("the file cannot be written: {0}")]
    Write(#[from] ron::Error),
    /// The serializer of JSON failed.
    #[error("the document cannot be written: {problem}")]
    WriteJson {
        /// What it could not write.
        problem: String,
    },
}

/// What is wrong with a value.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ContentError {
    /// A draft the program itself would not have made.
    #[error(transparent)]
    Command(#[from] CommandRefused),
    #[error("rule {rule} has more than one recorded reason")]
    RepeatedReason { rule: String },
}

impl CaseFileError {
    /// A problem of JSON; its own text repeats the place at the end.
    pub(crate) fn json(error: &serde_json::Error) -> Self {
        let (line, column) = (error.line(), error.column());
        let text = error.to_string();
        let place = format!(" at line {line} column {column}");
        Self::Json {
            line,
            column,
            problem: text.strip_suffix(&place).unwrap_or(&text).to_owned(),
        }
    }

    pub(crate) fn at(place: &'static str) -> impl Fn(ContentError) -> Self {
        move |error| Self::Content { place, error }
    }
}
