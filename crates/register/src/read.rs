//! One case: its newest revision, an earlier one, its history, and finding it by what was typed.

use millrace_core::biometry::Side;
use millrace_core::calendar::Moment;
use millrace_core::case_file;
use rusqlite::{Connection, OptionalExtension as _, Row, params};

use crate::case_id::{self, CaseId};
use crate::catalog::Line;
use crate::chain::{BEFORE_FIRST, Link};
use crate::entry::{Revision, RevisionEntry, RevisionHash, Sequence};
use crate::error::{Fault, RegisterError};
use crate::open::Register;
use crate::problem::{Index, Parsed, Problem, Wanted};

/// Columns of a revision in the order [`revision_entry`] reads them; the desk stands behind them.
pub(crate) const ENTRY: &str = "case_id, number, sequence, saved_at, saved_by, program, hash";
/// The fewest digits of a case's name that are taken for one.
const SHORTEST_BEGINNING: usize = 4;
/// As many cases are named when several fit.
const NAMED: usize = 10;

impl Register {
    /// The case as it stands.
    ///
    /// # Errors
    ///
    /// [`Fault::NoSuchCase`]; [`Fault::Damaged`] if it is not what was saved.
    pub fn load(&self, case: CaseId) -> Result<Revision, RegisterError> {
        self.read(|reading| load(reading, case, newest(reading, case)?))
    }

    /// The case as it was saved at one revision.
    ///
    /// # Errors
    ///
    /// [`Fault::NoSuchCase`], [`Fault::NoSuchRevision`]; [`Fault::Damaged`] if it is not what was
    /// saved.
    pub fn load_revision(&self, case: CaseId, number: u32) -> Result<Revision, RegisterError> {
        self.read(|reading| {
            let newest = newest(reading, case)?;
            if number < 1 || newest < number {
                let asked = number;
                return Err(Fault::NoSuchRevision { asked, newest });
            }
            load(reading, case, number)
        })
    }

    /// Every save of the case, from the first.
    pub fn history(&self, case: CaseId) -> Result<Vec<RevisionEntry>, RegisterError> {
        self.read(|reading| {
            let newest = newest(reading, case)?;
            let revision = |number| Ok(load(reading, case, number)?.entry);
            (1..=newest).map(revision).collect()
        })
    }

    /// The case a person means: by the beginning of its name, of 4 letters or more, or by the whole
    /// hospital number.
    pub fn find(&self, typed: &str) -> Result<CaseId, RegisterError> {
        self.read(|reading| self.find_one(reading, typed))
    }

    fn find_one(&self, reading: &Connection, typed: &str) -> Result<CaseId, Fault> {
        let typed = typed.trim();
        let beginning =
            case_id::beginning(typed).filter(|beginning| SHORTEST_BEGINNING <= beginning.len());
        let fits = |line: &&Line| {
            line.number.as_deref() == Some(typed)
                || beginning
                    .as_ref()
                    .is_some_and(|beginning| line.case.starts_with(beginning))
        };
        let catalog = self.catalog(reading)?;
        let found = catalog.lines.iter().filter(fits).take(NAMED);
        let mut cases = found
            .map(|line| Ok(line.entry(reading)?.case))
            .collect::<Result<Vec<_>, Fault>>()?;
        cases.sort_unstable();
        match *cases {
            [] => Err(Fault::NoSuchCase),
            [one] => Ok(one),
            _ => Err(Fault::ManyCases { cases }),
        }
    }
}

/// A case whose newest revision two indexes do not agree about is damaged, whichever is right.
pub(crate) fn newest(connection: &Connection, case: CaseId) -> Result<u32, Fault> {
    last_number(connection, case)?.ok_or(Fault::NoSuchCase)
}

/// Number of the newest revision of a case; nothing if there is no such case.
pub(crate) fn last_number(connection: &Connection, case: CaseId) -> Result<Option<u32>, Fault> {
    let case = case.to_string();
    let mut statement =
        connection.prepare_cached("SELECT max(number) FROM revision WHERE case_id = ?1")?;
    let saved: Option<u32> = statement.query_row([&case], |row| row.get(0))?;
    let mut statement =
        connection.prepare_cached("SELECT revision FROM current WHERE case_id = ?1")?;
    let listed: Option<u32> = statement.query_row([&case], |row| row.get(0)).optional()?;
    if saved == listed {
        return Ok(saved);
    }
    Err(Fault::Damaged(Problem::Index(Index::Revisions)))
}

/// A revision, and its time as it is stored and hashed.
pub(crate) struct Stored {
    pub(crate) revision: Revision,
    pub(crate) saved_at: String,
}

pub(crate) fn load(connection: &Connection, case: CaseId, number: u32) -> Result<Revision, Fault> {
    Ok(stored(connection, case, number)?.revision)
}

/// Reads one revision and holds it against its hash, so that a plan is never made from numbers that
/// a failing drive has changed.
pub(crate) fn stored(connection: &Connection, case: CaseId, number: u32) -> Result<Stored, Fault> {
    let mut statement = connection.prepare_cached(&format!(
        "SELECT {ENTRY}, desk, body FROM revision WHERE case_id = ?1 AND number = ?2"
    ))?;
    let mut rows = statement.query(params![case.to_string(), number])?;
    let missing = || Fault::Damaged(Problem::RevisionMissing { case, number });
    let row = rows.next()?.ok_or_else(missing)?;
    let entry = revision_entry(row)?;
    let [case_text, saved_at]: [String; 2] = [row.get(0)?, row.get(3)?];
    let body: String = row.get(8)?;
    let link = Link {
        previous: hash_before(connection, case, number)?,
        case: &case_text,
        number,
        saved_at: &saved_at,
        saved_by: &entry.saved_by,
        desk: entry.desk.as_deref(),
        program: &entry.program,
        body: &body,
    };
    if link.hash() != entry.hash {
        return Err(Fault::Damaged(Problem::RevisionChanged { case, number }));
    }
    let draft = case_file::read_json(&body).map_err(|error| {
        let error = Box::new(error);
        Fault::Damaged(Problem::RevisionUnreadable {
            case,
            number,
            error,
        })
    })?;
    let revision = Revision { entry, draft };
    Ok(Stored { revision, saved_at })
}

fn hash_before(connection: &Connection, case: CaseId, number: u32) -> Result<RevisionHash, Fault> {
    match number.checked_sub(1) {
        None | Some(0) => Ok(BEFORE_FIRST),
        Some(before) => hash_of(connection, case, before),
    }
}

/// The hash as it is stored.
pub(crate) fn hash_of(
    connection: &Connection,
    case: CaseId,
    number: u32,
) -> Result<RevisionHash, Fault> {
    let mut statement = connection
        .prepare_cached("SELECT hash FROM revision WHERE case_id = ?1 AND number = ?2")?;
    let hash: Option<[u8; 32]> = statement
        .query_row(params![case.to_string(), number], |row| row.get(0))
        .optional()?;
    hash.map(RevisionHash)
        .ok_or(Fault::Damaged(Problem::RevisionMissing { case, number }))
}

pub(crate) fn revision_entry(row: &Row<'_>) -> Result<RevisionEntry, Fault> {
    Ok(RevisionEntry {
        case: parsed(&row.get::<_, String>(0)?)?,
        number: row.get(1)?,
        sequence: Sequence(row.get(2)?),
        saved_at: parsed::<Moment>(&row.get::<_, String>(3)?)?.0,
        saved_by: row.get(4)?,
        program: row.get(5)?,
        hash: RevisionHash(row.get(6)?),
        desk: row.get(7)?,
    })
}

/// A stored text as what it stands for; nothing but our own texts is ever stored.
pub(crate) fn parsed<T: Parsed>(text: &str) -> Result<T, Fault> {
    text.parse().map_err(|_| not_ours(text, T::WANTED))
}

fn not_ours(text: &str, wanted: Wanted) -> Fault {
    let text = text.to_owned();
    Fault::Damaged(Problem::NotOurs { text, wanted })
}

pub(crate) const fn eye_word(eye: Side) -> &'static str {
    match eye {
        Side::Right => "right",
        Side::Left => "left",
    }
}
