//! What was saved and signed, read from the tables themselves and held against its hashes.

use std::collections::BTreeMap;

use millrace_core::case::Draft;
use millrace_core::case_file;
use millrace_core::signing::{Fingerprint, SignedPlan};
use rusqlite::{Connection, OptionalExtension as _, Row, Transaction, params};

use crate::chain::{BEFORE_FIRST, Link, SheetLink};
use crate::check::CheckProblem;
use crate::entry::{RevisionEntry, RevisionHash, Sequence};
use crate::error::Fault;
use crate::problem::{Problem, SignedProblem};
use crate::read::{ENTRY, parsed, revision_entry};
use crate::save::show_as_current;
use crate::schema::{desk_column, has_sheets};
use crate::sheet::{self, SheetEntry};

/// Everything that cannot be made anew.
pub(super) struct Bodies {
    pub(super) saved: Vec<Saved>,
    pub(super) signed: Vec<Signed>,
}

/// A revision as it was saved.
pub(super) struct Saved {
    entry: RevisionEntry,
    at: String,
    body: String,
    draft: Draft,
}

/// A sheet as it was signed; what follows from its text is made anew.
pub(super) struct Signed {
    entry: SheetEntry,
    body: String,
}

impl Bodies {
    pub(super) fn read(connection: &Connection) -> Result<Self, Fault> {
        let mut bodies = Self {
            saved: Vec::new(),
            signed: Vec::new(),
        };
        bodies.read_saved(connection)?;
        if has_sheets(connection)? {
            bodies.read_signed(connection)?;
        }
        Ok(bodies)
    }

    fn read_saved(&mut self, connection: &Connection) -> Result<(), Fault> {
        let mut statement = connection.prepare(&format!(
            "SELECT {ENTRY}, {}, body FROM revision NOT INDEXED ORDER BY sequence",
            desk_column(connection)?
        ))?;
        let mut rows = statement.query([])?;
        let mut last: BTreeMap<String, (u32, RevisionHash)> = BTreeMap::new();
        let mut sequence = 0;
        while let Some(row) = rows.next()? {
            sequence += 1;
            let saved = Saved::of(row)?;
            if saved.entry.sequence != Sequence(sequence) {
                return Err(beyond(CheckProblem::Missing { sequence }));
            }
            let case = saved.entry.case.to_string();
            let (number, previous) = last.get(&case).copied().unwrap_or((0, BEFORE_FIRST));
            let revision = saved.entry.number;
            if revision != number.saturating_add(1) {
                return Err(beyond(CheckProblem::Order { case, revision }));
            }
            if saved.hash(&case, previous) != saved.entry.hash {
                return Err(beyond(CheckProblem::Chain { case, revision }));
            }
            last.insert(case, (revision, saved.entry.hash));
            self.saved.push(saved);
        }
        // The end of the table may be lost, and an index still know of it.
        let indexed = [
            "SELECT max(sequence) FROM current INDEXED BY sqlite_autoindex_current_2",
            "SELECT count(*) FROM revision INDEXED BY sqlite_autoindex_revision_1",
        ];
        let sequence = sequence + 1;
        if indexed
            .iter()
            .any(|query| sequence <= told(connection, query))
        {
            return Err(beyond(CheckProblem::Missing { sequence }));
        }
        Ok(())
    }

    fn read_signed(&mut self, connection: &Connection) -> Result<(), Fault> {
        let hashes: BTreeMap<_, _> = self
            .saved
            .iter()
            .map(|saved| ((saved.entry.case, saved.entry.number), saved.entry.hash))
            .collect();
        let mut statement = connection.prepare(
            "SELECT number, case_id, revision, hash, body FROM sheet NOT INDEXED ORDER BY number",
        )?;
        let mut rows = statement.query([])?;
        let (mut expected, mut previous) = (0, BEFORE_FIRST);
        while let Some(row) = rows.next()? {
            expected += 1;
            let number: u32 = row.get(0)?;
            if number != expected {
                return Err(beyond(CheckProblem::MissingSheet { number: expected }));
            }
            let case = parsed(&row.get::<_, String>(1)?)?;
            let revision = row.get(2)?;
            let saved = hashes.get(&(case, revision)).copied();
            let link = SheetLink {
                previous,
                number,
                case: &row.get::<_, String>(1)?,
                revision,
                saved: saved.ok_or_else(|| of_sheet(number, SignedProblem::RevisionMissing))?,
                body: &row.get::<_, String>(4)?,
            };
            let hash = RevisionHash(row.get(3)?);
            if link.hash() != hash {
                return Err(of_sheet(number, SignedProblem::NotInItsPlace));
            }
            let plan = SignedPlan::read(link.body, Fingerprint::of(link.body))
                .map_err(|error| of_sheet(number, SignedProblem::Unreadable(error)))?;
            let entry = SheetEntry::of(&plan, (case, revision), hash);
            let body = link.body.to_owned();
            self.signed.push(Signed { entry, body });
            previous = hash;
        }
        let number = expected + 1;
        let counted = "SELECT count(*) FROM sheet INDEXED BY sheet_of_case";
        if i64::from(number) <= told(connection, counted) {
            return Err(beyond(CheckProblem::MissingSheet { number }));
        }
        Ok(())
    }
}

/// What an index says; nothing if it is broken.
fn told(connection: &Connection, query: &str) -> i64 {
    let told = connection.query_row(query, [], |row| row.get::<_, Option<i64>>(0));
    told.ok().flatten().unwrap_or_default()
}

impl Saved {
    fn of(row: &Row<'_>) -> Result<Self, Fault> {
        let entry = revision_entry(row)?;
        let body: String = row.get(8)?;
        let draft = case_file::read_json(&body).map_err(|error| {
            let (case, revision) = (entry.case.to_string(), entry.number);
            beyond(CheckProblem::Body {
                case,
                revision,
                error,
            })
        })?;
        let at = row.get(3)?;
        Ok(Self {
            entry,
            at,
            body,
            draft,
        })
    }

    fn hash(&self, case: &str, previous: RevisionHash) -> RevisionHash {
        let link = Link {
            previous,
            case,
            number: self.entry.number,
            saved_at: &self.at,
            saved_by: &self.entry.saved_by,
            desk: self.entry.desk.as_deref(),
            program: &self.entry.program,
            body: &self.body,
        };
        link.hash()
    }

    pub(super) fn keep(&self, transaction: &Transaction<'_>) -> Result<(), Fault> {
        let entry = &self.entry;
        let mut statement = transaction.prepare_cached(
            "INSERT INTO revision
                 (sequence, case_id, number, saved_at, saved_by, desk, program, hash, body)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        )?;
        statement.execute(params![
            entry.sequence.0,
            entry.case.to_string(),
            entry.number,
            self.at,
            entry.saved_by,
            entry.desk,
            entry.program,
            entry.hash.0,
            self.body
        ])?;
        show_as_current(transaction, entry, &self.draft)
    }
}

impl Signed {
    /// Whether the revision it signs is there, and the newest of its case.
    pub(super) fn signs_newest(&self, transaction: &Transaction<'_>) -> Result<bool, Fault> {
        let mut statement =
            transaction.prepare_cached("SELECT revision FROM current WHERE case_id = ?1")?;
        let newest = statement.query_row([self.entry.case.to_string()], |row| row.get(0));
        Ok(newest.optional()? == Some(self.entry.revision))
    }

    pub(super) fn keep(&self, transaction: &Transaction<'_>) -> Result<(), Fault> {
        sheet::keep(transaction, &self.entry, &self.body)
    }

    pub(super) fn without_revision(&self) -> Fault {
        of_sheet(self.entry.number.get(), SignedProblem::RevisionMissing)
    }
}

fn beyond(problem: CheckProblem) -> Fault {
    Fault::BeyondRepair(Box::new(problem))
}

fn of_sheet(number: u32, problem: SignedProblem) -> Fault {
    let problem = Problem::Signed(Box::new(problem));
    let number = i64::from(number);
    beyond(CheckProblem::Sheet { number, problem })
}
