//! What the README shows runs as it is printed, and `--register` wherever it stands.

use crate::support::place::{Place, demo};
use crate::support::root;

/// The words of a line as a shell splits it: spaces, and double quotes around a word.
fn words(line: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (index, part) in line.split('"').enumerate() {
        if index % 2 == 1 {
            found.push(part.to_owned());
        } else {
            found.extend(part.split_whitespace().map(str::to_owned));
        }
    }
    found
}

#[test]
fn every_command_of_the_readme_runs_as_printed() {
    let place = Place::new();
    let cases = place.path("demo-data/cases");
    std::fs::create_dir_all(&cases).unwrap();
    for entry in std::fs::read_dir(root().join("demo-data/cases")).unwrap() {
        let entry = entry.unwrap();
        std::fs::copy(entry.path(), cases.join(entry.file_name())).unwrap();
    }
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let lines: Vec<_> = readme
        .lines()
        .filter_map(|line| line.strip_prefix("millrace "))
        .collect();
    assert!(5 <= lines.len(), "{lines:?}");
    for line in lines {
        let words = words(line);
        let words: Vec<_> = words.iter().map(String::as_str).collect();
        // On a computer whose account has no name, too.
        let run = place.millrace(None, &words);
        assert_eq!((run.code, &*run.err), (0, ""), "millrace {line}");
    }
    assert!(place.path("sheet-1.pdf").is_file());
}

#[test]
fn the_register_is_named_before_or_after_the_command() {
    let place = Place::new();
    let case = demo("ordinary-eye");
    let case = case.to_str().unwrap();
    for arguments in [
        ["--register", "r.sqlite3", "register", "import", case],
        ["register", "--register", "r.sqlite3", "import", case],
        ["register", "import", case, "--register", "r.sqlite3"],
    ] {
        let run = place.millrace(Some("okafor"), &arguments);
        assert_eq!((run.code, &*run.err), (0, ""), "{arguments:?}");
    }
    let list = [
        "--register",
        "r.sqlite3",
        "register",
        "list",
        "--format",
        "json",
    ];
    let run = place.millrace(None, &list);
    let document: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(
        document["cases"].as_array().unwrap().len(),
        3,
        "{}",
        run.out
    );
    assert!(!place.usual().exists());
}

#[test]
fn a_register_that_would_not_be_read_is_not_named() {
    let place = Place::new();
    let case = demo("ordinary-eye");
    let case = case.to_str().unwrap();
    for arguments in [
        &["plan", case, "--register", "r.sqlite3"][..],
        &["--register", "r.sqlite3", "formulas"],
        &[
            "--register",
            "r.sqlite3",
            "sheet",
            "--draft",
            case,
            "-o",
            "x.pdf",
        ],
    ] {
        let run = place.millrace(None, arguments);
        assert_eq!(run.code, 2, "{arguments:?}");
        assert!(run.err.contains("reads no register"), "{}", run.err);
    }
    for arguments in [&["--demo", "formulas"][..], &["--demo", "--register", "r"]] {
        let run = place.millrace(None, arguments);
        assert_eq!(run.code, 2, "{arguments:?}");
        assert!(run.err.contains("--demo opens"), "{}", run.err);
    }
}

#[test]
fn without_a_name_the_importer_is_asked_for_once() {
    let place = Place::new();
    let case = demo("ordinary-eye");
    let case = case.to_str().unwrap();
    let run = place.millrace(None, &["register", "import", case, case]);
    assert_eq!(run.code, 2);
    assert_eq!(run.err.matches("--who").count(), 1, "{}", run.err);
    assert!(!place.usual().exists());
}
