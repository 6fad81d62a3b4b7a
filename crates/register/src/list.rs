//! The theatre list: cases by planned day and name, found by name or number, changed elsewhere.

use chrono::NaiveDate;
use millrace_core::calendar::{Day, Moment};
use millrace_core::case::State;
use rusqlite::{Row, params};

use crate::entry::{CaseEntry, Sequence};
use crate::error::{Fault, RegisterError};
use crate::fold::query;
use crate::open::Register;
use crate::read::{eye_of, parsed};
use crate::sheet::sheet_number;

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
}

const COLUMNS: &str = "current.case_id, current.revision, current.sequence, current.saved_at, \
     current.saved_by, current.state, current.eye, current.operation_date, current.name, \
     current.number, current.birth_date, \
     (SELECT number FROM sheet WHERE case_id = current.case_id ORDER BY number DESC LIMIT 1), \
     (SELECT revision FROM sheet WHERE case_id = current.case_id ORDER BY number DESC LIMIT 1)";
/// Cases without a planned day stand last.
const ORDER: &str = "current.operation_date IS NULL, current.operation_date, \
     current.name_folded, current.case_key";

/// From as many hits on it is quicker to walk the list than to sort them.
const MANY: u64 = 2_000;

impl Register {
    pub fn count(&self) -> Result<u64, RegisterError> {
        let count = self.one("SELECT count(*) FROM current");
        count.map_err(Fault::at(&self.path))
    }

    /// Part of the theatre list: by planned day, cases without one last; then by name.
    pub fn list(&self, window: Window) -> Result<Vec<CaseEntry>, RegisterError> {
        let text = format!("SELECT {COLUMNS} FROM current ORDER BY {ORDER} LIMIT ?1 OFFSET ?2");
        self.entries(&text, params![window.limit, window.offset])
            .map_err(Fault::at(&self.path))
    }

    /// The cases planned for a day, in the order of the list.
    pub fn on(&self, day: NaiveDate) -> Result<Vec<CaseEntry>, RegisterError> {
        let text =
            format!("SELECT {COLUMNS} FROM current WHERE operation_date = ?1 ORDER BY {ORDER}");
        self.entries(&text, params![day.to_string()])
            .map_err(Fault::at(&self.path))
    }

    /// Cases whose name or number has, for each typed word, a word that begins so; in the order of the
    /// list. Capitals, accents and apostrophes make no difference.
    pub fn search(&self, typed: &str, window: Window) -> Result<Vec<CaseEntry>, RegisterError> {
        let Some(query) = query(typed) else {
            return Ok(Vec::new());
        };
        let found = self.found(&query).map_err(Fault::at(&self.path))?;
        // Few are fetched and put in order; of many, the list is walked in its order until the
        // window is full. Both find the same.
        let (hint, key) = if found < MANY {
            ("", "current.case_key")
        } else {
            ("INDEXED BY current_in_order", "+current.case_key")
        };
        let text = format!(
            "SELECT {COLUMNS} FROM current {hint}
             WHERE {key} IN (SELECT rowid FROM search WHERE search MATCH ?1)
             ORDER BY {ORDER} LIMIT ?2 OFFSET ?3"
        );
        self.entries(&text, params![query, window.limit, window.offset])
            .map_err(Fault::at(&self.path))
    }

    /// Number of cases a search finds.
    pub fn count_found(&self, typed: &str) -> Result<u64, RegisterError> {
        let Some(query) = query(typed) else {
            return Ok(0);
        };
        self.found(&query).map_err(Fault::at(&self.path))
    }

    /// Cases that were saved, by whichever program, after a place among the saves; in that order.
    pub fn changed_since(&self, seen: Sequence) -> Result<Vec<CaseEntry>, RegisterError> {
        let text = format!("SELECT {COLUMNS} FROM current WHERE ?1 < sequence ORDER BY sequence");
        self.entries(&text, params![seen.0])
            .map_err(Fault::at(&self.path))
    }

    fn found(&self, query: &str) -> Result<u64, Fault> {
        let mut statement = self
            .connection
            .prepare_cached("SELECT count(*) FROM search WHERE search MATCH ?1")?;
        let count: i64 = statement.query_row([query], |row| row.get(0))?;
        Ok(u64::try_from(count).unwrap_or_default())
    }

    fn one(&self, query: &str) -> Result<u64, Fault> {
        let mut statement = self.connection.prepare_cached(query)?;
        let count: i64 = statement.query_row([], |row| row.get(0))?;
        Ok(u64::try_from(count).unwrap_or_default())
    }

    fn entries(
        &self,
        query: &str,
        parameters: impl rusqlite::Params,
    ) -> Result<Vec<CaseEntry>, Fault> {
        let mut statement = self.connection.prepare_cached(query)?;
        let mut rows = statement.query(parameters)?;
        let mut entries = Vec::new();
        while let Some(row) = rows.next()? {
            entries.push(case_entry(row)?);
        }
        Ok(entries)
    }
}

fn case_entry(row: &Row<'_>) -> Result<CaseEntry, Fault> {
    let date = |index| -> Result<Option<NaiveDate>, Fault> {
        let text: Option<String> = row.get(index)?;
        let day = text.as_deref().map(parsed::<Day>).transpose()?;
        Ok(day.map(|day| day.0))
    };
    let eye: Option<String> = row.get(6)?;
    let revision = row.get(1)?;
    let sheet: Option<u32> = row.get(11)?;
    let signed: Option<u32> = row.get(12)?;
    Ok(CaseEntry {
        case: parsed(&row.get::<_, String>(0)?)?,
        revision,
        sequence: Sequence(row.get(2)?),
        saved_at: parsed::<Moment>(&row.get::<_, String>(3)?)?.0,
        saved_by: row.get(4)?,
        state: if signed == Some(revision) {
            State::Signed
        } else {
            parsed(&row.get::<_, String>(5)?)?
        },
        sheet: sheet.map(sheet_number).transpose()?,
        eye: eye.as_deref().map(eye_of).transpose()?,
        operation_date: date(7)?,
        name: row.get(8)?,
        number: row.get(9)?,
        birth_date: date(10)?,
    })
}
