//! Whether everything in the register is what was saved.

mod report;
mod sheets;

use core::ops::ControlFlow;
use std::collections::BTreeMap;

use chrono::{DateTime, Utc};
use millrace_core::calendar::Moment;
use millrace_core::case::Draft;
use millrace_core::case_file;
pub use report::{CheckProblem, CheckReport, Checked};
use rusqlite::{Connection, Row, Transaction, TransactionBehavior};

use crate::chain::{BEFORE_FIRST, Link};
use crate::clock::SetBack;
use crate::entry::RevisionHash;
use crate::error::{Fault, RegisterError};
use crate::list::{self, Listed, Newest};
use crate::look::in_memory;
use crate::open::Register;
use crate::problem::Problem;
use crate::schema::{self, MIGRATIONS};

/// Problems of one kind that are listed; a file that is all wrong needs no longer list.
const LISTED: usize = 100;
/// Revisions between two reports.
const AT_ONCE: u64 = 1_000;

impl Register {
    /// Reads everything: the file's structure, the tables' definitions, every hash, every body, and
    /// whether list and search agree with the newest revisions. Other programs may go on saving.
    ///
    /// # Errors
    ///
    /// [`Fault::Stopped`] if `report` says so, [`Fault::Locked`]; what is broken is not an error but
    /// stands in the report.
    pub fn check(
        &mut self,
        report: &mut dyn FnMut(Checked) -> ControlFlow<()>,
    ) -> Result<CheckReport, RegisterError> {
        let migrations = schema::up_to(self.schema, MIGRATIONS);
        let examined = match self.read_only() {
            None => examine(&mut self.connection, migrations, report),
            // A part of the check asks for the right to write.
            Some(_) => in_memory(&self.connection)
                .and_then(|mut copy| examine(&mut copy, migrations, report)),
        };
        examined.map_err(Fault::at(&self.path))
    }
}

/// Goes on, whatever is reported.
pub(crate) const fn to_the_end(_: Checked) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

/// Checks a register of the schema that these migrations lead to.
pub(crate) fn examine(
    connection: &mut Connection,
    migrations: &[&str],
    report: &mut dyn FnMut(Checked) -> ControlFlow<()>,
) -> Result<CheckReport, Fault> {
    let mut check = Check::default();
    // Comparing the index with the list is a command of the database that asks for the right to
    // write; it changes nothing and is taken back.
    let writing = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let compared = writing.execute(
        "INSERT INTO search (search, rank) VALUES ('integrity-check', 1)",
        [],
    );
    check.note(compared.map(|_| ()), CheckProblem::Search)?;
    writing.rollback()?;

    let reading = connection.transaction()?;
    let expected = schema::expected_objects(migrations)?;
    let done = check.structure(&reading, &expected);
    check.note(done, CheckProblem::File)?;
    let done = check.revisions(&reading, report);
    check.note(done, CheckProblem::File)?;
    if expected.iter().any(|(name, _)| name == "table sheet") {
        let done = check.sheets(&reading);
        check.note(done, CheckProblem::File)?;
    }
    Ok(check.report)
}

/// What is known so far.
#[derive(Default)]
struct Check {
    report: CheckReport,
    /// Number and hash of the last revision seen of each case, and whether the list shows it.
    last: BTreeMap<String, Last>,
    /// When the last save was made that was seen.
    last_at: Option<DateTime<Utc>>,
}

struct Last {
    number: u32,
    hash: RevisionHash,
    is_listed: bool,
}

/// One revision, and what the list says if it shows it.
struct Line {
    sequence: i64,
    case: String,
    number: u32,
    saved_at: String,
    saved_by: String,
    desk: Option<String>,
    program: String,
    hash: RevisionHash,
    body: String,
    listed: Option<Listed>,
}

impl Check {
    fn found(&mut self, problem: CheckProblem) {
        if self.report.problems.len() < LISTED {
            self.report.problems.push(problem);
        }
    }

    /// Turns what the database says of a broken file into a problem; anything else stops the check.
    fn note<E: Into<Fault>>(
        &mut self,
        done: Result<(), E>,
        kind: impl Fn(Problem) -> CheckProblem,
    ) -> Result<(), Fault> {
        match done.map_err(Into::into) {
            Err(Fault::Damaged(problem) | Fault::Database(problem)) => {
                self.found(kind(problem));
                Ok(())
            }
            other => other,
        }
    }

    fn structure(
        &mut self,
        reading: &Transaction<'_>,
        expected: &[(String, String)],
    ) -> Result<(), Fault> {
        let found = schema::objects(reading)?;
        let differing = expected
            .iter()
            .filter(|object| !found.contains(object))
            .chain(found.iter().filter(|object| !expected.contains(object)));
        let mut names: Vec<_> = differing.map(|(name, _)| name.clone()).collect();
        names.dedup();
        for object in names {
            self.found(CheckProblem::Schema { object });
        }
        let mut statement = reading.prepare(&format!("PRAGMA integrity_check({LISTED})"))?;
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            let verdict: String = row.get(0)?;
            if verdict != "ok" {
                self.found(CheckProblem::File(Problem::Reported(verdict)));
            }
        }
        Ok(())
    }

    fn revisions(
        &mut self,
        reading: &Transaction<'_>,
        report: &mut dyn FnMut(Checked) -> ControlFlow<()>,
    ) -> Result<(), Fault> {
        let total: i64 =
            reading.query_row("SELECT count(*) FROM revision", [], |row| row.get(0))?;
        let total = u64::try_from(total).unwrap_or_default();
        let listed = if schema::has_list_numbers(reading)? {
            list::LISTED
        } else {
            list::LISTED_BEFORE
        };
        let mut statement = reading.prepare(&format!(
            "SELECT r.sequence, r.case_id, r.number, r.saved_at, r.saved_by, r.program, r.hash,
                 r.body, {}, {listed}
             FROM revision AS r LEFT JOIN current AS c ON c.sequence = r.sequence
             ORDER BY r.sequence",
            schema::desk_column(reading)?
        ))?;
        let mut rows = statement.query([])?;
        let mut expected = 1;
        while let Some(row) = rows.next()? {
            let line = line(row)?;
            if line.sequence != expected {
                self.found(CheckProblem::Missing { sequence: expected });
            }
            expected = line.sequence + 1;
            self.revision(line);
            let done = self.report.revisions;
            if done.is_multiple_of(AT_ONCE) && report(Checked { done, total }).is_break() {
                return Err(Fault::Stopped);
            }
        }
        self.list(reading)
    }

    fn set_back(&mut self, set_back: SetBack) {
        if self.report.set_back.len() < LISTED {
            self.report.set_back.push(set_back);
        }
    }

    fn time(&mut self, line: &Line) {
        // A time that is none differs from its hash.
        let Ok(Moment(at)) = line.saved_at.parse() else {
            return;
        };
        if let Some(before) = self.last_at.filter(|before| at < *before) {
            let (case, revision) = (line.case.clone(), line.number);
            self.set_back(SetBack::Save {
                case,
                revision,
                before,
                at,
            });
        }
        self.last_at = Some(at);
    }

    fn revision(&mut self, line: Line) {
        self.report.revisions += 1;
        self.time(&line);
        let (number, previous) = match self.last.get(&line.case) {
            None => (1, BEFORE_FIRST),
            Some(last) => (last.number.saturating_add(1), last.hash),
        };
        let (case, revision) = (|| line.case.clone(), line.number);
        if revision != number {
            let case = case();
            self.found(CheckProblem::Order { case, revision });
        }
        if line.computed_hash(previous) != line.hash {
            let case = case();
            self.found(CheckProblem::Chain { case, revision });
        }
        match case_file::read_json(&line.body) {
            Err(error) => {
                let case = case();
                self.found(CheckProblem::Body {
                    case,
                    revision,
                    error,
                });
            }
            Ok(draft) if !line.is_listed_as(&draft) => {
                let case = case();
                self.found(CheckProblem::List { case });
            }
            Ok(_) => {}
        }
        let last = Last {
            number: revision,
            hash: line.hash,
            is_listed: line.listed.is_some(),
        };
        self.last.insert(line.case, last);
    }

    /// Each case is listed once, with its last revision.
    fn list(&mut self, reading: &Transaction<'_>) -> Result<(), Fault> {
        let listed: i64 =
            reading.query_row("SELECT count(*) FROM current", [], |row| row.get(0))?;
        self.report.cases = u64::try_from(self.last.len()).unwrap_or_default();
        let last = core::mem::take(&mut self.last);
        for (case, last) in &last {
            if !last.is_listed {
                self.found(CheckProblem::List { case: case.clone() });
            }
        }
        if u64::try_from(listed).ok() != Some(self.report.cases) {
            let saved = self.report.cases;
            self.found(CheckProblem::File(Problem::Count { listed, saved }));
        }
        Ok(())
    }
}

impl Line {
    fn computed_hash(&self, previous: RevisionHash) -> RevisionHash {
        let link = Link {
            previous,
            case: &self.case,
            number: self.number,
            saved_at: &self.saved_at,
            saved_by: &self.saved_by,
            desk: self.desk.as_deref(),
            program: &self.program,
            body: &self.body,
        };
        link.hash()
    }

    /// Whether the list, if it shows this revision, shows what it holds.
    fn is_listed_as(&self, draft: &Draft) -> bool {
        let saved = Newest {
            case: &self.case,
            number: self.number,
            saved_at: &self.saved_at,
            saved_by: &self.saved_by,
        };
        let listed = self.listed.as_ref();
        listed.is_none_or(|listed| listed.shows(&saved, draft))
    }
}

fn line(row: &Row<'_>) -> Result<Line, rusqlite::Error> {
    let is_listed = row.get::<_, Option<String>>(9)?.is_some();
    let listed = is_listed.then(|| Listed::of(row, 9)).transpose()?;
    Ok(Line {
        sequence: row.get(0)?,
        case: row.get(1)?,
        number: row.get(2)?,
        saved_at: row.get(3)?,
        saved_by: row.get(4)?,
        program: row.get(5)?,
        hash: RevisionHash(row.get(6)?),
        body: row.get(7)?,
        desk: row.get(8)?,
        listed,
    })
}
