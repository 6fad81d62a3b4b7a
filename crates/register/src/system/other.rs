//! Files on a system of another kind than Unix.

use std::borrow::Cow;
use std::fs::{self, DirBuilder, Metadata};
use std::io;
use std::path::Path;

/// Files are not numbered here: only that there is one is known, and a replaced register is noticed by what
/// is in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct FileId;

impl From<&Metadata> for FileId {
    fn from(_: &Metadata) -> Self {
        Self
    }
}

/// A directory cannot be flushed here; the file in it was.
pub(crate) fn sync_directory(_directory: &Path) -> io::Result<()> {
    Ok(())
}

/// Rights are inherited here from the directory above.
pub(crate) fn private_directory() -> DirBuilder {
    DirBuilder::new()
}

/// Lets a copy of a file be written to that may not be.
pub(crate) fn let_owner_write(file: &Path) -> io::Result<()> {
    let mut permissions = fs::metadata(file)?.permissions();
    permissions.set_readonly(false);
    fs::set_permissions(file, permissions)
}

/// An absolute path as it stands in an address: a drive stands behind a slash.
pub(crate) fn as_address(path: &str) -> Cow<'_, str> {
    format!("/{}", path.replace('\\', "/")).into()
}
