//! An index that lost or changed an entry: no answer comes from it, a check and a backup find it, and a
//! repair makes it anew.

use std::fs;
use std::ops::ControlFlow;
use std::path::Path;

use crate::flips::{answers, small};
use crate::support::{by, check, content, signable_aimed_at};
use millrace_core::signing::Fingerprint;
use millrace_register::{CaseId, CheckProblem, Fault, Register, SaveError};
use millrace_wording::{Show as _, Words};
use rusqlite::Connection;

/// Flips the lowest bit of the last byte of a text where it stands in the leaves of a table or index, and
/// tells in how many places.
fn flip_in(path: &Path, object: &str, text: &[u8]) -> usize {
    let pages: Vec<i64> = {
        let connection = Connection::open(path).unwrap();
        let mut statement = connection
            .prepare("SELECT pageno FROM dbstat WHERE name = ?1 AND pagetype = 'leaf'")
            .unwrap();
        let pages = statement.query_map([object], |row| row.get(0)).unwrap();
        pages.collect::<Result<_, _>>().unwrap()
    };
    let mut bytes = fs::read(path).unwrap();
    let mut flipped = 0;
    for page in pages {
        let from = 4_096 * (usize::try_from(page).unwrap() - 1);
        let places: Vec<_> = bytes[from..from + 4_096]
            .windows(text.len())
            .enumerate()
            .filter(|(_, found)| *found == text)
            .map(|(place, _)| from + place + text.len() - 1)
            .collect();
        for place in places {
            bytes[place] ^= 1;
            flipped += 1;
        }
    }
    fs::write(path, bytes).unwrap();
    flipped
}

fn go_on<T>(_: T) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

fn names(directory: &Path) -> Vec<String> {
    let mut names: Vec<_> = fs::read_dir(directory)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

/// Table or index, and a text in it.
fn damages(fingerprints: &[Fingerprint]) -> [(&'static str, Vec<u8>); 9] {
    let first = CaseId::from_bytes([0x11; 16]).to_string().into_bytes();
    let fingerprint = fingerprints[1].bytes();
    [
        ("sqlite_autoindex_revision_1", first.clone()),
        ("current", b"41-0007".to_vec()),
        ("current", b"sluice".to_vec()),
        ("current_by_number", b"41-0007".to_vec()),
        ("current_in_order", b"sluice".to_vec()),
        ("sqlite_autoindex_current_1", first.clone()),
        ("sheet_of_case", first.clone()),
        ("sqlite_autoindex_sheet_1", fingerprint[..8].to_vec()),
        ("sqlite_autoindex_sheet_2", first),
    ]
}

#[test]
fn a_damaged_index_is_found_not_copied_and_made_anew() {
    let directory = tempfile::tempdir().unwrap();
    let sound = directory.path().join("sound.sqlite3");
    let fingerprints = small(&sound);
    let truth = answers(&Register::open(&sound).unwrap(), &fingerprints);
    for (object, text) in damages(&fingerprints) {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("register.sqlite3");
        fs::copy(&sound, &path).unwrap();
        assert_ne!(flip_in(&path, object, &text), 0, "{object}");
        let damaged = fs::read(&path).unwrap();
        let mut register = Register::open_existing(&path).unwrap();

        let found = answers(&register, &fingerprints);
        for ((what, truth), (_, found)) in truth.iter().zip(&found) {
            assert!(found.is_none() || found == truth, "{object}: {what}");
        }
        assert!(found.iter().any(|(_, found)| found.is_none()), "{object}");
        assert_ne!(check(&mut register).problems, [], "{object}");

        let backup = directory.path().join("backup.sqlite3");
        let error = register.backup(&backup, &mut go_on).unwrap_err();
        assert!(
            matches!(error.fault, Fault::BadBackup(_)),
            "{object}: {error}"
        );
        drop(register);
        assert_eq!(names(directory.path()), ["register.sqlite3"]);

        let repaired = directory.path().join("repaired.sqlite3");
        let report = Register::repair(&path, &repaired).unwrap();
        assert_eq!((report.cases, report.revisions, report.sheets), (4, 6, 3));
        assert_eq!(fs::read(&path).unwrap(), damaged, "{object}");
        let mut register = Register::open_existing(&repaired).unwrap();
        assert_eq!(check(&mut register).problems, [], "{object}");
        assert_eq!(answers(&register, &fingerprints), truth, "{object}");
        drop(register);
        assert_eq!(
            names(directory.path()),
            ["register.sqlite3", "repaired.sqlite3"]
        );
    }
}

/// The index says that a revision is the newest which is not: nothing is appended to it.
#[test]
fn nothing_is_saved_on_top_of_a_damaged_index() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    small(&path);
    let first = CaseId::from_bytes([0x11; 16]);
    assert_ne!(
        flip_in(
            &path,
            "sqlite_autoindex_revision_1",
            first.to_string().as_bytes()
        ),
        0
    );
    let mut register = Register::open_existing(&path).unwrap();
    for expected in [None, Some(2), Some(3)] {
        let saved = register.save(first, expected, &signable_aimed_at(-15), by("A. Okafor"));
        let Err(SaveError::Register(error)) = saved else {
            panic!("{expected:?}: {saved:?}");
        };
        assert!(matches!(error.fault, Fault::Damaged(_)), "{error}");
    }
}

/// What was saved or signed cannot be made anew: nothing is written, and what is damaged is named.
#[test]
fn what_was_saved_is_not_repaired() {
    for (trigger, statement, named) in [
        (
            "revision_is_not_changed",
            "UPDATE revision SET saved_by = 'Somebody Else' WHERE sequence = 2",
            "is not what was saved",
        ),
        (
            "revision_is_not_removed",
            "DELETE FROM revision WHERE sequence = 2",
            "save 2 is missing",
        ),
        // The last of all leaves no gap; the list still knows of it.
        (
            "revision_is_not_removed",
            "DELETE FROM revision WHERE sequence = 6",
            "save 6 is missing",
        ),
        (
            "sheet_is_not_changed",
            "UPDATE sheet SET body = replace(body, '22.5', '23.5') WHERE number = 2",
            "sheet 2: it is not what was signed, or not in its place",
        ),
        (
            "sheet_is_not_removed",
            "DELETE FROM sheet WHERE number = 1",
            "sheet 1 is missing",
        ),
    ] {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("register.sqlite3");
        small(&path);
        let connection = Connection::open(&path).unwrap();
        connection
            .execute_batch(&format!(
                "PRAGMA foreign_keys = OFF; DROP TRIGGER {trigger}; {statement};"
            ))
            .unwrap();
        drop(connection);
        let repaired = directory.path().join("repaired.sqlite3");
        let error = Register::repair(&path, &repaired).unwrap_err();
        assert!(matches!(error.fault, Fault::BeyondRepair(_)), "{error}");
        let told = error.show(Words::ENGLISH);
        assert!(told.contains(named), "{statement}: {told}");
        assert_eq!(names(directory.path()), ["register.sqlite3"]);
    }
}

/// Columns of a sheet that follow from its text are made anew as well.
#[test]
fn what_follows_from_a_sheet_is_made_anew() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    let fingerprints = small(&path);
    let truth = answers(&Register::open(&path).unwrap(), &fingerprints);
    let connection = Connection::open(&path).unwrap();
    connection
        .execute_batch(
            "DROP TRIGGER sheet_is_not_changed;
             UPDATE sheet SET fingerprint = randomblob(32), signed_by = 'x', supersedes = NULL",
        )
        .unwrap();
    drop(connection);
    let mut register = Register::open(&path).unwrap();
    let problems = check(&mut register).problems;
    let is_sheet = |problem: &CheckProblem| matches!(problem, CheckProblem::Sheet { .. });
    assert!(problems.iter().any(is_sheet), "{problems:?}");
    drop(register);
    let repaired = directory.path().join("repaired.sqlite3");
    Register::repair(&path, &repaired).unwrap();
    let register = Register::open(&repaired).unwrap();
    assert_eq!(answers(&register, &fingerprints), truth);
    // Nothing is overwritten.
    let error = Register::repair(&path, &repaired).unwrap_err();
    assert!(matches!(error.fault, Fault::Exists), "{error}");
}

/// A register of an older schema is not brought up while it is damaged, and a repair reads it as it is.
#[test]
fn a_damaged_register_of_an_older_schema_is_repaired_into_the_newest() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    let fixture = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/schema-1.sqlite3");
    fs::copy(&fixture, &path).unwrap();
    let first = CaseId::from_bytes([1; 16]).to_string();
    assert_ne!(
        flip_in(&path, "sqlite_autoindex_current_1", first.as_bytes()),
        0
    );
    let damaged = fs::read(&path).unwrap();
    let error = Register::open(&path).unwrap_err();
    assert!(matches!(error.fault, Fault::BadBackup(_)), "{error}");
    assert_eq!(fs::read(&path).unwrap(), damaged);
    assert_eq!(names(directory.path()), ["register.sqlite3"]);

    let repaired = directory.path().join("repaired.sqlite3");
    Register::repair(&path, &repaired).unwrap();
    assert_eq!(fs::read(&path).unwrap(), damaged);
    let whole = directory.path().join("whole.sqlite3");
    fs::copy(&fixture, &whole).unwrap();
    let [mut repaired, whole] = [repaired, whole].map(|path| Register::open(&path).unwrap());
    assert_eq!(check(&mut repaired).problems, []);
    assert_eq!(content(&repaired).unwrap(), content(&whole).unwrap());
}
