//! Where results may go, who may read them, and what is told when nobody can be told.

use std::fs;
use std::path::Path;

use crate::support::place::{Place, demo};

/// Whatever is written with `--force`, no register, backup or companion of one is lost to it.
#[test]
fn no_output_takes_the_place_of_a_register() {
    let place = Place::new();
    place.import(&["hard-and-shallow"]);
    assert_eq!(place.run(&["backup", "monday.pdf"]).code, 0);
    fs::write(place.path("eyes.csv"), "eye_id\n").unwrap();
    let case = demo("hard-and-shallow");
    let case = case.to_str().unwrap();
    let register = place.usual();
    let register = register.to_str().unwrap();
    let targets = [
        register.to_owned(),
        format!("{register}-wal"),
        format!("{register}-shm"),
        format!("{register}-journal"),
        place.path("monday.pdf").display().to_string(),
    ];
    for target in &targets {
        let before = fs::read(target).ok();
        let commands: [&[&str]; 4] = [
            &["register", "export", "40-2291", "--force", "-o", target],
            &["sheet", "--draft", case, "--force", "-o", target],
            &["sheet", "--arrangement-to-adapt", "--force", "-o", target],
            &["tabulate", "eyes.csv", "-o", target],
        ];
        for command in commands {
            let run = place.millrace(Some("okafor"), command);
            assert_eq!(run.code, 2, "{command:?} {}", run.err);
            assert!(run.err.contains("would be lost"), "{command:?} {}", run.err);
            assert!(run.err.contains(target.as_str()), "{}", run.err);
        }
        assert_eq!(fs::read(target).ok(), before, "{target}");
    }
    assert_eq!(place.run(&["check"]).code, 0);
}

#[test]
fn what_a_sheet_is_made_of_is_not_written_over() {
    let place = Place::new();
    fs::copy(demo("hard-and-shallow"), place.path("case.ron")).unwrap();
    let run = place.millrace(None, &["sheet", "--arrangement-to-adapt", "-o", "own.typ"]);
    assert_eq!(run.code, 0, "{}", run.err);
    for target in ["case.ron", "own.typ"] {
        let before = fs::read(place.path(target)).unwrap();
        let draft = ["sheet", "--draft", "case.ron", "--arrangement", "own.typ"];
        let run = place.millrace(None, &[&draft[..], &["--force", "-o", target]].concat());
        assert_eq!(run.code, 2, "{target} {}", run.err);
        assert!(run.err.contains("overwrite the input"), "{}", run.err);
        assert_eq!(fs::read(place.path(target)).unwrap(), before);
    }
}

#[cfg(unix)]
#[test]
fn what_is_written_is_its_owners_alone_or_keeps_the_rights_it_had() {
    use std::os::unix::fs::PermissionsExt as _;

    let place = Place::new();
    place.import(&["hard-and-shallow"]);
    let case = demo("hard-and-shallow");
    let case = case.to_str().unwrap();
    let mode = |path: &Path| path.metadata().unwrap().permissions().mode() & 0o777;
    let pdf = place.path("draft.pdf");
    let write = ["sheet", "--draft", case, "-o", "draft.pdf"];
    assert_eq!(place.millrace(None, &write).code, 0);
    assert_eq!(mode(&pdf), 0o600);
    fs::set_permissions(&pdf, fs::Permissions::from_mode(0o640)).unwrap();
    assert_eq!(
        place
            .millrace(None, &[&write[..], &["--force"]].concat())
            .code,
        0
    );
    assert_eq!(mode(&pdf), 0o640);
    assert_eq!(place.run(&["export", "40-2291", "-o", "case.ron"]).code, 0);
    assert_eq!(mode(&place.path("case.ron")), 0o600);
}

/// `/dev/full` takes nothing.
#[cfg(target_os = "linux")]
#[test]
fn what_is_saved_and_cannot_be_shown_is_told_as_saved() {
    let place = Place::new();
    let case = demo("hard-and-shallow");
    let import = ["register", "import", case.to_str().unwrap()];
    let run = place.with_no_room(&import);
    assert_eq!(run.code, 3, "{}", run.err);
    assert!(run.err.contains("it is done and kept"), "{}", run.err);
    let sign = [
        "register",
        "sign",
        "40-2291",
        "--as",
        "A. Okafor",
        "--role",
        "surgeon",
        "--target",
        "-0.30",
    ];
    let run = place.with_no_room(&sign);
    assert_eq!(run.code, 3, "{}", run.err);
    let run = place.with_no_room(&["register", "backup", "copy.sqlite3"]);
    assert_eq!(run.code, 3, "{}", run.err);
    assert!(place.path("copy.sqlite3").is_file());
    // What only shows something did nothing that would be lost.
    let run = place.with_no_room(&["register", "list"]);
    assert_eq!(run.code, 2, "{}", run.err);
    let listed = place.json(&["list", "--format", "json"]);
    assert_eq!(listed["cases"][0]["sheet"], 1, "{listed}");
}

#[test]
fn what_a_terminal_would_obey_does_not_reach_it() {
    let place = Place::new();
    for name in [
        "a\u{1b}[2Jb.ron",
        "a\u{9b}2Jb.ron",
        "a\u{202e}nor.b",
        "a\rb.ron",
    ] {
        let run = place.millrace(None, &["plan", name]);
        assert_eq!(run.code, 2);
        let obeyed = |c: char| c.is_control() && c != '\n' || c == '\u{202e}';
        assert!(!run.err.contains(obeyed), "{:?}", run.err);
        assert!(run.err.contains("a\\u"), "{:?}", run.err);
    }
}

#[test]
fn a_cell_that_a_table_would_compute_is_text() {
    let place = Place::new();
    let rows = "eye_id,axial_length_mm,k1_mm,k2_mm\n=1+1,,,\n+1,,,\n-1,,,\n@SUM(A1),,,\nE-1,,,\n\u{1b}[2J,,,\n";
    fs::write(place.path("eyes.csv"), rows).unwrap();
    let run = place.millrace(None, &["tabulate", "eyes.csv"]);
    let ids: Vec<_> = run
        .out
        .lines()
        .skip(1)
        .step_by(5)
        .map(|line| line.split(',').next().unwrap())
        .collect();
    assert_eq!(
        ids,
        ["'=1+1", "'+1", "'-1", "'@SUM(A1)", "E-1", "\\u001b[2J"]
    );
}

/// Neither a file nor a device is read without end.
#[cfg(unix)]
#[test]
fn a_file_larger_than_any_case_is_refused() {
    let place = Place::new();
    let large = fs::File::create(place.path("large.ron")).unwrap();
    large.set_len(8 * 1024 * 1024 + 1).unwrap();
    for file in ["large.ron", "/dev/zero"] {
        for command in [&["plan"][..], &["register", "import"]] {
            let run = place.millrace(Some("okafor"), &[command, &[file]].concat());
            assert_eq!(run.code, 2, "{file} {}", run.err);
            assert!(run.err.contains("more than 8388608 bytes"), "{}", run.err);
        }
    }
    let full = fs::File::create(place.path("full.ron")).unwrap();
    full.set_len(8 * 1024 * 1024).unwrap();
    let run = place.millrace(None, &["plan", "full.ron"]);
    assert!(!run.err.contains("more than"), "{}", run.err);
}
