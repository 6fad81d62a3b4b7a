//! The order of a day: several cases saved together, or none.

use millrace_core::case::{Command, ListNumber, update};

use crate::case_id::CaseId;
use crate::entry::RevisionEntry;
use crate::error::{Fault, SaveError};
use crate::open::Register;
use crate::read;
use crate::save::{Saved, save_one};
use crate::stamp::Stamp;

/// A place in the order of its day, for a case as it was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placed {
    pub case: CaseId,
    /// The revision that was seen.
    pub expected: u32,
    pub number: Option<ListNumber>,
}

enum Ordered {
    Done(Vec<RevisionEntry>),
    Refused { case: CaseId, newest: u32 },
}

impl Register {
    /// Gives cases their places in the order of their day, all of them or none, and returns when they are
    /// durable. Each whose place changes is saved as its next revision; a sheet of it stays the one to work by.
    ///
    /// # Errors
    ///
    /// [`SaveError::Conflict`] with the revision of a case that came between; otherwise
    /// [`RegisterError`](crate::RegisterError).
    pub fn order(
        &mut self,
        places: &[Placed],
        stamp: Stamp<'_>,
    ) -> Result<Vec<RevisionEntry>, SaveError> {
        let outcome = self.order_all(places, stamp);
        match outcome.map_err(Fault::at(&self.path))? {
            Ordered::Done(entries) => Ok(entries),
            Ordered::Refused { case, newest } => Err(SaveError::Conflict {
                theirs: Box::new(self.load_revision(case, newest)?),
            }),
        }
    }

    fn order_all(&mut self, places: &[Placed], stamp: Stamp<'_>) -> Result<Ordered, Fault> {
        stamp.check()?;
        let transaction = self.begin()?;
        let mut entries = Vec::new();
        for placed in places {
            let case = placed.case;
            let newest = read::newest(&transaction, case)?;
            if newest != placed.expected {
                return Ok(Ordered::Refused { case, newest });
            }
            let draft = read::load(&transaction, case, newest)?.draft;
            if draft.operation.list_number == placed.number {
                continue;
            }
            let draft =
                update(&draft, Command::SetListNumber(placed.number)).map_err(Fault::NotOrdered)?;
            match save_one(&transaction, (case, Some(newest)), &draft, stamp)? {
                Saved::Done(entry) => entries.push(entry),
                Saved::Refused { newest } => return Ok(Ordered::Refused { case, newest }),
            }
        }
        transaction.commit()?;
        self.still_there()?;
        Ok(Ordered::Done(entries))
    }
}
