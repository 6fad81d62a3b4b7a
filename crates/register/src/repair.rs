//! A new register of everything that was saved and signed: what follows from it is made anew.

use std::path::Path;

use rusqlite::TransactionBehavior;

use crate::backup::new_beside;
use crate::check::{self, CheckReport};
use crate::error::{Fault, RegisterError};
use crate::look::Look;
use crate::open::{self, Register};
use crate::place::{keep, refuse_left_overs};
use crate::schema::{self, MIGRATIONS};

mod bodies;

use bodies::Bodies;

impl Register {
    /// Writes a new register from what was saved and signed in one whose list, search or indexes are
    /// damaged. The old one is only read.
    ///
    /// # Errors
    ///
    /// [`Fault::BeyondRepair`] if something that was saved or signed is damaged itself, or may be missing;
    /// [`Fault::Exists`] if something has the new name, [`Fault::LeftOver`] if something of an earlier
    /// register has.
    pub fn repair(from: &Path, to: &Path) -> Result<CheckReport, RegisterError> {
        let bodies = read(from).map_err(Fault::at(from))?;
        write(&bodies, to).map_err(Fault::at(to))
    }
}

fn read(from: &Path) -> Result<Bodies, Fault> {
    if !open::stands(from)? {
        return Err(Fault::Absent);
    }
    let look = Look::at(from)?;
    look.refuse_foreign_journal(from)?;
    schema::version(&look.connection, MIGRATIONS)?;
    Bodies::read(&look.connection)
}

fn write(bodies: &Bodies, to: &Path) -> Result<CheckReport, Fault> {
    if to.symlink_metadata().is_ok() {
        return Err(Fault::Exists);
    }
    refuse_left_overs(to)?;
    let new = new_beside(to)?;
    let mut connection = open::made_in(new.path(), MIGRATIONS)?;
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let mut sheets = bodies.signed.iter().peekable();
    for saved in &bodies.saved {
        saved.keep(&transaction)?;
        // Each sheet as soon as the revision it signs is the newest of its case, as it was signed.
        while let Some(sheet) = sheets.peek() {
            if !sheet.signs_newest(&transaction)? {
                break;
            }
            sheet.keep(&transaction)?;
            sheets.next();
        }
    }
    if let Some(sheet) = sheets.next() {
        return Err(sheet.without_revision());
    }
    transaction.commit()?;
    let report = check::examine(&mut connection, MIGRATIONS, &mut check::to_the_end)?;
    if let Some(problem) = report.problems.first() {
        return Err(Fault::BadBackup(Box::new(problem.clone())));
    }
    connection.close().map_err(|(_, error)| error)?;
    keep(new, to)?;
    Ok(report)
}
