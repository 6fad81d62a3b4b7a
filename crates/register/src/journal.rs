//! Whether the journal beside a register is its own.
//!
//! The database itself cannot tell: it reads any journal that is whole into any file. But a register only
//! grows. So with its journal it is sound, and everything that was saved and signed without it, and more.

use std::path::Path;
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};

use crate::check;
use crate::error::Fault;
use crate::head::Hashes;
use crate::look::{has_journal, in_memory, without_journal};
use crate::open::connect;
use crate::place::beside;
use crate::schema::{self, MIGRATIONS};

/// Refuses a journal that nobody is using and that does not continue the register.
pub(crate) fn refuse_foreign_of_nobody(path: &Path) -> Result<(), Fault> {
    refuse_of_other_kind(path)?;
    if !has_journal(path) {
        return Ok(());
    }
    match opened_alone(path) {
        Ok(Some(with)) => refuse_foreign(path, || Ok(with)),
        // In use; or no register at all, which is told by whoever opens it.
        Ok(None) | Err(_) => Ok(()),
    }
}

/// Undoes a change that was cut off. A register never has one: it is made under another name.
pub(crate) fn refuse_of_other_kind(path: &Path) -> Result<(), Fault> {
    let journal = beside(path, "-journal");
    if std::fs::metadata(&journal).is_ok_and(|found| 0 < found.len()) {
        return Err(Fault::ForeignJournal { journal });
    }
    Ok(())
}

/// The register as it is with its journal, if no other program has it open; nothing is moved from the
/// journal into it.
pub(crate) fn opened_alone(path: &Path) -> Result<Option<Connection>, Fault> {
    let connection = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    connection.busy_timeout(Duration::ZERO)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true)?;
    connection.pragma_update(None, "locking_mode", "EXCLUSIVE")?;
    let read = connection.query_row("SELECT count(*) FROM sqlite_schema", [], |_| Ok(()));
    match read.map_err(Fault::from) {
        Ok(()) => Ok(Some(connection)),
        Err(Fault::Locked) => Ok(None),
        Err(fault) => Err(fault),
    }
}

/// `with` opens the register as it is read with its journal: after it was read alone, since another program
/// may be moving the one into the other, and then the later holds more.
pub(crate) fn refuse_foreign(
    path: &Path,
    with: impl FnOnce() -> Result<Connection, Fault>,
) -> Result<(), Fault> {
    let Some(without) = sound_without(path) else {
        // A program was cut off while it moved the journal into the file; only together they are whole.
        return Ok(());
    };
    if with()
        .and_then(|mut with| continues(&without, &mut with))
        .unwrap_or(false)
    {
        return Ok(());
    }
    let journal = beside(path, "-wal");
    Err(Fault::ForeignJournal { journal })
}

/// What the file alone says, if it is sound.
fn sound_without(path: &Path) -> Option<Hashes> {
    let mut without = in_memory(&without_journal(path).ok()?).ok()?;
    is_sound(&mut without)
        .ok()?
        .then(|| Hashes::of(&without))?
        .ok()
}

fn is_sound(connection: &mut Connection) -> Result<bool, Fault> {
    let found = schema::version(connection, MIGRATIONS)?;
    let migrations = schema::up_to(found, MIGRATIONS);
    let report = check::examine(connection, migrations, &mut check::to_the_end)?;
    Ok(report.problems.is_empty())
}

fn continues(without: &Hashes, with: &mut Connection) -> Result<bool, Fault> {
    if !is_sound(with)? {
        return Ok(false);
    }
    Ok(Hashes::of(with)?.continue_those_of(without))
}
