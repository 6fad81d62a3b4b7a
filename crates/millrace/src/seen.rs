//! What this computer remembers of each register, outside of it: whoever puts an older register back, or
//! writes one anew, puts back nothing that lies here.

use std::path::{Path, PathBuf};

use directories::BaseDirs;
use millrace_register::{Fault, Register, RegisterError, SeenHeads};
use millrace_wording::Words;

use crate::failure::Failure;
use crate::register::tell_if_forgotten;

/// Where this computer keeps what nobody would carry to another; nowhere on a system that names no place.
#[derive(Clone, Debug, Default)]
pub(crate) struct Outside(Option<PathBuf>);

impl Outside {
    pub(crate) fn of_this_computer() -> Self {
        Self(BaseDirs::new().map(|directories| {
            let state = directories.state_dir();
            let folder = state.unwrap_or_else(|| directories.data_local_dir());
            folder.join("millrace")
        }))
    }

    #[cfg(test)]
    pub(crate) fn at(folder: PathBuf) -> Self {
        Self(Some(folder))
    }

    /// Refuses to begin a register where one was seen that is gone.
    pub(crate) fn refuse_missing(&self, register: &Path) -> Result<(), RegisterError> {
        let heads = self.heads();
        heads.map_or(Ok(()), |heads| heads.refuse_missing(register))
    }

    fn heads(&self) -> Option<SeenHeads> {
        let folder = self.0.as_ref()?;
        Some(SeenHeads::in_folder(&folder.join("seen")))
    }

    /// The folder of what could not be saved.
    pub(crate) fn aside(&self) -> Option<PathBuf> {
        self.0.as_ref().map(|folder| folder.join("not-saved"))
    }

    /// Refuses a register that does not hold what it held when it was seen last; remembers nothing.
    pub(crate) fn compare(&self, register: &Register) -> Result<(), RegisterError> {
        let heads = self.heads();
        heads.map_or(Ok(()), |heads| heads.compare(register).map(drop))
    }

    /// Remembers how far the register has come: after it was opened, and after each save.
    pub(crate) fn remember(&self, register: &Register) -> Result<(), RegisterError> {
        let heads = self.heads();
        heads.map_or(Ok(()), |heads| heads.meet(register).map(drop))
    }
}

/// Opens a register that is there, and that holds everything it held when it was seen last.
pub(crate) fn open(path: &Path, words: Words) -> Result<Register, Failure> {
    Outside::of_this_computer().refuse_missing(path)?;
    let register = Register::open_existing(path)?;
    meet(&register, words)?;
    Ok(register)
}

/// The same; nothing where none is and none was seen, so that one may be begun.
pub(crate) fn open_if_there(path: &Path, words: Words) -> Result<Option<Register>, Failure> {
    match open(path, words) {
        Err(Failure::Register(RegisterError {
            fault: Fault::Absent,
            ..
        })) => Ok(None),
        opened => opened.map(Some),
    }
}

/// Refuses a register that does not hold what it held when it was seen last.
pub(crate) fn meet(register: &Register, words: Words) -> Result<(), Failure> {
    match remember(register) {
        // What is wrong with the register itself, not with where it is remembered.
        Err(error) if error.fault.is_another_head() || error.path == register.path() => {
            Err(error.into())
        }
        remembered => {
            tell_if_forgotten(remembered, words);
            Ok(())
        }
    }
}

/// Remembers how far the register has come.
pub(crate) fn remember(register: &Register) -> Result<(), RegisterError> {
    Outside::of_this_computer().remember(register)
}

/// Takes a register as it is, for somebody who knows why: what was seen before, if anything was, and where it
/// stands now, which is nowhere if it is gone.
pub(crate) fn accept(path: &Path) -> Result<(Option<String>, Option<String>), Failure> {
    let heads = Outside::of_this_computer().heads();
    let heads = heads.ok_or(Failure::NoPlace)?;
    let (before, now) = if path.symlink_metadata().is_ok() {
        let (before, now) = heads.accept(&Register::open_existing(path)?)?;
        (before, Some(now.to_string()))
    } else {
        (heads.forget(path)?, None)
    };
    Ok((before.map(|head| head.short().to_string()), now))
}
