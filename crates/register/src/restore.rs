//! Putting a backup in the place of a register.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::backup::copied_beside;
use crate::error::{Fault, RegisterError};
use crate::journal::{opened_alone, refuse_of_other_kind};
use crate::look::Look;
use crate::open::Register;
use crate::place::{beside, directory_of, from_io, keep};
use crate::schema::{self, MIGRATIONS};
use crate::system::sync_directory;

/// The register, and what may stand beside it. The register goes first: a journal alone is refused, a
/// register without its journal would be read without its last saves.
const TOGETHER: [&str; 4] = ["", "-wal", "-shm", "-journal"];
/// Registers that were replaced and may stand side by side.
const MOST_REPLACED: u32 = 1_000;

impl Register {
    /// Puts a copy of a backup in the place of a register. What stands there is moved away under names that
    /// are handed back, together with its journal, and never into the backup.
    ///
    /// # Errors
    ///
    /// [`Fault::BadBackup`], [`Fault::Damaged`] if the backup is not sound, [`Fault::Locked`] if a program has
    /// the register open; then nothing was moved.
    pub fn restore(backup: &Path, to: &Path) -> Result<Vec<PathBuf>, RegisterError> {
        let look = sound(backup, to).map_err(Fault::at(backup))?;
        put(&look, to).map_err(Fault::at(to))
    }
}

fn sound(backup: &Path, to: &Path) -> Result<Look, Fault> {
    match fs::canonicalize(backup) {
        Ok(file) if fs::canonicalize(to).is_ok_and(|to| to == file) => return Err(Fault::Exists),
        Ok(_) => {}
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Err(Fault::Absent),
        Err(error) => return Err(from_io(error)),
    }
    let look = Look::at(backup)?;
    look.refuse_foreign_journal(backup)?;
    Ok(look)
}

fn put(look: &Look, to: &Path) -> Result<Vec<PathBuf>, Fault> {
    if to.symlink_metadata().is_ok() {
        refuse_if_used(to)?;
    }
    let found = schema::version(&look.connection, MIGRATIONS)?;
    let migrations = schema::up_to(found, MIGRATIONS);
    let copy = copied_beside(to, (&look.connection, migrations), &mut |_| {
        std::ops::ControlFlow::Continue(())
    })?;
    let moved = move_away(to)?;
    keep(copy, to)?;
    Ok(moved)
}

/// A register that is too damaged to be opened is not in use by us; nor is one beside a journal that opening it
/// would write back, and that is moved away with it.
fn refuse_if_used(to: &Path) -> Result<(), Fault> {
    if refuse_of_other_kind(to).is_err() {
        return Ok(());
    }
    match opened_alone(to) {
        Ok(None) => Err(Fault::Locked),
        Ok(Some(_)) | Err(_) => Ok(()),
    }
}

fn move_away(to: &Path) -> Result<Vec<PathBuf>, Fault> {
    let is_there = |path: &PathBuf| path.symlink_metadata().is_ok();
    let standing = TOGETHER.map(|ending| beside(to, ending));
    if !standing.iter().any(is_there) {
        return Ok(Vec::new());
    }
    let free = (1..MOST_REPLACED)
        .map(|count| TOGETHER.map(|ending| beside(to, &format!(".replaced-{count}{ending}"))))
        .find(|names| !names.iter().any(is_there))
        .ok_or(Fault::Exists)?;
    let mut moved = Vec::new();
    for (from, away) in standing.iter().zip(free) {
        if is_there(from) {
            fs::rename(from, &away).map_err(from_io)?;
            moved.push(away);
        }
    }
    sync_directory(directory_of(to)).map_err(from_io)?;
    Ok(moved)
}
