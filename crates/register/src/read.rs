//! One case: its newest revision, an earlier one, its history, and finding it by what was typed.

use millrace_core::biometry::Side;
use millrace_core::calendar::Moment;
use millrace_core::case_file;
use rusqlite::{Connection, OptionalExtension as _, Row, params};

use crate::case_id::{self, CaseId};
use crate::chain::{BEFORE_FIRST, Link};
use crate::entry::{Revision, RevisionEntry, RevisionHash, Sequence};
use crate::error::{Fault, RegisterError};
use crate::open::Register;
use crate::problem::{Problem, Stored, Wanted};

/// Columns of a revision without its body, in the order [`revision_entry`] reads them.
const ENTRY: &str = "case_id, number, sequence, saved_at, saved_by, program, hash";
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
        newest(&self.connection, case)
            .and_then(|newest| load(&self.connection, case, newest))
            .map_err(Fault::at(&self.path))
    }

    /// The case as it was saved at one revision.
    ///
    /// # Errors
    ///
    /// [`Fault::NoSuchCase`], [`Fault::NoSuchRevision`]; [`Fault::Damaged`] if it is not what was
    /// saved.
    pub fn load_revision(&self, case: CaseId, number: u32) -> Result<Revision, RegisterError> {
        newest(&self.connection, case)
            .and_then(|newest| {
                if number < 1 || newest < number {
                    let asked = number;
                    return Err(Fault::NoSuchRevision { asked, newest });
                }
                load(&self.connection, case, number)
            })
            .map_err(Fault::at(&self.path))
    }

    /// Every save of the case, from the first.
    pub fn history(&self, case: CaseId) -> Result<Vec<RevisionEntry>, RegisterError> {
        self.history_of(case).map_err(Fault::at(&self.path))
    }

    /// The case a person means: by the beginning of its name, of 4 letters or more, or by the whole
    /// hospital number.
    pub fn find(&self, typed: &str) -> Result<CaseId, RegisterError> {
        self.find_one(typed).map_err(Fault::at(&self.path))
    }

    fn history_of(&self, case: CaseId) -> Result<Vec<RevisionEntry>, Fault> {
        let mut statement = self.connection.prepare_cached(&format!(
            "SELECT {ENTRY} FROM revision WHERE case_id = ?1 ORDER BY number"
        ))?;
        let mut rows = statement.query([case.to_string()])?;
        let mut history = Vec::new();
        while let Some(row) = rows.next()? {
            history.push(revision_entry(row)?);
        }
        if history.is_empty() {
            return Err(Fault::NoSuchCase);
        }
        Ok(history)
    }

    fn find_one(&self, typed: &str) -> Result<CaseId, Fault> {
        let typed = typed.trim();
        let mut found = texts(
            &self.connection,
            "SELECT case_id FROM current WHERE number = ?1 LIMIT ?2",
            typed,
        )?;
        if let Some(beginning) = case_id::beginning(typed)
            && SHORTEST_BEGINNING <= beginning.len()
        {
            // No digit of a name comes behind a tilde.
            found.extend(texts(
                &self.connection,
                "SELECT case_id FROM current WHERE ?1 <= case_id AND case_id < ?1 || '~' LIMIT ?2",
                &beginning,
            )?);
        }
        let mut cases = found
            .iter()
            .map(|text| parsed(text))
            .collect::<Result<Vec<CaseId>, _>>()?;
        cases.sort_unstable();
        cases.dedup();
        match cases.as_slice() {
            [] => Err(Fault::NoSuchCase),
            [one] => Ok(*one),
            _ => {
                cases.truncate(NAMED);
                Err(Fault::ManyCases { cases })
            }
        }
    }
}

/// Number of the newest revision of a case.
pub(crate) fn newest(connection: &Connection, case: CaseId) -> Result<u32, Fault> {
    let mut statement =
        connection.prepare_cached("SELECT max(number) FROM revision WHERE case_id = ?1")?;
    let newest: Option<u32> = statement.query_row([case.to_string()], |row| row.get(0))?;
    newest.ok_or(Fault::NoSuchCase)
}

fn texts(connection: &Connection, query: &str, typed: &str) -> Result<Vec<String>, Fault> {
    let mut statement = connection.prepare_cached(query)?;
    let limit = u32::try_from(NAMED).unwrap_or(u32::MAX);
    let rows = statement.query_map(params![typed, limit], |row| row.get(0))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Reads one revision and holds it against its hash, so that a plan is never made from numbers that
/// a failing drive has changed.
pub(crate) fn load(connection: &Connection, case: CaseId, number: u32) -> Result<Revision, Fault> {
    let mut statement = connection.prepare_cached(&format!(
        "SELECT {ENTRY}, body FROM revision WHERE case_id = ?1 AND number = ?2"
    ))?;
    let mut rows = statement.query(params![case.to_string(), number])?;
    let missing = || Fault::Damaged(Problem::RevisionMissing { case, number });
    let row = rows.next()?.ok_or_else(missing)?;
    let entry = revision_entry(row)?;
    let [case_text, saved_at]: [String; 2] = [row.get(0)?, row.get(3)?];
    let body: String = row.get(7)?;
    let link = Link {
        previous: hash_before(connection, case, number)?,
        case: &case_text,
        number,
        saved_at: &saved_at,
        saved_by: &entry.saved_by,
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
    Ok(Revision { entry, draft })
}

fn hash_before(connection: &Connection, case: CaseId, number: u32) -> Result<RevisionHash, Fault> {
    let Some(before) = number.checked_sub(1).filter(|before| 0 < *before) else {
        return Ok(BEFORE_FIRST);
    };
    let mut statement = connection
        .prepare_cached("SELECT hash FROM revision WHERE case_id = ?1 AND number = ?2")?;
    let hash: Option<[u8; 32]> = statement
        .query_row(params![case.to_string(), before], |row| row.get(0))
        .optional()?;
    let number = before;
    hash.map(RevisionHash)
        .ok_or(Fault::Damaged(Problem::RevisionMissing { case, number }))
}

fn revision_entry(row: &Row<'_>) -> Result<RevisionEntry, Fault> {
    Ok(RevisionEntry {
        case: parsed(&row.get::<_, String>(0)?)?,
        number: row.get(1)?,
        sequence: Sequence(row.get(2)?),
        saved_at: parsed::<Moment>(&row.get::<_, String>(3)?)?.0,
        saved_by: row.get(4)?,
        program: row.get(5)?,
        hash: RevisionHash(row.get(6)?),
    })
}

/// A stored text as what it stands for; nothing but our own texts is ever stored.
pub(crate) fn parsed<T: Stored>(text: &str) -> Result<T, Fault> {
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

pub(crate) fn eye_of(word: &str) -> Result<Side, Fault> {
    [Side::Right, Side::Left]
        .into_iter()
        .find(|eye| eye_word(*eye) == word)
        .ok_or_else(|| not_ours(word, Wanted::Eye))
}
