//! Rights of files on a system of another kind than Unix: inherited from the directory above.

use std::fs::{DirBuilder, Metadata};

use tempfile::Builder;

pub(crate) fn with_rights_of(_replaced: Option<&Metadata>, _new: &mut Builder<'_, '_>) {}

pub(crate) fn private_directory() -> DirBuilder {
    let mut builder = DirBuilder::new();
    builder.recursive(true);
    builder
}
