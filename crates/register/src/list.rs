//! The theatre list: cases by planned day and name, changed elsewhere; each held against what was saved.

use chrono::NaiveDate;
use millrace_core::case::{Draft, State};
use rusqlite::{Connection, OptionalExtension as _, Row};

use crate::case_id::CaseId;
use crate::catalog::{Catalog, Line};
use crate::entry::{CaseEntry, Sequence};
use crate::error::{Fault, RegisterError};
use crate::open::Register;
use crate::problem::Problem;
use crate::read::{self, parsed};
use crate::save::Columns;
use crate::sheet;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Window {
    pub offset: u32,
    /// Cases in it, at most.
    pub limit: u32,
}

impl Window {
    pub const ALL: Self = Self {
        offset: 0,
        limit: u32::MAX,
    };

    pub(crate) fn of<T>(self, all: impl Iterator<Item = T>) -> impl Iterator<Item = T> {
        let place = |number: u32| usize::try_from(number).unwrap_or(usize::MAX);
        all.skip(place(self.offset)).take(place(self.limit))
    }
}

/// How many cases are planned for a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OnDay {
    /// Nothing for those without one.
    pub day: Option<NaiveDate>,
    pub cases: u64,
}

/// Cases cases a list is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cases {
    /// Those that are planned.
    InUse,
    SetAside,
}

fn counted(number: usize) -> u64 {
    u64::try_from(number).unwrap_or_default()
}

impl Catalog {
    /// In the order of the list.
    fn of(&self, which: Cases) -> impl Iterator<Item = &Line> {
        let in_use = which == Cases::InUse;
        self.lines
            .iter()
            .filter(move |line| line.is_in_use() == in_use)
    }
}

/// Cases without a planned day stand last, and in a day those without a number in its order.
pub(crate) const ORDER: &str = "operation_date IS NULL, operation_date, list_number IS NULL, list_number, \
     name_folded, case_key";
/// What the list says of a case, in the order [`Listed::of`] reads it.
pub(crate) const LISTED: &str = "c.case_id, c.revision, c.saved_at, c.saved_by, c.state, c.eye, \
     c.operation_date, c.name, c.number, c.birth_date, c.name_folded, c.number_folded, c.list_number";
/// The same of a register whose schema has no order of a day.
pub(crate) const LISTED_BEFORE: &str = "c.case_id, c.revision, c.saved_at, c.saved_by, c.state, \
     c.eye, c.operation_date, c.name, c.number, c.birth_date, c.name_folded, c.number_folded, NULL";

impl Register {
    /// How many cases the register holds, those that are set aside among them.
    pub fn count(&self) -> Result<u64, RegisterError> {
        self.read(|reading| Ok(counted(self.catalog(reading)?.lines.len())))
    }

    /// How many of these there are.
    pub fn count_of(&self, which: Cases) -> Result<u64, RegisterError> {
        self.read(|reading| {
            let catalog = self.catalog(reading)?;
            Ok(counted(catalog.of(which).count()))
        })
    }

    /// Part of the theatre list, or of what is set aside: by planned day, cases without one last; then by
    /// the number in the order of the day, cases without one last; then by name.
    ///
    /// # Errors
    ///
    /// [`Fault::Damaged`] if the list does not agree with its indexes, or a case in the window not with what
    /// was saved.
    pub fn list(&self, which: Cases, window: Window) -> Result<Vec<CaseEntry>, RegisterError> {
        self.read(|reading| {
            let catalog = self.catalog(reading)?;
            let lines = window.of(catalog.of(which));
            lines.map(|line| line.entry(reading)).collect()
        })
    }

    /// The cases planned for a day, in the order of the list.
    pub fn on(&self, day: NaiveDate) -> Result<Vec<CaseEntry>, RegisterError> {
        let day = Some(day.to_string());
        self.read(|reading| {
            let catalog = self.catalog(reading)?;
            let planned = catalog.of(Cases::InUse);
            let lines = planned.filter(|line| line.operation_date == day);
            lines.map(|line| line.entry(reading)).collect()
        })
    }

    /// Each day that cases are planned for, in order, and last those without one; with how many there are.
    ///
    /// # Errors
    ///
    /// [`Fault::Damaged`] if the list does not agree with its indexes, or a day of it is none.
    pub fn by_day(&self) -> Result<Vec<OnDay>, RegisterError> {
        self.read(|reading| {
            let catalog = self.catalog(reading)?;
            let mut days: Vec<(Option<&str>, u64)> = Vec::new();
            for line in catalog.of(Cases::InUse) {
                let day = line.operation_date.as_deref();
                match days.last_mut() {
                    Some((last, cases)) if *last == day => *cases += 1,
                    _ => days.push((day, 1)),
                }
            }
            let days = days.into_iter().map(|(day, cases)| {
                let day = day.map(parsed).transpose()?;
                Ok(OnDay { day, cases })
            });
            days.collect()
        })
    }

    /// How many cases of the list stand before this one; nothing if it is set aside, or no case of the register.
    ///
    /// # Errors
    ///
    /// [`Fault::Damaged`] if the list does not agree with its indexes.
    pub fn place_of(&self, case: CaseId) -> Result<Option<u64>, RegisterError> {
        let case = case.to_string();
        self.read(|reading| {
            let catalog = self.catalog(reading)?;
            let place = catalog.of(Cases::InUse).position(|line| line.case == case);
            Ok(place.map(counted))
        })
    }

    /// Cases that were saved, by whichever program, after a place among the saves; in that order.
    pub fn changed_since(&self, seen: Sequence) -> Result<Vec<CaseEntry>, RegisterError> {
        self.read(|reading| {
            let catalog = self.catalog(reading)?;
            let mut lines: Vec<_> = catalog
                .lines
                .iter()
                .filter(|line| seen.0 < line.sequence)
                .collect();
            lines.sort_unstable_by_key(|line| line.sequence);
            lines.iter().map(|line| line.entry(reading)).collect()
        })
    }
}

/// What the list says of a case.
pub(crate) struct Listed {
    case: String,
    pub(crate) revision: u32,
    saved_at: String,
    saved_by: String,
    columns: Columns,
}

/// A revision and what is hashed with it, as texts.
pub(crate) struct Newest<'a> {
    pub(crate) case: &'a str,
    pub(crate) number: u32,
    pub(crate) saved_at: &'a str,
    pub(crate) saved_by: &'a str,
}

impl Listed {
    /// From the columns of [`LISTED`] that begin at `first`.
    pub(crate) fn of(row: &Row<'_>, first: usize) -> Result<Self, rusqlite::Error> {
        Ok(Self {
            case: row.get(first)?,
            revision: row.get(first + 1)?,
            saved_at: row.get(first + 2)?,
            saved_by: row.get(first + 3)?,
            columns: Columns {
                state: row.get(first + 4)?,
                eye: row.get(first + 5)?,
                operation_date: row.get(first + 6)?,
                name: row.get(first + 7)?,
                number: row.get(first + 8)?,
                birth_date: row.get(first + 9)?,
                name_folded: row.get(first + 10)?,
                number_folded: row.get(first + 11)?,
                list_number: row.get(first + 12)?,
            },
        })
    }

    pub(crate) fn shows(&self, newest: &Newest<'_>, draft: &Draft) -> bool {
        self.case == newest.case
            && self.revision == newest.number
            && self.saved_at == newest.saved_at
            && self.saved_by == newest.saved_by
            && self.columns == Columns::of(draft)
    }

    fn is_line(&self, line: &Line) -> bool {
        self.case == line.case
            && self.columns.operation_date == line.operation_date
            && self.columns.list_number == line.list_number
            && self.columns.name_folded == line.name_folded
            && self.columns.number == line.number
            && self.columns.number_folded == line.number_folded
            && self.columns.state == line.state
    }
}

impl Line {
    /// What the list shows of it, held against the newest revision of the case and its hash.
    pub(crate) fn entry(&self, reading: &Connection) -> Result<CaseEntry, Fault> {
        let case = self.id()?;
        let differs = || Fault::Damaged(Problem::ListDiffers { case });
        let text = format!("SELECT {LISTED} FROM current AS c WHERE c.case_key = ?1");
        let mut statement = reading.prepare_cached(&text)?;
        let listed = statement.query_row([self.key], |row| Listed::of(row, 0));
        let listed = listed.optional()?.ok_or_else(differs)?;
        let newest = read::newest(reading, case)?;
        let read::Stored { revision, saved_at } = read::stored(reading, case, newest)?;
        let entry = &revision.entry;
        let saved = Newest {
            case: &self.case,
            number: newest,
            saved_at: &saved_at,
            saved_by: &entry.saved_by,
        };
        let agrees = listed.is_line(self)
            && listed.shows(&saved, &revision.draft)
            && entry.sequence.0 == self.sequence;
        if !agrees {
            return Err(differs());
        }
        let signed = sheet::numbers_of(reading, case)?.pop();
        let is_signed = match &signed {
            Some(signed) => sheet::stands_for(reading, case, signed)?,
            None => false,
        };
        let draft = revision.draft;
        Ok(CaseEntry {
            case,
            revision: newest,
            sequence: entry.sequence,
            saved_at: entry.saved_at,
            saved_by: entry.saved_by.clone(),
            state: if is_signed {
                State::Signed
            } else {
                State::of(&draft)
            },
            sheet: signed.map(|signed| signed.number),
            eye: draft.operation.eye,
            operation_date: draft.operation.date,
            list_number: draft.operation.list_number,
            name: draft.patient.name,
            number: draft.patient.number,
            birth_date: draft.patient.birth_date,
        })
    }
}
