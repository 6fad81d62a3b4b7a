//! The highest head seen of each register, kept outside of it.
//!
//! Whoever puts an older register back, or writes one anew, puts back nothing that lies elsewhere.

use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use sha2::{Digest as _, Sha256};

use crate::entry::RevisionHash;
use crate::error::{Fault, RegisterError};
use crate::head::{Head, HeadStanding, PrintedHead};
use crate::open::Register;
use crate::place::{directory_of, from_io, make_directory};
use crate::system::sync_directory;

const FIRST_LINE: &str = "millrace seen head 1";
/// As many hexadecimal digits of the hash of a path name its file.
const NAME: usize = 16;

/// One small file per register, in a folder that is not the register's own.
#[derive(Clone, Debug)]
pub struct SeenHeads {
    folder: PathBuf,
}

impl SeenHeads {
    pub fn in_folder(folder: &Path) -> Self {
        let folder = folder.to_owned();
        Self { folder }
    }

    /// The head that was seen last of the register at this place; nothing if none was.
    ///
    /// # Errors
    ///
    /// [`Fault::SeenHead`] if the file is not what this program writes.
    pub fn of(&self, register: &Path) -> Result<Option<PrintedHead>, RegisterError> {
        let file = self.file(register).map_err(Fault::at(register))?;
        read(&file).map_err(Fault::at(&file))
    }

    /// Holds a register that was opened against the head that was seen last of it, and writes nothing.
    ///
    /// # Errors
    ///
    /// [`Fault::SetBack`], [`Fault::OtherHead`] if it does not hold what it held then.
    pub fn compare(&self, register: &Register) -> Result<Head, RegisterError> {
        let path = register.path();
        let Some(seen) = self.of(path)?.map(Box::new) else {
            return register.head();
        };
        match register.standing_to(&seen)? {
            HeadStanding::Same => register.head(),
            HeadStanding::Grown { now } => Ok(now),
            HeadStanding::SetBack { now } => Err(Fault::at(path)(Fault::SetBack { seen, now })),
            HeadStanding::Other { now } => Err(Fault::at(path)(Fault::OtherHead { seen, now })),
        }
    }

    /// The same, and keeps its head if it grew or none was seen: after opening, and after each save.
    ///
    /// # Errors
    ///
    /// As [`Self::compare`], and then the head that was seen is kept, until somebody accepts the other; also if
    /// the head cannot be kept, with the path of its file.
    pub fn meet(&self, register: &Register) -> Result<Head, RegisterError> {
        let now = self.compare(register)?;
        if self.of(register.path())? == Some(now.whole()) {
            return Ok(now);
        }
        self.keep(register)
    }

    /// Keeps the head of a register whatever was seen before: for somebody who knows why it is another, as
    /// after a restore. Hands back what was kept before, if it could be read.
    ///
    /// # Errors
    ///
    /// [`RegisterError`] if it cannot be kept; then the earlier one stays.
    pub fn accept(
        &self,
        register: &Register,
    ) -> Result<(Option<PrintedHead>, Head), RegisterError> {
        let before = self.of(register.path()).ok().flatten();
        Ok((before, self.keep(register)?))
    }

    /// Refuses a place where a register was seen that held something, and where none is: one that is made
    /// there would be taken for it.
    ///
    /// # Errors
    ///
    /// [`Fault::Missing`]; [`Fault::SeenHead`] if what is kept of it cannot be read.
    pub fn refuse_missing(&self, register: &Path) -> Result<(), RegisterError> {
        let looked_for = register.symlink_metadata();
        if !looked_for.is_err_and(|error| error.kind() == io::ErrorKind::NotFound) {
            return Ok(());
        }
        match self.of(register)?.map(Box::new) {
            Some(seen) if 0 < seen.saves + seen.sheets => {
                Err(Fault::at(register)(Fault::Missing { seen }))
            }
            _ => Ok(()),
        }
    }

    /// Forgets a register that is gone, for somebody who knows why, and hands back what was seen of it, if that
    /// could be read.
    ///
    /// # Errors
    ///
    /// [`Fault::Absent`] if none was seen at this place.
    pub fn forget(&self, register: &Path) -> Result<Option<PrintedHead>, RegisterError> {
        let before = self.of(register).ok().flatten();
        let file = self.file(register).map_err(Fault::at(register))?;
        match fs::remove_file(&file) {
            Ok(()) => Ok(before),
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                Err(Fault::at(register)(Fault::Absent))
            }
            Err(error) => Err(Fault::at(&file)(from_io(error))),
        }
    }

    fn keep(&self, register: &Register) -> Result<Head, RegisterError> {
        let head = register.head()?;
        let path = register.path();
        let file = self.file(path).map_err(Fault::at(path))?;
        // For whoever looks into the file; in one line, whatever the path holds.
        let place = path.display().to_string().escape_debug().to_string();
        let text = format!("{FIRST_LINE}\n{place}\n{}\n", head.whole());
        self.replace(&file, &text)
            .map_err(|error| Fault::at(&file)(from_io(error)))?;
        Ok(head)
    }

    /// Wholly, or not at all.
    fn replace(&self, file: &Path, text: &str) -> io::Result<()> {
        make_directory(&self.folder)?;
        let mut new = tempfile::Builder::new()
            .prefix(".millrace-seen-")
            .tempfile_in(&self.folder)?;
        new.write_all(text.as_bytes())?;
        new.as_file().sync_all()?;
        new.persist(file).map_err(|error| error.error)?;
        sync_directory(&self.folder)
    }

    /// By the place of the register, so that another one in its place is noticed.
    fn file(&self, register: &Path) -> Result<PathBuf, Fault> {
        let place = place_of(register).map_err(from_io)?;
        let hash = Sha256::digest(place.as_os_str().as_encoded_bytes());
        let mut name = RevisionHash(hash.into()).to_string();
        name.truncate(NAME);
        Ok(self.folder.join(format!("{name}.head")))
    }
}

/// The whole path of what may be gone, and its directory with it.
fn place_of(path: &Path) -> io::Result<PathBuf> {
    match (fs::canonicalize(path), path.file_name()) {
        (Err(error), Some(name)) if error.kind() == io::ErrorKind::NotFound => {
            Ok(place_of(directory_of(path))?.join(name))
        }
        (found, _) => found,
    }
}

fn read(file: &Path) -> Result<Option<PrintedHead>, Fault> {
    let text = match fs::read_to_string(file) {
        Ok(text) => text,
        Err(error)
            if matches!(
                error.kind(),
                io::ErrorKind::NotFound | io::ErrorKind::NotADirectory
            ) =>
        {
            return Ok(None);
        }
        Err(error) if error.kind() == io::ErrorKind::InvalidData => return Err(Fault::SeenHead),
        Err(error) => return Err(from_io(error)),
    };
    let lines: Vec<_> = text.lines().collect();
    match *lines {
        [FIRST_LINE, _, head] => head.parse().map(Some).map_err(|_| Fault::SeenHead),
        _ => Err(Fault::SeenHead),
    }
}
