//! Where the results go: standard output, or a file that appears only when it is complete.

use std::fs::{File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use crate::failure::Failure;

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
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Over {
    Replace,
    Refuse,
}

impl Output {
    pub(crate) fn create(path: Option<&Path>, over: Over) -> Result<Self, Failure> {
        let Some(path) = path else {
            return Ok(Self::Standard(io::stdout()));
        };
        if over == Over::Refuse && path.symlink_metadata().is_ok() {
            return Err(Failure::exists(path));
        }
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
        let file = builder()
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

/// The file gets the rights any new file gets, not the narrow ones of a temporary one.
#[cfg(unix)]
fn builder() -> tempfile::Builder<'static, 'static> {
    use std::os::unix::fs::PermissionsExt as _;

    let mut builder = tempfile::Builder::new();
    builder
        .prefix(".millrace-")
        .permissions(std::fs::Permissions::from_mode(0o666));
    builder
}

#[cfg(not(unix))]
fn builder() -> tempfile::Builder<'static, 'static> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".millrace-");
    builder
}
