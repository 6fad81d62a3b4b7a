//! Where the results go: standard output, or a file that appears only when it is complete.

use std::fs::{File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use millrace_register::belongs_to_a_register;
use same_file::is_same_file;
use tempfile::NamedTempFile;

use crate::failure::Failure;
use crate::system::with_rights_of;

pub(crate) enum Output {
    Standard(io::Stdout),
    /// Not a regular file (a pipe, a device): written as it is.
    Special(File),
    /// Written beside its final name and moved there at the end, so that an interrupted run leaves
    /// what was there before.
    Regular {
        file: NamedTempFile,
        path: PathBuf,
        over: Over,
    },
}

/// What happens to a file that has the name already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Over {
    Replace,
    Refuse,
}

impl From<bool> for Over {
    /// As `--force` was given or not.
    fn from(force: bool) -> Self {
        if force { Self::Replace } else { Self::Refuse }
    }
}

impl Output {
    /// Standard output.
    pub(crate) fn standard() -> Self {
        Self::Standard(io::stdout())
    }

    /// A file that is none of those that are read, and no register, nor anything that belongs to one.
    /// A new one is its owner's alone; one that replaces another keeps the rights of that.
    ///
    /// # Errors
    ///
    /// [`Failure::Exists`], [`Failure::OverRegister`], [`Failure::SameFile`], [`Failure::Write`]; nothing was
    /// written.
    pub(crate) fn file(path: &Path, over: Over, read: &[&Path]) -> Result<Self, Failure> {
        if over == Over::Refuse && path.symlink_metadata().is_ok() {
            return Err(Failure::exists(path));
        }
        refuse_to_lose(path, read)?;
        if path.exists() && !path.is_file() {
            let file = OpenOptions::new()
                .write(true)
                .open(path)
                .map_err(Failure::writing(path))?;
            return Ok(Self::Special(file));
        }
        // A link stays a link: what it leads to is replaced.
        let target = path.canonicalize().unwrap_or_else(|_| path.to_owned());
        let path = target.as_path();
        let directory = match path.parent() {
            Some(parent) if parent != Path::new("") => parent,
            _ => Path::new("."),
        };
        let mut builder = tempfile::Builder::new();
        builder.prefix(".millrace-");
        with_rights_of(path.metadata().ok().as_ref(), &mut builder);
        let file = builder
            .tempfile_in(directory)
            .map_err(Failure::writing(path))?;
        Ok(Self::Regular {
            file,
            path: path.to_owned(),
            over,
        })
    }

    pub(crate) fn write_all(&mut self, bytes: &[u8]) -> io::Result<()> {
        match self {
            Self::Standard(stdout) => stdout.write_all(bytes),
            Self::Special(file) => file.write_all(bytes),
            Self::Regular { file, .. } => file.write_all(bytes),
        }
    }

    pub(crate) fn finish(self) -> Result<(), Failure> {
        match self {
            Self::Standard(mut stdout) => stdout.flush().map_err(Failure::Output),
            Self::Special(_) => Ok(()),
            Self::Regular { file, path, over } => {
                file.as_file().sync_all().map_err(Failure::writing(&path))?;
                let kept = match over {
                    Over::Replace => file.persist(&path),
                    Over::Refuse => file.persist_noclobber(&path),
                };
                match kept {
                    Ok(_) => Ok(()),
                    Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => {
                        Err(Failure::exists(&path))
                    }
                    Err(error) => Err(Failure::writing(&path)(error.error)),
                }
            }
        }
    }
}

/// Writes a whole file, or nothing of it.
///
/// # Errors
///
/// As [`Output::file`].
pub(crate) fn write_file(
    path: &Path,
    over: Over,
    read: &[&Path],
    bytes: &[u8],
) -> Result<(), Failure> {
    let mut output = Output::file(path, over, read)?;
    output.write_all(bytes).map_err(Failure::writing(path))?;
    output.finish()
}

/// Measurements, cases and signatures are lost with the file they stand in.
fn refuse_to_lose(path: &Path, read: &[&Path]) -> Result<(), Failure> {
    if belongs_to_a_register(path).map_err(Failure::writing(path))? {
        return Err(Failure::OverRegister {
            path: path.to_owned(),
        });
    }
    let is_read = |input: &&&Path| path.is_file() && is_same_file(path, input).unwrap_or(false);
    match read.iter().find(is_read) {
        Some(_) => Err(Failure::SameFile {
            path: path.to_owned(),
        }),
        None => Ok(()),
    }
}

#[cfg(all(test, unix))]
#[expect(
    clippy::unwrap_used,
    reason = "evidence fails loudly, in helpers as in tests"
)]
mod tests {
    use std::fs::{self, Permissions};
    use std::os::unix::fs::PermissionsExt as _;

    use super::*;

    fn mode(path: &Path) -> u32 {
        path.metadata().unwrap().permissions().mode() & 0o7777
    }

    #[test]
    fn a_new_file_is_its_owners_and_a_replaced_one_keeps_its_rights() {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("sheet.pdf");
        write_file(&path, Over::Refuse, &[], b"one").unwrap();
        assert_eq!(mode(&path), 0o600);
        for rights in [0o600, 0o640, 0o644, 0o400] {
            fs::set_permissions(&path, Permissions::from_mode(rights)).unwrap();
            write_file(&path, Over::Replace, &[], b"two").unwrap();
            assert_eq!(mode(&path), rights, "{rights:o}");
        }
        // Rights to run it, or as another, are not handed on.
        fs::set_permissions(&path, Permissions::from_mode(0o4755)).unwrap();
        write_file(&path, Over::Replace, &[], b"three").unwrap();
        assert_eq!(mode(&path), 0o644);
    }

    #[test]
    fn what_is_read_is_not_written_over_by_any_name() {
        let directory = tempfile::tempdir().unwrap();
        let at = |name: &str| directory.path().join(name);
        fs::write(at("case.ron"), "(version: 1)").unwrap();
        fs::hard_link(at("case.ron"), at("hard")).unwrap();
        std::os::unix::fs::symlink(at("case.ron"), at("soft")).unwrap();
        let case = at("case.ron");
        for name in ["case.ron", "hard", "soft", "./case.ron"] {
            let refused = write_file(&at(name), Over::Replace, &[&case], b"");
            assert!(matches!(refused, Err(Failure::SameFile { .. })), "{name}");
        }
        assert_eq!(fs::read(&case).unwrap(), b"(version: 1)");
        write_file(&at("else"), Over::Replace, &[&case], b"done").unwrap();
    }
}
