//! Saving: one more revision, in one transaction, or nothing.

use std::borrow::Cow;

use millrace_core::calendar::Moment;
use millrace_core::case::{Draft, ListNumber, Patient, State};
use millrace_core::case_file;
use rusqlite::{Transaction, params};

use crate::case_id::CaseId;
use crate::chain::{BEFORE_FIRST, Link};
use crate::entry::{RevisionEntry, RevisionHash, Sequence};
use crate::error::{Fault, RegisterError, SaveError};
use crate::fold::{fold, fold_number};
use crate::open::Register;
use crate::patients::{Everybody, others_of};
use crate::problem::Problem;
use crate::read;
use crate::stamp::Stamp;

impl Register {
    /// Saves a case as its next revision and returns when it is durable.
    ///
    /// `expected` is the revision the draft was made from, nothing for a new case. If the case has
    /// another by now, nothing is saved and the other is handed back.
    ///
    /// # Errors
    ///
    /// [`SaveError::Conflict`] with the revision that came between; otherwise [`RegisterError`].
    pub fn save(
        &mut self,
        case: CaseId,
        expected: Option<u32>,
        draft: &Draft,
        stamp: Stamp<'_>,
    ) -> Result<RevisionEntry, SaveError> {
        let outcome = self.save_if(case, expected, draft, stamp);
        match outcome.map_err(Fault::at(&self.path))? {
            Saved::Done(entry) => Ok(entry),
            Saved::Refused { newest } => Err(SaveError::Conflict {
                theirs: Box::new(self.load_revision(case, newest)?),
            }),
        }
    }

    /// Saves each draft as a new case, all of them or none, and returns when they are durable.
    ///
    /// # Errors
    ///
    /// [`RegisterError`]; then none was saved.
    pub fn import<'a>(
        &mut self,
        drafts: impl IntoIterator<Item = &'a Draft>,
        stamp: Stamp<'_>,
    ) -> Result<Vec<RevisionEntry>, RegisterError> {
        self.import_all(drafts, stamp)
            .map_err(Fault::at(&self.path))
    }

    fn save_if(
        &mut self,
        case: CaseId,
        expected: Option<u32>,
        draft: &Draft,
        stamp: Stamp<'_>,
    ) -> Result<Saved, Fault> {
        stamp.check()?;
        body_of(draft)?;
        let transaction = self.begin()?;
        let saved = save_one(&transaction, (case, expected), draft, stamp)?;
        if let Saved::Done(_) = saved {
            transaction.commit()?;
            self.still_there()?;
        }
        Ok(saved)
    }

    fn import_all<'a>(
        &mut self,
        drafts: impl IntoIterator<Item = &'a Draft>,
        stamp: Stamp<'_>,
    ) -> Result<Vec<RevisionEntry>, Fault> {
        stamp.check()?;
        let transaction = self.begin()?;
        let entries = append_new(&transaction, drafts, stamp)?;
        transaction.commit()?;
        self.still_there()?;
        Ok(entries)
    }
}

/// Saves a case as its next revision, if its last one is the expected one.
pub(crate) fn save_one(
    transaction: &Transaction<'_>,
    (case, expected): (CaseId, Option<u32>),
    draft: &Draft,
    stamp: Stamp<'_>,
) -> Result<Saved, Fault> {
    let last = last_of(transaction, case)?;
    match (&last, expected) {
        (None, Some(_)) => return Err(Fault::NoSuchCase),
        (Some(last), _) if Some(last.number) != expected => {
            let newest = last.number;
            return Ok(Saved::Refused { newest });
        }
        _ => {}
    }
    let draft = with_others(transaction, case, draft)?;
    let body = body_of(&draft)?;
    let next = Next {
        case,
        last,
        draft: &draft,
        body,
    };
    Ok(Saved::Done(next.append(transaction, stamp)?))
}

/// Refuses what could not be saved as new cases, before anything is made for them.
pub(crate) fn refuse_new(drafts: &[Draft], stamp: Stamp<'_>) -> Result<(), Fault> {
    stamp.check()?;
    Moment(stamp.at).text()?;
    drafts.iter().try_for_each(|draft| body_of(draft).map(drop))
}

/// Saves each draft as the first revision of a new case.
pub(crate) fn append_new<'a>(
    transaction: &Transaction<'_>,
    drafts: impl IntoIterator<Item = &'a Draft>,
    stamp: Stamp<'_>,
) -> Result<Vec<RevisionEntry>, Fault> {
    let mut everybody = Everybody::of(transaction)?;
    let mut entries = Vec::new();
    for draft in drafts {
        let case = CaseId::random().map_err(Fault::Random)?;
        let draft = Draft {
            other_cases: everybody.join(case, draft)?,
            ..draft.clone()
        };
        let next = Next {
            case,
            last: None,
            body: body_of(&draft)?,
            draft: &draft,
        };
        entries.push(next.append(transaction, stamp)?);
    }
    Ok(entries)
}

pub(crate) enum Saved {
    Done(RevisionEntry),
    Refused { newest: u32 },
}

/// The draft with what the register finds of other cases with its patient's number or name.
///
/// It is looked for when the patient changes, and when the draft does not say what the last revision says; in
/// between it stays, so that a save of one number does not read the whole list. Before a signature it is
/// always looked for.
fn with_others<'a>(
    transaction: &Transaction<'_>,
    case: CaseId,
    draft: &'a Draft,
) -> Result<Cow<'a, Draft>, Fault> {
    let last = match read::last_number(transaction, case)? {
        None => None,
        Some(number) => Some(read::load(transaction, case, number)?.draft),
    };
    let who = |draft: &Draft| {
        let Patient {
            name,
            number,
            birth_date,
            ..
        } = draft.patient.clone();
        (name, number, birth_date)
    };
    if last.is_some_and(|last| who(&last) == who(draft) && last.other_cases == draft.other_cases) {
        return Ok(Cow::Borrowed(draft));
    }
    let other_cases = others_of(transaction, &draft.patient, case)?;
    if other_cases == draft.other_cases {
        return Ok(Cow::Borrowed(draft));
    }
    Ok(Cow::Owned(Draft {
        other_cases,
        ..draft.clone()
    }))
}

/// The stored document, read back once: what could not be loaded again is not saved.
fn body_of(draft: &Draft) -> Result<String, Fault> {
    let body = case_file::write_json(draft).map_err(Fault::case)?;
    let back = case_file::read_json(&body).map_err(Fault::case)?;
    if back == *draft {
        return Ok(body);
    }
    Err(Fault::Damaged(Problem::ReadsBackOtherwise))
}

struct Last {
    number: u32,
    hash: RevisionHash,
}

fn last_of(transaction: &Transaction<'_>, case: CaseId) -> Result<Option<Last>, Fault> {
    let Some(number) = read::last_number(transaction, case)? else {
        return Ok(None);
    };
    let hash = read::hash_of(transaction, case, number)?;
    Ok(Some(Last { number, hash }))
}

/// A revision about to be written.
struct Next<'a> {
    case: CaseId,
    last: Option<Last>,
    draft: &'a Draft,
    body: String,
}

impl Next<'_> {
    fn append(
        self,
        transaction: &Transaction<'_>,
        stamp: Stamp<'_>,
    ) -> Result<RevisionEntry, Fault> {
        let (number, previous) = match &self.last {
            None => (1, BEFORE_FIRST),
            Some(last) => (last.number + 1, last.hash),
        };
        let (case, saved_at) = (self.case.to_string(), Moment(stamp.at).text()?);
        let link = Link {
            previous,
            case: &case,
            number,
            saved_at: &saved_at,
            saved_by: stamp.by,
            desk: stamp.desk,
            program: stamp.program,
            body: &self.body,
        };
        let hash = link.hash();
        let mut statement = transaction.prepare_cached(
            "INSERT INTO revision (case_id, number, saved_at, saved_by, desk, program, hash, body)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
        )?;
        let sequence = statement.insert(params![
            case,
            number,
            saved_at,
            stamp.by,
            stamp.desk,
            stamp.program,
            hash.0,
            self.body
        ])?;
        let entry = RevisionEntry {
            case: self.case,
            number,
            sequence: Sequence(sequence),
            saved_at: stamp.at,
            saved_by: stamp.by.to_owned(),
            desk: stamp.desk.map(str::to_owned),
            program: stamp.program.to_owned(),
            hash,
        };
        show_as_current(transaction, &entry, self.draft)?;
        Ok(entry)
    }
}

/// Shows a revision as the newest of its case.
pub(crate) fn show_as_current(
    transaction: &Transaction<'_>,
    entry: &RevisionEntry,
    draft: &Draft,
) -> Result<(), Fault> {
    let columns = Columns::of(draft);
    let mut statement = transaction.prepare_cached(
        "INSERT INTO current (case_id, sequence, revision, saved_at, saved_by, state, eye,
             operation_date, name, number, birth_date, name_folded, number_folded, list_number)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14)
         ON CONFLICT (case_id) DO UPDATE SET sequence = excluded.sequence,
             revision = excluded.revision, saved_at = excluded.saved_at,
             saved_by = excluded.saved_by, state = excluded.state, eye = excluded.eye,
             operation_date = excluded.operation_date, name = excluded.name,
             number = excluded.number, birth_date = excluded.birth_date,
             name_folded = excluded.name_folded, number_folded = excluded.number_folded,
             list_number = excluded.list_number",
    )?;
    statement.execute(params![
        entry.case.to_string(),
        entry.sequence.0,
        entry.number,
        Moment(entry.saved_at).text()?,
        entry.saved_by,
        columns.state,
        columns.eye,
        columns.operation_date,
        columns.name,
        columns.number,
        columns.birth_date,
        columns.name_folded,
        columns.number_folded,
        columns.list_number,
    ])?;
    Ok(())
}

/// What of a case is listed and searched; all of it follows from the draft.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Columns {
    pub(crate) state: String,
    pub(crate) eye: Option<String>,
    pub(crate) operation_date: Option<String>,
    pub(crate) name: Option<String>,
    pub(crate) number: Option<String>,
    pub(crate) birth_date: Option<String>,
    pub(crate) name_folded: String,
    pub(crate) number_folded: String,
    pub(crate) list_number: Option<u8>,
}

impl Columns {
    pub(crate) fn of(draft: &Draft) -> Self {
        let patient = &draft.patient;
        Self {
            state: State::of(draft).word().to_owned(),
            eye: draft
                .operation
                .eye
                .map(|eye| read::eye_word(eye).to_owned()),
            operation_date: draft.operation.date.map(|date| date.to_string()),
            name: patient.name.clone(),
            number: patient.number.clone(),
            birth_date: patient.birth_date.map(|date| date.to_string()),
            name_folded: fold(patient.name.as_deref().unwrap_or_default()),
            number_folded: fold_number(patient.number.as_deref().unwrap_or_default()),
            list_number: draft.operation.list_number.map(ListNumber::get),
        }
    }
}
