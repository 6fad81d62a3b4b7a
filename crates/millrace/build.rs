//! Tells the program which commit it is built from. Only this crate, the last one, is built again for a
//! new commit.

#![allow(clippy::print_stdout, reason = "cargo is spoken to on standard output")]

use std::path::{Path, PathBuf};
use std::process::Command;

fn main() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    // The paths below are of the source; a build without git looks again once one of them changes.
    for part in ["Cargo.lock", "Cargo.toml", "assets", "crates"] {
        println!("cargo::rerun-if-changed={}", root.join(part).display());
    }
    let commit = commit(&root).unwrap_or_default();
    println!("cargo::rustc-env=MILLRACE_COMMIT={commit}");
}

/// The commit of this source, with a plus when a file of it was changed since; nothing outside a
/// repository of our own.
fn commit(root: &Path) -> Option<String> {
    let top = PathBuf::from(git(root, &["rev-parse", "--show-toplevel"])?);
    // An archive that was unpacked inside somebody else's repository is not of their commit.
    if top.canonicalize().ok()? != root.canonicalize().ok()? {
        return None;
    }
    // Both change with each commit; in a work tree of its own they lie elsewhere.
    for name in ["HEAD", "logs/HEAD"] {
        let file = root.join(git(root, &["rev-parse", "--git-path", name])?);
        if file.exists() {
            println!("cargo::rerun-if-changed={}", file.display());
        }
    }
    let commit = git(root, &["rev-parse", "HEAD"])?;
    let paths = [
        "status",
        "--porcelain",
        "--",
        "Cargo.lock",
        "Cargo.toml",
        "assets",
        "crates",
    ];
    let is_changed = !git(root, &paths)?.is_empty();
    Some(format!("{commit}{}", if is_changed { "+" } else { "" }))
}

/// What git answers, if it is there and has an answer.
fn git(root: &Path, arguments: &[&str]) -> Option<String> {
    let output = Command::new("git")
        .current_dir(root)
        .args(arguments)
        .output()
        .ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    output.status.success().then(|| text.trim().to_owned())
}
