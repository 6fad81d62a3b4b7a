//! Which program this is: version, commit, and the formats it reads and writes.

use millrace_core::{case_file, document};
use millrace_register::NEWEST_SCHEMA;
use millrace_wording::{Words, command_line as say};

/// What the build script found: a commit, one with a plus when the source was changed since, or nothing.
const COMMIT: &str = env!("MILLRACE_COMMIT");

/// What `--version` says; `-V` says its first line.
pub(crate) fn in_full(words: Words) -> String {
    let program = env!("CARGO_PKG_VERSION");
    let written = case_file::NEWEST.to_string();
    let oldest = case_file::OLDEST.to_string();
    let plan = document::VERSION.to_string();
    let schema = NEWEST_SCHEMA.to_string();
    say::version(
        words,
        program,
        commit(words, COMMIT),
        written,
        oldest,
        plan,
        schema,
    )
}

fn commit(words: Words, found: &str) -> String {
    match found.strip_suffix('+') {
        Some(commit) => say::commit_changed(words, commit),
        None if found.is_empty() => say::commit_unknown(words).to_owned(),
        None => found.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_commit_is_told_or_that_none_is_known() {
        for (found, told) in [
            ("1eb6b01", "1eb6b01"),
            ("1eb6b01+", "1eb6b01, and changes that are in no commit"),
            ("", "unknown, built from an archive of the source"),
        ] {
            assert_eq!(commit(Words::ENGLISH, found), told);
        }
    }
}
