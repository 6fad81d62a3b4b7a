//! What is stored here, and what was stored elsewhere meanwhile.

use chrono::NaiveDateTime;
use millrace_core::case::Draft;

use super::{CaseId, Revision, SheetRow};

/// Who stored something, and where.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Who {
    /// Empty until somebody said who sits at the desk.
    pub person: String,
    /// The name of the desk, if it has one.
    pub desk: Option<String>,
}

/// A draft to be stored as the next revision after `seen`.
#[derive(Clone, Debug, PartialEq)]
pub struct SaveRequest {
    pub case: CaseId,
    /// The revision the change started from; another one since then is a conflict.
    pub seen: Revision,
    pub draft: Box<Draft>,
    pub by: Who,
}

/// What was stored elsewhere while a draft changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    pub revision: Revision,
    /// What both began as; nothing if it cannot be read.
    pub base: Option<Box<Draft>>,
    pub theirs: Box<Draft>,
    pub by: Who,
}

/// What is stored now of the open case, by somebody else.
#[derive(Clone, Debug, PartialEq)]
pub struct Newer {
    pub case: CaseId,
    pub revision: Revision,
    pub draft: Box<Draft>,
    /// The sheets signed for it; nothing if they cannot be read.
    pub sheets: Option<Vec<SheetRow>>,
    pub by: Who,
    /// When it was stored, by the clock on the wall.
    pub at: NaiveDateTime,
}
