//! Opening a register: what is refused, what is made.

use std::cell::RefCell;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior};
use tempfile::{NamedTempFile, TempDir};

use crate::backup;
use crate::catalog::Catalog;
use crate::error::{Fault, RegisterError};
use crate::head::Hashes;
use crate::identity::{Identity, file_at};
use crate::journal;
use crate::look::{Look, ReadOnly, Still, has_journal};
use crate::place::{directory_of, from_io, keep, make_directory, refuse_left_overs};
use crate::schema::{self, MIGRATIONS};
use crate::system::network_drive;

/// As long a save waits for another program's.
const PATIENCE: Duration = Duration::from_secs(5);

/// An open register. Give each thread its own.
#[derive(Debug)]
pub struct Register {
    pub(crate) connection: Connection,
    pub(crate) path: PathBuf,
    /// The schema it was opened with.
    pub(crate) schema: i64,
    /// What cases are found by, as it was read last.
    pub(crate) catalog: RefCell<Option<Arc<Catalog>>>,
    /// Hashes of saves and sheets, as far as they were read.
    pub(crate) hashes: RefCell<Hashes>,
    mode: Mode,
}

/// Whether it can be written.
#[derive(Debug)]
enum Mode {
    Written(Identity),
    Looked(LookedAt),
}

#[derive(Debug)]
struct LookedAt {
    why: ReadOnly,
    still: Option<Still>,
    /// Held to be gone with the register.
    #[expect(dead_code, reason = "a directory that is removed when it is dropped")]
    copied: Option<TempDir>,
}

/// Whether a register that is not there is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum IfAbsent {
    Make,
    Refuse,
}

impl Register {
    /// Opens a register, and makes it, with its directory, if nothing is there. A register of an older
    /// schema is backed up beside itself and then brought to the newest.
    ///
    /// # Errors
    ///
    /// [`RegisterError`]; whatever was there is as it was.
    pub fn open(path: &Path) -> Result<Self, RegisterError> {
        Self::open_with(path, IfAbsent::Make, MIGRATIONS)
    }

    pub fn open_existing(path: &Path) -> Result<Self, RegisterError> {
        Self::open_with(path, IfAbsent::Refuse, MIGRATIONS)
    }

    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Sets how long to wait for another program that is writing; 5 seconds unless set.
    pub fn set_patience(&self, patience: Duration) -> Result<(), RegisterError> {
        let set = self.connection.busy_timeout(patience);
        set.map_err(|error| Fault::at(&self.path)(error.into()))
    }

    /// One moment for all that is read.
    pub(crate) fn read<T>(
        &self,
        what: impl FnOnce(&Connection) -> Result<T, Fault>,
    ) -> Result<T, RegisterError> {
        let read = || {
            let answer = what(&*self.connection.unchecked_transaction()?);
            if let Mode::Looked(LookedAt {
                still: Some(still), ..
            }) = &self.mode
            {
                still.check(&self.path)?;
            }
            answer
        };
        read().map_err(Fault::at(&self.path))
    }

    /// Why it is only read; nothing if it can be written.
    pub fn read_only(&self) -> Option<ReadOnly> {
        match &self.mode {
            Mode::Written(_) => None,
            Mode::Looked(look) => Some(look.why),
        }
    }

    /// Takes the right to write first: what is read afterwards holds until the commit.
    pub(crate) fn begin(&mut self) -> Result<Transaction<'_>, Fault> {
        let schema = self.schema;
        let identity = match &mut self.mode {
            Mode::Written(identity) => identity,
            Mode::Looked(look) => return Err(look.why.fault()),
        };
        identity.check_files(&self.path)?;
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        schema::still_known(&transaction, schema)?;
        identity.check_inside(&self.path, &transaction)?;
        Ok(transaction)
    }

    /// What was committed is in the register at its place, and may be acknowledged.
    pub(crate) fn still_there(&self) -> Result<(), Fault> {
        match &self.mode {
            Mode::Written(identity) => identity.check_files(&self.path),
            Mode::Looked(look) => Err(look.why.fault()),
        }
    }

    fn open_with(
        path: &Path,
        if_absent: IfAbsent,
        migrations: &[&str],
    ) -> Result<Self, RegisterError> {
        open(path, if_absent, migrations).map_err(Fault::at(path))
    }
}

/// Whether a file stands there that may be a register.
pub(crate) fn stands(path: &Path) -> Result<bool, Fault> {
    if let Some(kind) = network_drive(path) {
        return Err(Fault::NetworkDrive { kind });
    }
    match fs::metadata(path) {
        Ok(found) if !found.is_file() => Err(Fault::NotAFile),
        Ok(found) if found.len() == 0 => Err(Fault::Empty),
        Ok(_) => Ok(true),
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            refuse_left_overs(path)?;
            Ok(false)
        }
        Err(error) if error.kind() == io::ErrorKind::NotADirectory => Err(Fault::Directory(error)),
        Err(error) => Err(Fault::File(error)),
    }
}

fn open(path: &Path, if_absent: IfAbsent, migrations: &[&str]) -> Result<Register, Fault> {
    if !stands(path)? {
        match if_absent {
            IfAbsent::Make => make(path, migrations)?,
            IfAbsent::Refuse => return Err(Fault::Absent),
        }
    }
    match open_to_write(path, migrations) {
        Err(fault) => match ReadOnly::of(&fault) {
            // Where it cannot be read either, what kept us from writing is said.
            Some(why) => open_to_read(path, migrations, why).map_err(|read| match read {
                Fault::ForeignJournal { .. } | Fault::Damaged(_) => read,
                _ => fault,
            }),
            None => Err(fault),
        },
        opened => opened,
    }
}

fn open_to_write(path: &Path, migrations: &[&str]) -> Result<Register, Fault> {
    let file = file_at(path)?;
    journal::refuse_foreign_of_nobody(path)?;
    let mut connection = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    let found = recognize(&connection, path, migrations)?;
    if connection.is_readonly("main")? {
        return Err(Fault::ReadOnly);
    }
    prepare(&connection)?;
    if found < schema::newest(migrations) {
        backup::before_migration(&connection, path, schema::up_to(found, migrations))?;
        schema::migrate(&mut connection, migrations)?;
        // The number stands in the file itself from now on, where an older program looks first.
        connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()))?;
    }
    let identity = Identity::of(path, file, &connection)?;
    Ok(Register {
        connection,
        path: path.to_owned(),
        schema: schema::newest(migrations),
        catalog: RefCell::default(),
        hashes: RefCell::default(),
        mode: Mode::Written(identity),
    })
}

fn open_to_read(path: &Path, migrations: &[&str], why: ReadOnly) -> Result<Register, Fault> {
    let mut look = Look::at(path)?;
    look.refuse_foreign_journal(path)?;
    look.up_to_newest(migrations)?;
    refuse_other_tables(&look.connection)?;
    let Look {
        connection,
        still,
        copied,
    } = look;
    Ok(Register {
        connection,
        path: path.to_owned(),
        schema: schema::newest(migrations),
        catalog: RefCell::default(),
        hashes: RefCell::default(),
        mode: Mode::Looked(LookedAt { why, still, copied }),
    })
}

/// Refuses a file that is no register or a newer one, and leaves it to the byte as it is.
fn recognize(connection: &Connection, path: &Path, migrations: &[&str]) -> Result<i64, Fault> {
    // What a program that was cut off left beside the file stays beside it until we know that the
    // file is ours. With nothing there, closing has nothing to write and tidies up.
    let keep = DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE;
    connection.set_db_config(keep, has_journal(path))?;
    let found = schema::version(connection, migrations).map_err(|fault| match fault {
        Fault::Damaged(_) if !begins_like_a_database(connection) => Fault::NotARegister,
        other => other,
    })?;
    connection.set_db_config(keep, false)?;
    Ok(found)
}

/// Whether the database takes the file for one of its own at all.
fn begins_like_a_database(connection: &Connection) -> bool {
    let read = connection.pragma_query_value(None, "application_id", |_| Ok(()));
    !matches!(
        read,
        Err(rusqlite::Error::SqliteFailure(failure, _))
            if failure.code == rusqlite::ErrorCode::NotADatabase
    )
}

pub(crate) fn connect(path: &Path, how: OpenFlags) -> Result<Connection, Fault> {
    let connection = Connection::open_with_flags(path, how | OpenFlags::SQLITE_OPEN_NO_MUTEX)?;
    connection.busy_timeout(PATIENCE)?;
    // Nothing stored in a file may call a function or change what it is not asked to.
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
    Ok(connection)
}

/// Every commit is on the drive before it is acknowledged; readers and one writer do not wait for
/// each other.
fn prepare(connection: &Connection) -> Result<(), Fault> {
    set_journal(connection)?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "foreign_keys", true)?;
    connection.pragma_update(None, "cell_size_check", true)?;
    refuse_other_tables(connection)
}

/// Tables that are not there, or are not ours, show at once.
fn refuse_other_tables(connection: &Connection) -> Result<(), Fault> {
    connection.prepare("SELECT sequence, hash, body FROM revision LIMIT 1")?;
    connection.prepare("SELECT case_key, sequence, name_folded FROM current LIMIT 1")?;
    connection.prepare("SELECT rowid FROM search LIMIT 1")?;
    Ok(())
}

pub(crate) fn set_journal(connection: &Connection) -> Result<(), Fault> {
    let mode: String = connection.query_row("PRAGMA journal_mode = WAL", [], |row| row.get(0))?;
    if mode == "wal" {
        Ok(())
    } else {
        Err(Fault::ReadOnly)
    }
}

/// Makes a register under another name and moves it to its own when it is whole, so that no program
/// ever meets half of one.
fn make(path: &Path, migrations: &[&str]) -> Result<(), Fault> {
    let file = new_file(path)?;
    let connection = made_in(file.path(), migrations)?;
    connection.close().map_err(|(_, error)| error)?;
    match keep(file, path) {
        // Another program made it in the same moment; its register is as good.
        Err(Fault::Exists) => Ok(()),
        other => other,
    }
}

/// An empty file of another name in the directory of a register that is to be made.
pub(crate) fn new_file(path: &Path) -> Result<NamedTempFile, Fault> {
    let directory = directory_of(path);
    make_directory(directory).map_err(Fault::Directory)?;
    tempfile::Builder::new()
        .prefix(".millrace-new-")
        .tempfile_in(directory)
        .map_err(from_io)
}

/// An empty register in an empty file that nobody else opens.
pub(crate) fn made_in(path: &Path, migrations: &[&str]) -> Result<Connection, Fault> {
    let mut connection = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    // From the beginning, so that no journal of the other kind ever stands beside a register.
    set_journal(&connection)?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    schema::migrate(&mut connection, migrations)?;
    Ok(connection)
}

#[cfg(test)]
mod tests;
