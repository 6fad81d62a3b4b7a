//! The theatre list, as it is handed to the desk part by part.

use chrono::NaiveDate;
use millrace_core::biometry::Side;
use millrace_core::case::{ListNumber, State};
use millrace_core::signing::SheetNumber;

use super::CaseId;

/// Which cases are listed. A search finds those of both.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Listing {
    #[default]
    Planned,
    SetAside,
}

/// Rows of the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listed {
    pub search: String,
    pub listing: Listing,
    /// How many cases of the register are set aside.
    pub set_aside: usize,
    /// How many rows there are altogether.
    pub total: usize,
    /// Where these begin.
    pub start: usize,
    pub rows: Vec<CaseRow>,
    /// How many of the rows stand on each day, in their order; nothing where they are not told by days.
    pub days: Vec<OnDay>,
    /// Where the open case stands in the whole list; nothing if it does not stand there.
    pub open: Option<Stands>,
}

/// One row of the theatre list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CaseRow {
    pub case: CaseId,
    /// Family name, given names.
    pub name: Option<String>,
    pub number: Option<String>,
    pub eye: Option<Side>,
    pub date: Option<NaiveDate>,
    /// Place in the order of that day, where the team gave one.
    pub list_number: Option<ListNumber>,
    pub state: State,
    /// Its newest sheet; the case was changed since, unless it is signed.
    pub sheet: Option<SheetNumber>,
}

/// How many cases stand on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OnDay {
    /// Nothing for those without one.
    pub day: Option<NaiveDate>,
    pub count: usize,
}

/// Where a case stands in the whole list, as it is stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stands {
    pub case: CaseId,
    pub day: Option<NaiveDate>,
    /// How many rows stand before it.
    pub at: usize,
}
