//! Rights of files on a system of the Unix kind.

use std::fs::{DirBuilder, Metadata, Permissions};
use std::os::unix::fs::{DirBuilderExt as _, PermissionsExt as _};

use tempfile::Builder;

/// What is written is read by its owner alone, or by whom the file in its place was.
const OWNER_ALONE: u32 = 0o600;
/// Reading and writing; never what runs a program or changes whose rights it has.
const READ_AND_WRITE: u32 = 0o666;

pub(crate) fn with_rights_of(replaced: Option<&Metadata>, new: &mut Builder<'_, '_>) {
    let mode = replaced.map_or(OWNER_ALONE, |file| {
        file.permissions().mode() & READ_AND_WRITE
    });
    new.permissions(Permissions::from_mode(mode));
}

/// Makes directories for their owner alone.
pub(crate) fn private_directory() -> DirBuilder {
    let mut builder = DirBuilder::new();
    builder.recursive(true).mode(0o700);
    builder
}
