//! Signed plans: signing the newest revision of a case, reading one back, and answering whether the
//! sheet in somebody's hand is the current one.

mod found;

use chrono::{DateTime, Utc};
use millrace_core::calendar::Moment;
use millrace_core::case::Draft;
use millrace_core::limits::Limits;
use millrace_core::signing::{
    Fingerprint, PrintedFingerprint, SheetNumber, Signature, SignedPlan, ToSign, sign,
};
use rusqlite::{Connection, OptionalExtension as _, Row, params};

use crate::case_id::CaseId;
use crate::chain::{BEFORE_FIRST, SheetLink};
use crate::entry::{Revision, RevisionEntry, RevisionHash};
use crate::error::{Fault, RegisterError, SignError};
use crate::open::Register;
use crate::patients::others_of;
use crate::problem::{Mismatch, Problem};
use crate::read::{self, parsed};
pub(crate) use found::{Numbers, numbers_of, stands_for};
use found::{indexes_differ, newest, number_of};

/// A sheet without the plan itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetEntry {
    /// Counts from 1 within the register.
    pub number: SheetNumber,
    pub case: CaseId,
    pub revision: u32,
    /// The sheet of the same case it took the place of.
    pub supersedes: Option<SheetNumber>,
    pub signed_at: DateTime<Utc>,
    pub signed_by: String,
    pub fingerprint: Fingerprint,
    /// Chained to the sheet before, over all cases, and to the revision that was signed.
    pub hash: RevisionHash,
}

/// A sheet with the plan as it was signed.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    pub entry: SheetEntry,
    pub plan: SignedPlan,
}

/// What a case is signed with.
#[derive(Clone, Debug)]
pub struct Signing<'a> {
    /// The limits it is planned by.
    pub limits: &'a Limits,
    /// Person, role, moment, and the consented target entered again.
    pub signature: Signature,
    pub program: &'a str,
}

/// Whether a sheet is the one to work by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SheetStanding {
    Current(SheetEntry),
    /// A later sheet of the case took its place.
    Superseded {
        sheet: SheetEntry,
        /// The current sheet of the case.
        by: SheetEntry,
    },
    /// No later sheet was signed, but the case was changed since.
    ChangedSince {
        sheet: SheetEntry,
        /// The newest save of the case.
        by: RevisionEntry,
    },
    /// This register never signed it.
    Unknown,
}

const ENTRY: &str =
    "number, case_id, revision, supersedes, signed_at, signed_by, fingerprint, hash";

impl Register {
    /// Signs a case and returns when the sheet is durable. Signed is the newest revision, which must
    /// be `expected`; the plan is computed here, from what is stored.
    ///
    /// # Errors
    ///
    /// [`SignError`]; then nothing was signed.
    pub fn sign(
        &mut self,
        case: CaseId,
        expected: u32,
        signing: Signing<'_>,
    ) -> Result<Sheet, SignError> {
        let path = self.path.clone();
        match self.sign_if(case, expected, signing) {
            Ok(Signed::Done(sheet)) => Ok(*sheet),
            Ok(Signed::Refused(error)) => Err(*error),
            Err(fault) => Err(Fault::at(&path)(fault).into()),
        }
    }

    /// A signed plan by the number of its sheet.
    ///
    /// # Errors
    ///
    /// [`Fault::NoSuchSheet`]; [`Fault::Damaged`] if it is not what was signed.
    pub fn signed(&self, number: SheetNumber) -> Result<Sheet, RegisterError> {
        self.read(|reading| load(reading, number))
    }

    /// A signed plan by the number of its sheet, and whether it is the one to work by; never
    /// [`SheetStanding::Unknown`]. Which sheet came later is told by the chain of the register, not by time.
    ///
    /// # Errors
    ///
    /// As [`Self::signed`].
    pub fn signed_with_standing(
        &self,
        number: SheetNumber,
    ) -> Result<(Sheet, SheetStanding), RegisterError> {
        self.read(|reading| {
            let sheet = load(reading, number)?;
            let standing = standing_of(reading, sheet.entry.clone())?;
            Ok((sheet, standing))
        })
    }

    /// Every sheet of a case, from the first; none if it was never signed.
    pub fn sheets_of(&self, case: CaseId) -> Result<Vec<SheetEntry>, RegisterError> {
        self.read(|reading| {
            read::newest(reading, case)?;
            let numbers = numbers_of(reading, case)?;
            let sheet = |signed: &Numbers| Ok(load(reading, signed.number)?.entry);
            numbers.iter().map(sheet).collect()
        })
    }

    /// Whether the sheet with this fingerprint is the current one. The plan is read and held against its
    /// fingerprint first.
    ///
    /// # Errors
    ///
    /// [`Fault::Damaged`] if it is not what was signed.
    pub fn verify(&self, printed: &PrintedFingerprint) -> Result<SheetStanding, RegisterError> {
        self.read(|reading| standing(reading, printed))
    }

    fn sign_if(
        &mut self,
        case: CaseId,
        expected: u32,
        signing: Signing<'_>,
    ) -> Result<Signed, Fault> {
        let transaction = self.begin()?;
        let newest_revision = read::newest(&transaction, case)?;
        let revision = read::load(&transaction, case, newest_revision)?;
        if newest_revision != expected {
            let theirs = Box::new(revision);
            return Ok(SignError::Conflict { theirs }.into());
        }
        let earlier = numbers_of(&transaction, case)?.pop();
        if let Some(earlier) = &earlier
            && stands_for(&transaction, case, earlier)?
        {
            let sheet = Box::new(load(&transaction, earlier.number)?.entry);
            return Ok(SignError::AlreadySigned { sheet }.into());
        }
        let others = others_of(&transaction, &revision.draft.patient, case)?;
        if others != revision.draft.other_cases {
            return Ok(SignError::OtherCases { others }.into());
        }
        let last = newest(&transaction)?;
        let number = match last {
            None => SheetNumber::FIRST,
            Some(last) => last.next().ok_or(Fault::Damaged(Problem::NoNumberLeft))?,
        };
        let to_sign = ToSign {
            number,
            supersedes: earlier.map(|earlier| earlier.number),
            draft: &revision.draft,
            limits: signing.limits,
            program: signing.program,
        };
        let plan = match sign(to_sign, signing.signature) {
            Ok(plan) => plan,
            Err(obstacles) => return Ok(SignError::Obstacles { obstacles }.into()),
        };
        let hash = hash_of(&transaction, &plan, &revision)?;
        let entry = SheetEntry::of(&plan, (case, revision.entry.number), hash);
        keep(&transaction, &entry, plan.encoded())?;
        transaction.commit()?;
        self.still_there()?;
        Ok(Signed::Done(Box::new(Sheet { entry, plan })))
    }
}

fn standing(reading: &Connection, printed: &PrintedFingerprint) -> Result<SheetStanding, Fault> {
    let Some(number) = number_of(reading, printed)? else {
        return Ok(SheetStanding::Unknown);
    };
    let sheet = load(reading, number)?.entry;
    if !printed.fits(&sheet.fingerprint) {
        return Err(indexes_differ());
    }
    standing_of(reading, sheet)
}

fn standing_of(reading: &Connection, sheet: SheetEntry) -> Result<SheetStanding, Fault> {
    let case = sheet.case;
    let last = numbers_of(reading, case)?
        .pop()
        .ok_or_else(indexes_differ)?;
    if last.number != sheet.number {
        let by = load(reading, last.number)?.entry;
        return Ok(SheetStanding::Superseded { sheet, by });
    }
    if stands_for(reading, case, &last)? {
        return Ok(SheetStanding::Current(sheet));
    }
    let newest = read::newest(reading, case)?;
    let by = read::load(reading, case, newest)?.entry;
    Ok(SheetStanding::ChangedSince { sheet, by })
}

enum Signed {
    Done(Box<Sheet>),
    Refused(Box<SignError>),
}

impl From<SignError> for Signed {
    fn from(error: SignError) -> Self {
        Self::Refused(Box::new(error))
    }
}

/// When the last sheet was signed.
pub(crate) fn last_signed_at(reading: &Connection) -> Result<Option<DateTime<Utc>>, Fault> {
    let last = newest(reading)?
        .map(|last| load(reading, last))
        .transpose()?;
    Ok(last.map(|sheet| sheet.entry.signed_at))
}

/// Reads a sheet and holds it against its fingerprint, its hash and the columns beside it.
fn load(connection: &Connection, number: SheetNumber) -> Result<Sheet, Fault> {
    let mut statement = connection.prepare_cached(&format!(
        "SELECT {ENTRY}, body FROM sheet WHERE number = ?1"
    ))?;
    let mut rows = statement.query([number.get()])?;
    let Some(row) = rows.next()? else {
        let (asked, newest) = (number, newest(connection)?);
        if newest.is_some_and(|newest| asked <= newest) {
            let number = asked.get();
            return Err(Fault::Damaged(Problem::SheetMissing { number }));
        }
        return Err(Fault::NoSuchSheet { asked, newest });
    };
    let entry = sheet_entry(row)?;
    let body: String = row.get(8)?;
    let plan = SignedPlan::read(&body, entry.fingerprint).map_err(|error| {
        let error = Box::new(error);
        Fault::Damaged(Problem::SheetUnreadable { number, error })
    })?;
    let revision = read::load(connection, entry.case, entry.revision)?;
    if let Some(mismatch) = entry.mismatch(&plan, &revision.draft) {
        return Err(Fault::Damaged(Problem::SheetDiffers { number, mismatch }));
    }
    if hash_of(connection, &plan, &revision)? != entry.hash {
        return Err(Fault::Damaged(Problem::SheetChanged { number }));
    }
    Ok(Sheet { entry, plan })
}

impl SheetEntry {
    /// What the register says of a plan that signs this revision of this case.
    pub(crate) fn of(plan: &SignedPlan, signs: (CaseId, u32), hash: RevisionHash) -> Self {
        let signature = plan.signature();
        let (case, revision) = signs;
        Self {
            number: plan.number(),
            case,
            revision,
            supersedes: plan.supersedes(),
            signed_at: signature.at,
            signed_by: signature.name.clone(),
            fingerprint: plan.fingerprint(),
            hash,
        }
    }

    /// What in a signed plan is not what the register says of it.
    pub(crate) fn mismatch(&self, plan: &SignedPlan, draft: &Draft) -> Option<Mismatch> {
        let signature = plan.signature();
        if plan.number() != self.number || plan.supersedes() != self.supersedes {
            return Some(Mismatch::Number);
        }
        if signature.at != self.signed_at || signature.name != self.signed_by {
            return Some(Mismatch::Signature);
        }
        (*plan.draft() != draft.without_list_number()).then_some(Mismatch::Revision)
    }
}

fn hash_of(
    connection: &Connection,
    plan: &SignedPlan,
    revision: &Revision,
) -> Result<RevisionHash, Fault> {
    let previous = match plan
        .number()
        .get()
        .checked_sub(1)
        .filter(|before| 0 < *before)
    {
        None => BEFORE_FIRST,
        Some(before) => {
            let hash: Option<[u8; 32]> = connection
                .query_row(
                    "SELECT hash FROM sheet WHERE number = ?1",
                    [before],
                    |row| row.get(0),
                )
                .optional()?;
            let missing = Fault::Damaged(Problem::SheetMissing { number: before });
            RevisionHash(hash.ok_or(missing)?)
        }
    };
    let link = SheetLink {
        previous,
        number: plan.number().get(),
        case: &revision.entry.case.to_string(),
        revision: revision.entry.number,
        saved: revision.entry.hash,
        body: plan.encoded(),
    };
    Ok(link.hash())
}

/// Writes a sheet as the last.
pub(crate) fn keep(connection: &Connection, entry: &SheetEntry, body: &str) -> Result<(), Fault> {
    let mut statement = connection.prepare_cached(
        "INSERT INTO sheet (number, case_id, revision, supersedes, signed_at, signed_by,
             fingerprint, hash, body)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
    )?;
    statement.execute(params![
        entry.number.get(),
        entry.case.to_string(),
        entry.revision,
        entry.supersedes.map(SheetNumber::get),
        Moment(entry.signed_at).text()?,
        entry.signed_by,
        entry.fingerprint.bytes(),
        entry.hash.0,
        body,
    ])?;
    Ok(())
}

pub(crate) fn sheet_entry(row: &Row<'_>) -> Result<SheetEntry, Fault> {
    let supersedes: Option<u32> = row.get(3)?;
    Ok(SheetEntry {
        number: sheet_number(row.get(0)?)?,
        case: parsed(&row.get::<_, String>(1)?)?,
        revision: row.get(2)?,
        supersedes: supersedes.map(sheet_number).transpose()?,
        signed_at: parsed::<Moment>(&row.get::<_, String>(4)?)?.0,
        signed_by: row.get(5)?,
        fingerprint: Fingerprint::from_bytes(row.get(6)?),
        hash: RevisionHash(row.get(7)?),
    })
}

pub(crate) fn sheet_number(number: u32) -> Result<SheetNumber, Fault> {
    SheetNumber::new(number).ok_or(Fault::Damaged(Problem::SheetZero))
}
