//! Reading a register that cannot be written: a drive that is full or read-only, or no right to write.

use std::fs;
use std::path::Path;
use std::time::{Duration, UNIX_EPOCH};

use rusqlite::backup::{Backup, StepResult};
use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};
use tempfile::TempDir;

use crate::error::Fault;
use crate::journal;
use crate::open::connect;
use crate::place::beside;
use crate::schema;
use crate::system::{as_address, let_owner_write};

/// Why a register is only read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadOnly {
    /// No right to write, or a drive that is read-only.
    Rights,
    /// No room, or a drive that fails to write.
    Full,
}

impl ReadOnly {
    /// Whether a fault leaves reading possible.
    pub(crate) const fn of(fault: &Fault) -> Option<Self> {
        match fault {
            Fault::ReadOnly | Fault::Access(_) => Some(Self::Rights),
            Fault::Full => Some(Self::Full),
            _ => None,
        }
    }

    /// What a save is told.
    pub(crate) const fn fault(self) -> Fault {
        match self {
            Self::Rights => Fault::ReadOnly,
            Self::Full => Fault::Full,
        }
    }
}

/// A register that is read and left as it is.
#[derive(Debug)]
pub(crate) struct Look {
    pub(crate) connection: Connection,
    /// The file as it was, if the database does not notice when another program writes to it.
    pub(crate) still: Option<Still>,
    /// Where a copy lies that is read in its place.
    pub(crate) copied: Option<TempDir>,
}

/// Enough of a file to tell that somebody wrote to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Still {
    length: u64,
    /// Since 1970, as the drive has it.
    changed: Option<Duration>,
    has_journal: bool,
}

impl Still {
    pub(crate) fn of(path: &Path) -> Option<Self> {
        let file = fs::metadata(path).ok()?;
        let changed = file.modified().ok();
        Some(Self {
            length: file.len(),
            changed: changed.and_then(|at| at.duration_since(UNIX_EPOCH).ok()),
            has_journal: has_journal(path),
        })
    }

    /// Refuses what was read while another program wrote: it may be half of each.
    pub(crate) fn check(&self, path: &Path) -> Result<(), Fault> {
        if Self::of(path).as_ref() == Some(self) {
            return Ok(());
        }
        Err(Fault::ChangedMeanwhile)
    }
}

impl Look {
    /// Opens a register to read it, with what stands in its journal.
    pub(crate) fn at(path: &Path) -> Result<Self, Fault> {
        journal::refuse_of_other_kind(path)?;
        // With the right to write nothing is written either, but what is made beside the file is tidied up.
        for how in [
            OpenFlags::SQLITE_OPEN_READ_WRITE,
            OpenFlags::SQLITE_OPEN_READ_ONLY,
        ] {
            match connect(path, how).and_then(|connection| left_as_it_is(connection, path)) {
                Ok(connection) => return Ok(Self::alone(connection, None)),
                Err(fault) if ReadOnly::of(&fault).is_none() => return Err(fault),
                Err(_) => {}
            }
        }
        if has_journal(path) {
            return Self::of_copy(path);
        }
        // Nothing can be made beside it, so nobody with our rights writes to it either; whether somebody
        // with other rights did is looked for after each answer.
        let still = Still::of(path);
        Ok(Self::alone(without_journal(path)?, still))
    }

    fn alone(connection: Connection, still: Option<Still>) -> Self {
        Self {
            connection,
            still,
            copied: None,
        }
    }

    /// The database reads a journal only where it may make its scratch file, so both are copied to where it
    /// may.
    fn of_copy(path: &Path) -> Result<Self, Fault> {
        let still = Still::of(path);
        let directory = tempfile::tempdir().map_err(Fault::File)?;
        let copy = directory.path().join("register.sqlite3");
        fs::copy(path, &copy).map_err(Fault::File)?;
        fs::copy(beside(path, "-wal"), beside(&copy, "-wal")).map_err(Fault::File)?;
        for file in [copy.clone(), beside(&copy, "-wal")] {
            let_owner_write(&file).map_err(Fault::File)?;
        }
        let connection = readable(connect(&copy, OpenFlags::SQLITE_OPEN_READ_WRITE)?)?;
        Ok(Self {
            connection,
            still,
            copied: Some(directory),
        })
    }

    /// Brings what is read to the newest schema, in memory.
    pub(crate) fn up_to_newest(&mut self, migrations: &[&str]) -> Result<(), Fault> {
        let found = schema::version(&self.connection, migrations)?;
        if found < schema::newest(migrations) {
            let mut copy = in_memory(&self.connection)?;
            schema::migrate(&mut copy, migrations)?;
            self.connection = copy;
        }
        Ok(())
    }

    /// Refuses a journal that does not continue the register it lies beside.
    pub(crate) fn refuse_foreign_journal(&self, path: &Path) -> Result<(), Fault> {
        if !has_journal(path) {
            return Ok(());
        }
        journal::refuse_foreign(path, || in_memory(&self.connection))
    }
}

/// Does not move what stands in its journal into the file.
fn left_as_it_is(connection: Connection, path: &Path) -> Result<Connection, Fault> {
    let keep = DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE;
    connection.set_db_config(keep, has_journal(path))?;
    readable(connection)
}

fn readable(connection: Connection) -> Result<Connection, Fault> {
    connection.query_row("SELECT count(*) FROM sqlite_schema", [], |_| Ok(()))?;
    Ok(connection)
}

/// Whether saves stand in a journal beside the file.
pub(crate) fn has_journal(path: &Path) -> bool {
    fs::metadata(beside(path, "-wal")).is_ok_and(|found| 0 < found.len())
}

/// The file alone, as it stands on the drive.
pub(crate) fn without_journal(path: &Path) -> Result<Connection, Fault> {
    let uri = format!("file:{}?immutable=1", escaped(path)?);
    let how = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
    let connection = connect(Path::new(&uri), how)?;
    readable(connection)
}

/// A path as part of an address, where `%`, `?` and `#` mean something.
fn escaped(path: &Path) -> Result<String, Fault> {
    let path = std::path::absolute(path).map_err(Fault::File)?;
    let text = as_address(path.to_str().ok_or(Fault::NotAFile)?);
    let mut escaped = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '%' => escaped.push_str("%25"),
            '?' => escaped.push_str("%3f"),
            '#' => escaped.push_str("%23"),
            _ => escaped.push(c),
        }
    }
    Ok(escaped)
}

/// The whole register in memory, where it may be written to.
pub(crate) fn in_memory(connection: &Connection) -> Result<Connection, Fault> {
    let mut copy = Connection::open_in_memory()?;
    copy.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
    let step = Backup::new(connection, &mut copy)?.step(-1)?;
    match step {
        StepResult::Done => Ok(copy),
        _ => Err(Fault::Locked),
    }
}
