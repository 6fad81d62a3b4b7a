//! What the program says of itself.

use std::process::Command;

use crate::support::place::Place;
use crate::support::root;

/// The numbers are those of `docs/case-file.md`, `docs/plan-document.md` and the migrations of the register.
#[test]
fn the_version_tells_commit_and_formats() {
    let run = Place::new().millrace(None, &["--version"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    let lines: Vec<_> = run.out.lines().collect();
    let [program, commit, case, plan, register] = &lines[..] else {
        panic!("{lines:?}");
    };
    assert_eq!(*program, format!("millrace {}", env!("CARGO_PKG_VERSION")));
    assert_eq!(*case, "case file: version 3, reads from version 1");
    assert_eq!(*plan, "plan document: version 1");
    assert_eq!(*register, "register: schema 3");

    let expected = if root().join(".git").exists() {
        let mut git = Command::new("git");
        let head = git.current_dir(root()).args(["rev-parse", "HEAD"]).output();
        String::from_utf8(head.unwrap().stdout)
            .unwrap()
            .trim()
            .to_owned()
    } else {
        "unknown, built from an archive of the source".to_owned()
    };
    let told = commit.strip_prefix("commit: ").unwrap();
    let told = told
        .strip_suffix(", and changes that are in no commit")
        .unwrap_or(told);
    assert_eq!(told, expected);
}

#[test]
fn in_short_it_is_one_line_and_every_command_has_it() {
    let short = format!("millrace {}\n", env!("CARGO_PKG_VERSION"));
    let place = Place::new();
    assert_eq!(place.millrace(None, &["-V"]).out, short);
    let plan = place.millrace(None, &["plan", "--version"]).out;
    assert!(plan.contains("\ncommit: "), "{plan}");
}
