//! What a check says.

use millrace_core::case_file::CaseFileError;

use crate::clock::SetBack;
use crate::problem::Problem;

/// How far a check has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Checked {
    pub done: u64,
    pub total: u64,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub struct CheckReport {
    pub cases: u64,
    pub revisions: u64,
    pub sheets: u64,
    /// Everything that is not as it must be, at most a hundred; nothing in a sound register.
    pub problems: Vec<CheckProblem>,
    /// Where times run against the order, at most a hundred; no damage.
    pub set_back: Vec<SetBack>,
}

/// Something that is not as it must be.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum CheckProblem {
    File(Problem),
    /// A table, index or trigger differs from what this program makes.
    Schema {
        object: String,
    },
    /// Full-text search does not agree with the list.
    Search(Problem),
    /// Saves are missing between two others.
    Missing {
        /// Place of the first one that is missing.
        sequence: i64,
    },
    /// A revision is not the one after the last of its case.
    Order {
        case: String,
        revision: u32,
    },
    /// Content, person, time or order is not what was saved.
    Chain {
        case: String,
        revision: u32,
    },
    /// The case cannot be read.
    Body {
        case: String,
        revision: u32,
        error: CaseFileError,
    },
    /// Signed plans are missing between two others.
    MissingSheet {
        /// Number of the first one that is missing.
        number: u32,
    },
    /// A signed plan is not what was signed.
    Sheet {
        number: i64,
        problem: Problem,
    },
    /// The list shows something else than the newest revision.
    List {
        case: String,
    },
}
