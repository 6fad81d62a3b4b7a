//! What a register hands out.

use core::fmt;

use chrono::{DateTime, NaiveDate, Utc};
use millrace_core::biometry::Side;
use millrace_core::case::{Draft, ListNumber, State};
use millrace_core::signing::SheetNumber;

use crate::case_id::CaseId;

/// Place of a revision among all saves of a register, over all cases.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Sequence(pub(crate) i64);

impl Sequence {
    /// Before the first save.
    pub const START: Self = Self(0);
}

/// SHA-256 over a revision and the hash of the one before it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct RevisionHash(pub(crate) [u8; 32]);

impl fmt::Display for RevisionHash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for RevisionHash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

/// One saved change of a case, without the case itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RevisionEntry {
    pub case: CaseId,
    /// Counts from 1 within the case.
    pub number: u32,
    /// Place among all saves.
    pub sequence: Sequence,
    pub saved_at: DateTime<Utc>,
    pub saved_by: String,
    /// At which desk, if it was named.
    pub desk: Option<String>,
    /// With which program and version.
    pub program: String,
    /// Chained to the revision before.
    pub hash: RevisionHash,
}

/// One saved change with the case as it was saved.
#[derive(Clone, Debug, PartialEq)]
pub struct Revision {
    /// Number, time, person.
    pub entry: RevisionEntry,
    pub draft: Draft,
}

/// A case as a list shows it: its newest revision without the measurements.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CaseEntry {
    pub case: CaseId,
    pub revision: u32,
    /// Place of that revision among all saves.
    pub sequence: Sequence,
    pub saved_at: DateTime<Utc>,
    pub saved_by: String,
    /// How far the case has come; signed if its newest revision is, but for its place in the order of the day.
    pub state: State,
    /// Its newest sheet; the case was changed since, unless it is signed.
    pub sheet: Option<SheetNumber>,
    pub eye: Option<Side>,
    pub operation_date: Option<NaiveDate>,
    /// Place in the order of that day.
    pub list_number: Option<ListNumber>,
    pub name: Option<String>,
    pub number: Option<String>,
    pub birth_date: Option<NaiveDate>,
}
