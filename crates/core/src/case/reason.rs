//! Going against a finding, on the record.

use chrono::NaiveDate;

use crate::rules::{Fact, Limit};

/// Who did something, and when; passed in, since this crate reads no clock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Author {
    /// The person.
    pub name: String,
    /// The day.
    pub on: NaiveDate,
}

/// A reason recorded for a finding as it stood.
///
/// It holds only while the finding is the same: a reason given for 2.60 mm says nothing of 2.10 mm.
#[derive(Clone, Debug, PartialEq)]
pub struct RecordedReason {
    /// Permanent id of the rule.
    pub rule: String,
    /// What the finding was.
    pub measured: Fact,
    /// What it stood against.
    pub limit: Limit,
    /// The reason.
    pub reason: String,
    /// Who recorded it, and when.
    pub author: Author,
}
