//! A register that begins with cases: it is there with all of them, or not at all.

use std::path::Path;

use millrace_core::case::Draft;
use rusqlite::TransactionBehavior;

use crate::entry::RevisionEntry;
use crate::error::{Fault, RegisterError};
use crate::open::{Register, made_in, new_file, stands};
use crate::place::keep;
use crate::save::{append_new, refuse_new};
use crate::schema::MIGRATIONS;
use crate::stamp::Stamp;

impl Register {
    /// Makes a register with each draft as a case, where none is. If another program makes one in the same
    /// moment, they are saved into that.
    ///
    /// # Errors
    ///
    /// [`RegisterError`]; then no register was made, and none of them was saved.
    pub fn begin_with(
        path: &Path,
        drafts: &[Draft],
        stamp: Stamp<'_>,
    ) -> Result<(Self, Vec<RevisionEntry>), RegisterError> {
        let made = begin(path, drafts, stamp).map_err(Fault::at(path))?;
        let mut register = Self::open_existing(path)?;
        let saved = match made {
            Some(saved) => saved,
            None => register.import(drafts, stamp)?,
        };
        Ok((register, saved))
    }
}

/// Nothing if a register is there by now.
fn begin(
    path: &Path,
    drafts: &[Draft],
    stamp: Stamp<'_>,
) -> Result<Option<Vec<RevisionEntry>>, Fault> {
    if stands(path)? {
        return Ok(None);
    }
    // Before there is so much as a directory for it.
    refuse_new(drafts, stamp)?;
    let file = new_file(path)?;
    let mut connection = made_in(file.path(), MIGRATIONS)?;
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let saved = append_new(&transaction, drafts, stamp)?;
    transaction.commit()?;
    connection.close().map_err(|(_, error)| error)?;
    match keep(file, path) {
        Err(Fault::Exists) => Ok(None),
        kept => kept.map(|()| Some(saved)),
    }
}
