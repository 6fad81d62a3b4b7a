//! What was being typed when a window ended otherwise than by being closed.

use chrono::NaiveDateTime;

use super::CaseId;

/// A text that stands in a field and is not on the drive with its case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TypedText {
    pub case: CaseId,
    /// The code of the page that the field stands on.
    pub page: String,
    /// The field; the desk alone knows which.
    pub field: u64,
    /// What it was called.
    pub what: String,
    pub text: String,
}

/// Names one of the texts that are left behind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct LeftId(pub u64);

/// A text of a window that ended before its case was stored with it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftText {
    pub id: LeftId,
    pub typed: TypedText,
    /// Whose case it is, as far as it is entered.
    pub patient: Option<String>,
    /// When it was kept, by the clock on the wall.
    pub at: NaiveDateTime,
}
