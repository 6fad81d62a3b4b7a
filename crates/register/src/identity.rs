//! Whether the register that is open is still the one at its place.
//!
//! A file that was deleted or replaced is written to without an error as long as a program has it open, and
//! is gone afterwards.

use std::fs;
use std::io;
use std::path::Path;

use rusqlite::{Connection, OptionalExtension as _};

use crate::error::Fault;
use crate::look::without_journal;
use crate::place::{beside, from_io};
use crate::system::FileId;

/// The file at a place, if there is one.
pub(crate) fn file_at(path: &Path) -> Result<Option<FileId>, Fault> {
    match fs::metadata(path) {
        Ok(found) => Ok(Some(FileId::from(&found))),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(from_io(error)),
    }
}

/// The register as it was opened.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Identity {
    file: Option<FileId>,
    journal: Option<FileId>,
    /// Hash of its first save, which no other register has; nothing before that.
    first_save: Option<[u8; 32]>,
}

impl Identity {
    /// `file` is what stood at its place before it was opened.
    pub(crate) fn of(
        path: &Path,
        file: Option<FileId>,
        connection: &Connection,
    ) -> Result<Self, Fault> {
        Ok(Self {
            file,
            journal: file_at(&beside(path, "-wal"))?,
            first_save: first_save(connection)?,
        })
    }

    /// Refuses to go on if the files at the place of the register are not those that are open.
    pub(crate) fn check_files(&self, path: &Path) -> Result<(), Fault> {
        same(self.file, file_at(path)?)?;
        same(self.journal, file_at(&beside(path, "-wal"))?)
    }

    /// Refuses to go on if something else is in them.
    pub(crate) fn check_inside(
        &mut self,
        path: &Path,
        connection: &Connection,
    ) -> Result<(), Fault> {
        let ours = first_save(connection)?;
        let known = self.first_save;
        if known.is_some() && known != ours {
            return Err(Fault::Replaced);
        }
        self.first_save = ours;
        // While another program moves the journal into it, the file alone may be half of each.
        let on_drive = without_journal(path).and_then(|alone| first_save(&alone));
        match on_drive {
            Ok(Some(on_drive)) if ours != Some(on_drive) => Err(Fault::Replaced),
            _ => Ok(()),
        }
    }
}

fn same(open: Option<FileId>, found: Option<FileId>) -> Result<(), Fault> {
    match (open, found) {
        (_, None) => Err(Fault::Gone),
        (Some(open), Some(found)) if open == found => Ok(()),
        _ => Err(Fault::Replaced),
    }
}

fn first_save(connection: &Connection) -> Result<Option<[u8; 32]>, Fault> {
    let mut statement =
        connection.prepare_cached("SELECT hash FROM revision WHERE sequence = 1")?;
    Ok(statement.query_row([], |row| row.get(0)).optional()?)
}
