//! A copy of the whole register while it is in use.

use core::ops::ControlFlow;
use std::path::Path;

use rusqlite::backup::{Backup, StepResult};
use rusqlite::{Connection, OpenFlags};
use tempfile::NamedTempFile;

use crate::check;
use crate::error::{Fault, RegisterError};
use crate::open::{Register, set_journal};
use crate::place::{beside, directory_of, from_io, keep, refuse_left_overs};
use crate::problem::Problem;
use crate::schema::{self, MIGRATIONS};

/// Pages copied between two reports: 8 MB.
const PAGES_AT_ONCE: i32 = 2_048;
/// Backups before one migration that may stand side by side.
const MOST_BEFORE_MIGRATION: u32 = 1_000;

/// How far a backup has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pages {
    pub done: u64,
    pub total: u64,
}

impl Register {
    /// Copies the register as it stands at this moment to a new file; other programs may go on
    /// saving. The file appears when it is whole, read back and on the drive.
    ///
    /// # Errors
    ///
    /// [`Fault::Exists`] if something has that name; [`Fault::Stopped`] if `report` says so;
    /// [`Fault::BadBackup`] if the copy does not read back.
    pub fn backup(
        &self,
        to: &Path,
        report: &mut dyn FnMut(Pages) -> ControlFlow<()>,
    ) -> Result<(), RegisterError> {
        let migrations = schema::up_to(self.schema, MIGRATIONS);
        copy(&self.connection, (to, migrations), report).map_err(Fault::at(to))
    }
}

/// Copies a register beside itself, under a name that says which schema it has.
pub(crate) fn before_migration(
    connection: &Connection,
    path: &Path,
    migrations: &[&str],
) -> Result<(), Fault> {
    let schema = migrations.len();
    for count in 1..MOST_BEFORE_MIGRATION {
        let ending = if count == 1 {
            format!(".schema-{schema}.backup")
        } else {
            format!(".schema-{schema}-{count}.backup")
        };
        let go_on = &mut |_| ControlFlow::Continue(());
        match copy(connection, (&beside(path, &ending), migrations), go_on) {
            Err(Fault::Exists) => {}
            other => return other,
        }
    }
    Err(Fault::Exists)
}

/// A file without a name yet that anybody would open, beside the one it is to become.
pub(crate) fn new_beside(to: &Path) -> Result<NamedTempFile, Fault> {
    let mut builder = tempfile::Builder::new();
    let new = builder.prefix(".millrace-backup-");
    new.tempfile_in(directory_of(to)).map_err(from_io)
}

fn copy(
    connection: &Connection,
    (to, migrations): (&Path, &[&str]),
    report: &mut dyn FnMut(Pages) -> ControlFlow<()>,
) -> Result<(), Fault> {
    if to.symlink_metadata().is_ok() {
        return Err(Fault::Exists);
    }
    refuse_left_overs(to)?;
    keep(copied_beside(to, (connection, migrations), report)?, to)
}

/// A sound copy of a register of the schema that the migrations lead to, still without its name.
pub(crate) fn copied_beside(
    to: &Path,
    (connection, migrations): (&Connection, &[&str]),
    report: &mut dyn FnMut(Pages) -> ControlFlow<()>,
) -> Result<NamedTempFile, Fault> {
    let file = new_beside(to)?;
    let mut copy = Connection::open_with_flags(file.path(), OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    // It is put on the drive at the end.
    copy.execute_batch("PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF;")?;
    {
        // What is read here stands still until the end, so that savers never make it start anew.
        let still = connection.unchecked_transaction()?;
        still.query_row("SELECT count(*) FROM sqlite_schema", [], |_| Ok(()))?;
        copy_pages(&still, &mut copy, report)?;
    }
    copy.execute_batch("PRAGMA journal_mode = MEMORY")?;
    let found = check::examine(&mut copy, migrations, &mut check::to_the_end)?;
    if let Some(problem) = found.problems.into_iter().next() {
        return Err(Fault::BadBackup(Box::new(problem)));
    }
    set_journal(&copy)?;
    copy.close().map_err(|(_, error)| error)?;
    Ok(file)
}

fn copy_pages(
    from: &Connection,
    to: &mut Connection,
    report: &mut dyn FnMut(Pages) -> ControlFlow<()>,
) -> Result<(), Fault> {
    let backup = Backup::new(from, to)?;
    loop {
        let step = backup.step(PAGES_AT_ONCE)?;
        let progress = backup.progress();
        let total = u64::try_from(progress.pagecount).unwrap_or_default();
        let left = u64::try_from(progress.remaining).unwrap_or_default();
        let done = total.saturating_sub(left);
        if report(Pages { done, total }).is_break() {
            return Err(Fault::Stopped);
        }
        match step {
            StepResult::Done => return Ok(()),
            StepResult::More => {}
            StepResult::Busy | StepResult::Locked => return Err(Fault::Locked),
            _ => return Err(Fault::Database(Problem::CopyStopped)),
        }
    }
}
