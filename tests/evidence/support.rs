//! Files of the tree, and numbers of a check.

use std::path::{Path, PathBuf};

/// The top of the tree.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("tests/ lies in the tree")
        .to_owned()
}

pub(crate) fn read(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// A table of check values: a comment line that names its script, a header, rows.
pub(crate) fn table(path: &str) -> csv::Reader<std::io::Cursor<String>> {
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(std::io::Cursor::new(read(path)))
}
