//! Runs the program.

pub(crate) mod place;

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// The top of the tree.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// What a run left behind.
pub(crate) struct Run {
    /// Exit status.
    pub(crate) code: i32,
    /// Standard output.
    pub(crate) out: String,
    /// Standard error.
    pub(crate) err: String,
}

/// Runs `millrace` in `directory`.
pub(crate) fn millrace_in(directory: &Path, arguments: &[&str]) -> Run {
    let Output {
        status,
        stdout,
        stderr,
    } = Command::new(env!("CARGO_BIN_EXE_millrace"))
        .args(arguments)
        .current_dir(directory)
        .env_remove("CLICOLOR_FORCE")
        .output()
        .expect("the program starts");
    let text = |bytes| String::from_utf8(bytes).expect("output is text");
    Run {
        code: status.code().expect("no signal"),
        out: text(stdout),
        err: text(stderr),
    }
}
