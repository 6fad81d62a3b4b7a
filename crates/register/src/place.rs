//! Files and directories around a register: names, and what survives a power cut.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use crate::error::Fault;
use crate::system::{private_directory, sync_directory};

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

/// Directories that are made are for their owner alone, and on the drive before anything is in them.
pub(crate) fn make_directory(directory: &Path) -> io::Result<()> {
    if directory.is_dir() {
        return Ok(());
    }
    let above = directory_of(directory);
    make_directory(above)?;
    match private_directory().create(directory) {
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
