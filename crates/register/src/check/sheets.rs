//! Whether every signed plan is what was signed.

use chrono::{DateTime, Utc};
use millrace_core::calendar::Moment;
use millrace_core::case_file;
use millrace_core::signing::{SheetNumber, SignedPlan};
use rusqlite::{Row, Transaction};

use super::{Check, CheckProblem};
use crate::chain::{BEFORE_FIRST, SheetLink};
use crate::clock::SetBack;
use crate::entry::RevisionHash;
use crate::error::Fault;
use crate::problem::{Problem, SignedProblem};
use crate::sheet::{SheetEntry, sheet_entry};

/// One sheet, and the revision it signed.
struct Line {
    entry: SheetEntry,
    body: String,
    /// Hash and body of the revision; nothing if there is none.
    revision: Option<(RevisionHash, String)>,
    saved_at: Option<DateTime<Utc>>,
    /// The newest sheet of the case before it.
    before: Option<u32>,
}

impl Check {
    pub(super) fn sheets(&mut self, reading: &Transaction<'_>) -> Result<(), Fault> {
        let mut statement = reading.prepare(
            "SELECT s.number, s.case_id, s.revision, s.supersedes, s.signed_at, s.signed_by,
                 s.fingerprint, s.hash, s.body, r.hash, r.body, r.saved_at,
                 (SELECT max(e.number) FROM sheet AS e
                  WHERE e.case_id = s.case_id AND e.number < s.number)
             FROM sheet AS s LEFT JOIN revision AS r
                 ON r.case_id = s.case_id AND r.number = s.revision
             ORDER BY s.number",
        )?;
        let mut rows = statement.query([])?;
        let (mut expected, mut previous) = (1, BEFORE_FIRST);
        let mut last_at = None;
        while let Some(row) = rows.next()? {
            self.report.sheets += 1;
            let line = match line(row) {
                Ok(line) => line,
                Err(Fault::Damaged(problem)) => {
                    let number = row.get(0)?;
                    self.found(CheckProblem::Sheet { number, problem });
                    continue;
                }
                Err(fault) => return Err(fault),
            };
            let number = line.entry.number.get();
            if number != expected {
                self.found(CheckProblem::MissingSheet { number: expected });
            }
            expected = number.saturating_add(1);
            if let Some(problem) = line.problem(previous) {
                let problem = Problem::Signed(Box::new(problem));
                self.found(CheckProblem::Sheet {
                    number: i64::from(number),
                    problem,
                });
            }
            let at = line.entry.signed_at;
            if let Some(before) = line.saved_at.max(last_at).filter(|before| at < *before) {
                self.set_back(SetBack::Sheet { number, before, at });
            }
            last_at = Some(at);
            previous = line.entry.hash;
        }
        Ok(())
    }
}

impl Line {
    fn problem(&self, previous: RevisionHash) -> Option<SignedProblem> {
        let Self { entry, body, .. } = self;
        let Some((saved, revision)) = &self.revision else {
            return Some(SignedProblem::RevisionMissing);
        };
        let link = SheetLink {
            previous,
            number: entry.number.get(),
            case: &entry.case.to_string(),
            revision: entry.revision,
            saved: *saved,
            body,
        };
        if link.hash() != entry.hash {
            return Some(SignedProblem::NotInItsPlace);
        }
        if self.before != entry.supersedes.map(SheetNumber::get) {
            return Some(SignedProblem::SupersedesAnother);
        }
        let plan = match SignedPlan::read(body, entry.fingerprint) {
            Ok(plan) => plan,
            Err(error) => return Some(SignedProblem::Unreadable(error)),
        };
        // A revision that cannot be read is a problem of its own.
        let draft = case_file::read_json(revision).ok()?;
        entry.mismatch(&plan, &draft).map(SignedProblem::Differs)
    }
}

fn line(row: &Row<'_>) -> Result<Line, Fault> {
    let hash: Option<[u8; 32]> = row.get(9)?;
    let body: Option<String> = row.get(10)?;
    let saved_at: Option<String> = row.get(11)?;
    Ok(Line {
        entry: sheet_entry(row)?,
        body: row.get(8)?,
        revision: hash.map(RevisionHash).zip(body),
        saved_at: saved_at
            .and_then(|text| text.parse().ok())
            .map(|at: Moment| at.0),
        before: row.get(12)?,
    })
}
