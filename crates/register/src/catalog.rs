//! The list in memory: what cases are ordered and found by, read from the table itself and held against
//! every index of it.
//!
//! A failing drive that changes one place changes the table or one index, never both alike; so a case that
//! an index lost, moved or gave to another is noticed before anybody is told that there is none.

use std::sync::Arc;

use millrace_core::case::State;
use rusqlite::{Connection, Row};

use crate::case_id::CaseId;
use crate::error::{Fault, RegisterError};
use crate::list::ORDER;
use crate::open::Register;
use crate::problem::{Index, Problem};
use crate::read::parsed;

/// What a case is ordered and found by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Line {
    pub(crate) key: i64,
    pub(crate) case: String,
    pub(crate) sequence: i64,
    pub(crate) operation_date: Option<String>,
    pub(crate) list_number: Option<u8>,
    pub(crate) name_folded: String,
    pub(crate) number: Option<String>,
    pub(crate) number_folded: String,
    pub(crate) state: String,
}

/// Every case, in the order of the list.
#[derive(Debug)]
pub(crate) struct Catalog {
    read_at: ReadAt,
    pub(crate) lines: Vec<Line>,
}

/// Tells whether anything was saved since: by other programs, and by this one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct ReadAt {
    of_others: i64,
    of_our_own: u64,
}

impl Register {
    /// A number that changes when another program saved or signed something; it costs a look at the journal and
    /// reads no case.
    ///
    /// # Errors
    ///
    /// [`RegisterError`] if the register is gone from its place or cannot be read.
    pub fn changes_of_others(&self) -> Result<i64, RegisterError> {
        self.read(|reading| Ok(reading.pragma_query_value(None, "data_version", |row| row.get(0))?))
    }

    /// The catalog as the register stands, read anew if anybody saved since the last time.
    pub(crate) fn catalog(&self, reading: &Connection) -> Result<Arc<Catalog>, Fault> {
        let now = ReadAt {
            of_others: reading.pragma_query_value(None, "data_version", |row| row.get(0))?,
            of_our_own: reading.total_changes(),
        };
        let mut kept = self.catalog.borrow_mut();
        if let Some(catalog) = kept.as_ref().filter(|catalog| catalog.read_at == now) {
            return Ok(Arc::clone(catalog));
        }
        let lines = lines(reading)?;
        let read_at = now;
        let catalog = Arc::new(Catalog { read_at, lines });
        *kept = Some(Arc::clone(&catalog));
        Ok(catalog)
    }
}

impl Line {
    pub(crate) fn id(&self) -> Result<CaseId, Fault> {
        parsed(&self.case)
    }

    /// Whether it is still planned.
    pub(crate) fn is_in_use(&self) -> bool {
        self.state != State::SetAside.word()
    }

    fn by_state(&self) -> impl Ord + '_ {
        (&self.state, &self.operation_date, self.key)
    }

    fn in_order(&self) -> impl Ord + '_ {
        let (day, number) = (&self.operation_date, self.list_number);
        let of_day = (number.is_none(), number);
        (day.is_none(), day, of_day, &self.name_folded, self.key)
    }
}

/// Every case in the order of the list, held against every index of it.
pub(crate) fn lines(reading: &Connection) -> Result<Vec<Line>, Fault> {
    let mut statement = reading.prepare_cached(
        "SELECT case_key, case_id, sequence, operation_date, name_folded, number, number_folded,
            state, list_number
         FROM current NOT INDEXED ORDER BY case_key",
    )?;
    let rows = statement.query_map([], line)?;
    let mut lines = rows.collect::<Result<Vec<_>, _>>()?;
    let once = lines.is_sorted_by(|first, second| first.key < second.key);
    if !once {
        return Err(differs());
    }
    hold_against_indexes(reading, &mut lines)?;
    Ok(lines)
}

/// Leaves the lines in the order of the list.
fn hold_against_indexes(reading: &Connection, lines: &mut [Line]) -> Result<(), Fault> {
    lines.sort_unstable_by(|first, second| first.case.cmp(&second.case));
    let by_case = "SELECT case_key, case_id FROM current INDEXED BY sqlite_autoindex_current_1
         ORDER BY case_id";
    same(reading, by_case, lines, |line, row| {
        Ok(row.get_ref(1)?.as_str()? == line.case)
    })?;

    lines.sort_unstable_by_key(|line| line.sequence);
    let by_sequence = "SELECT case_key, sequence FROM current
         INDEXED BY sqlite_autoindex_current_2 ORDER BY sequence";
    same(reading, by_sequence, lines, |line, row| {
        Ok(row.get::<_, i64>(1)? == line.sequence)
    })?;

    lines.sort_unstable_by(|first, second| {
        (&first.number, first.key).cmp(&(&second.number, second.key))
    });
    let by_number = "SELECT case_key, number FROM current INDEXED BY current_by_number
         ORDER BY number, case_key";
    same(reading, by_number, lines, |line, row| {
        Ok(row.get_ref(1)?.as_str_or_null()? == line.number.as_deref())
    })?;

    // By it alone a case is left out of the theatre list.
    lines.sort_unstable_by(|first, second| first.by_state().cmp(&second.by_state()));
    let by_state = "SELECT case_key, state FROM current INDEXED BY current_by_state
         ORDER BY state, operation_date, case_key";
    same(reading, by_state, lines, |line, row| {
        Ok(row.get_ref(1)?.as_str()? == line.state)
    })?;

    lines.sort_unstable_by(|first, second| first.in_order().cmp(&second.in_order()));
    let in_order = format!(
        "SELECT case_key, operation_date, name_folded, list_number FROM current
         INDEXED BY current_in_order
         ORDER BY {ORDER}"
    );
    same(reading, &in_order, lines, |line, row| {
        Ok(
            row.get_ref(1)?.as_str_or_null()? == line.operation_date.as_deref()
                && row.get_ref(2)?.as_str()? == line.name_folded
                && row.get::<_, Option<u8>>(3)? == line.list_number,
        )
    })
}

/// Walks an index from its beginning to its end: the same cases, in the same order, with the same keys.
fn same(
    reading: &Connection,
    walk: &str,
    lines: &[Line],
    is_of: impl Fn(&Line, &Row<'_>) -> Result<bool, rusqlite::Error>,
) -> Result<(), Fault> {
    let mut statement = reading.prepare_cached(walk)?;
    let mut rows = statement.query([])?;
    for line in lines {
        let row = rows.next()?.ok_or_else(differs)?;
        if row.get::<_, i64>(0)? != line.key || !is_of(line, row)? {
            return Err(differs());
        }
    }
    match rows.next()? {
        None => Ok(()),
        Some(_) => Err(differs()),
    }
}

fn line(row: &Row<'_>) -> Result<Line, rusqlite::Error> {
    Ok(Line {
        key: row.get(0)?,
        case: row.get(1)?,
        sequence: row.get(2)?,
        operation_date: row.get(3)?,
        name_folded: row.get(4)?,
        number: row.get(5)?,
        number_folded: row.get(6)?,
        state: row.get(7)?,
        list_number: row.get(8)?,
    })
}

const fn differs() -> Fault {
    Fault::Damaged(Problem::Index(Index::List))
}
