//! Opening a register: what is refused, what is made.

use std::cell::RefCell;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};
use tempfile::NamedTempFile;

use crate::backup;
use crate::catalog::Catalog;
use crate::drive::network_drive;
use crate::error::{Fault, RegisterError};
use crate::schema::{self, MIGRATIONS};

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
        let read = || what(&*self.connection.unchecked_transaction()?);
        read().map_err(Fault::at(&self.path))
    }

    fn open_with(
        path: &Path,
        if_absent: IfAbsent,
        migrations: &[&str],
    ) -> Result<Self, RegisterError> {
        open(path, if_absent, migrations).map_err(Fault::at(path))
    }
}

fn open(path: &Path, if_absent: IfAbsent, migrations: &[&str]) -> Result<Register, Fault> {
    if let Some(kind) = network_drive(path) {
        return Err(Fault::NetworkDrive { kind });
    }
    match fs::metadata(path) {
        Ok(found) if !found.is_file() => return Err(Fault::NotAFile),
        Ok(found) if found.len() == 0 => return Err(Fault::Empty),
        Ok(_) => {}
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            refuse_left_overs(path)?;
            match if_absent {
                IfAbsent::Make => make(path, migrations)?,
                IfAbsent::Refuse => return Err(Fault::Absent),
            }
        }
        Err(error) if error.kind() == io::ErrorKind::NotADirectory => {
            return Err(Fault::Directory(error));
        }
        Err(error) => return Err(Fault::File(error)),
    }
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
    Ok(Register {
        connection,
        path: path.to_owned(),
        schema: schema::newest(migrations),
        catalog: RefCell::default(),
    })
}

/// Refuses a file that is no register or a newer one, and leaves it to the byte as it is.
fn recognize(connection: &Connection, path: &Path, migrations: &[&str]) -> Result<i64, Fault> {
    // What a program that was cut off left beside the file stays beside it until we know that the
    // file is ours. With nothing there, closing has nothing to write and tidies up.
    let keep = DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE;
    connection.set_db_config(keep, is_pending(path))?;
    let found = schema::version(connection, migrations).map_err(|fault| match fault {
        Fault::Damaged(_) if !begins_like_a_database(connection) => Fault::NotARegister,
        other => other,
    })?;
    connection.set_db_config(keep, false)?;
    Ok(found)
}

/// Whether a journal of saves stands beside the file.
fn is_pending(path: &Path) -> bool {
    fs::metadata(beside(path, "-wal")).is_ok_and(|found| 0 < found.len())
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

fn connect(path: &Path, how: OpenFlags) -> Result<Connection, Fault> {
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
    let mode: String = connection.query_row("PRAGMA journal_mode = WAL", [], |row| row.get(0))?;
    if mode != "wal" {
        return Err(Fault::ReadOnly);
    }
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "foreign_keys", true)?;
    connection.pragma_update(None, "cell_size_check", true)?;
    // Tables that are not there, or are not ours, show at once.
    connection.prepare("SELECT sequence, hash, body FROM revision LIMIT 1")?;
    connection.prepare("SELECT case_key, sequence, name_folded FROM current LIMIT 1")?;
    connection.prepare("SELECT rowid FROM search LIMIT 1")?;
    Ok(())
}

/// Makes a register under another name and moves it to its own when it is whole, so that no program
/// ever meets half of one.
fn make(path: &Path, migrations: &[&str]) -> Result<(), Fault> {
    let directory = directory_of(path);
    make_directory(directory).map_err(Fault::Directory)?;
    let file = tempfile::Builder::new()
        .prefix(".millrace-new-")
        .tempfile_in(directory)
        .map_err(from_io)?;
    let connection = made_in(file.path(), migrations)?;
    connection.close().map_err(|(_, error)| error)?;
    match keep(file, path) {
        // Another program made it in the same moment; its register is as good.
        Err(Fault::Exists) => Ok(()),
        other => other,
    }
}

/// An empty register in an empty file that nobody else opens.
pub(crate) fn made_in(path: &Path, migrations: &[&str]) -> Result<Connection, Fault> {
    let mut connection = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    schema::migrate(&mut connection, migrations)?;
    Ok(connection)
}

/// A register of any schema, damaged or not, that is read and left as it is.
pub(crate) fn to_look_at(path: &Path) -> Result<Connection, Fault> {
    let connection = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    let keep = DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE;
    connection.set_db_config(keep, is_pending(path))?;
    schema::version(&connection, MIGRATIONS)?;
    Ok(connection)
}

/// Gives a finished file its name, durably, unless something has that name.
pub(crate) fn keep(file: NamedTempFile, path: &Path) -> Result<(), Fault> {
    file.as_file().sync_all().map_err(from_io)?;
    // Closed before it gets its name: closing it later would take away the locks that this process
    // may by then hold on it.
    file.into_temp_path()
        .persist_noclobber(path)
        .map_err(|error| {
            if error.error.kind() == io::ErrorKind::AlreadyExists {
                Fault::Exists
            } else {
                from_io(error.error)
            }
        })?;
    sync_directory(directory_of(path)).map_err(from_io)
}

/// A name that was just given survives a power cut once its directory is on the drive.
#[cfg(unix)]
fn sync_directory(directory: &Path) -> io::Result<()> {
    fs::File::open(directory)?.sync_all()
}

#[cfg(not(unix))]
fn sync_directory(_directory: &Path) -> io::Result<()> {
    Ok(())
}

/// Directories that are made are for their owner alone, and on the drive before anything is in them.
fn make_directory(directory: &Path) -> io::Result<()> {
    if directory.is_dir() {
        return Ok(());
    }
    let above = directory_of(directory);
    make_directory(above)?;
    let mut builder = fs::DirBuilder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt as _;
        builder.mode(0o700);
    }
    match builder.create(directory) {
        // Another program made it in the same moment.
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists && directory.is_dir() => Ok(()),
        Err(error) => Err(error),
        Ok(()) => sync_directory(above),
    }
}

/// A journal without its register belongs to one that is gone; a new one must not swallow it.
pub(crate) fn refuse_left_overs(path: &Path) -> Result<(), Fault> {
    let left_over = ["-wal", "-journal"]
        .into_iter()
        .any(|ending| fs::metadata(beside(path, ending)).is_ok_and(|found| 0 < found.len()));
    if left_over {
        return Err(Fault::LeftOver);
    }
    Ok(())
}

/// The path with something appended to its name.
pub(crate) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

pub(crate) fn directory_of(path: &Path) -> &Path {
    match path.parent() {
        Some(parent) if parent != Path::new("") => parent,
        _ => Path::new("."),
    }
}

pub(crate) fn from_io(error: io::Error) -> Fault {
    match error.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded | io::ErrorKind::FileTooLarge => {
            Fault::Full
        }
        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => Fault::ReadOnly,
        _ => Fault::File(error),
    }
}

#[cfg(test)]
mod tests;
