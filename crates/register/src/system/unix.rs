//! Files on a system of the Unix kind.

use std::borrow::Cow;
use std::fs::{self, DirBuilder, File, Metadata};
use std::io;
use std::os::unix::fs::{DirBuilderExt as _, MetadataExt as _, PermissionsExt as _};
use std::path::Path;

/// What tells a file from another at the same place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct FileId {
    device: u64,
    inode: u64,
}

impl From<&Metadata> for FileId {
    fn from(found: &Metadata) -> Self {
        let (device, inode) = (found.dev(), found.ino());
        Self { device, inode }
    }
}

/// A name that was just given survives a power cut once its directory is on the drive.
pub(crate) fn sync_directory(directory: &Path) -> io::Result<()> {
    File::open(directory)?.sync_all()
}

/// Makes directories for their owner alone.
pub(crate) fn private_directory() -> DirBuilder {
    let mut builder = DirBuilder::new();
    builder.mode(0o700);
    builder
}

/// Lets its owner, and nobody else, write to a copy of a file that may not be written to.
pub(crate) fn let_owner_write(file: &Path) -> io::Result<()> {
    let mut permissions = fs::metadata(file)?.permissions();
    permissions.set_mode(0o600);
    fs::set_permissions(file, permissions)
}

/// An absolute path as it stands in an address.
pub(crate) fn as_address(path: &str) -> Cow<'_, str> {
    path.into()
}
