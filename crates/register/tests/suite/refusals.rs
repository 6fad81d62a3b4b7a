//! Files and places that cannot be a register's: each has its message, and nothing is touched.

use millrace_wording::{Show as _, Words};
use std::fs;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::time::Duration;

use crate::support::{aimed_at, check, content, filled, stamp};
use millrace_register::{CaseId, Fault, Register, RegisterError, SaveError};
use rusqlite::Connection;

fn refused(path: &Path) -> RegisterError {
    Register::open(path).unwrap_err()
}

fn message(path: &Path, words: &str) -> String {
    format!("{words}: {}", path.display())
}

#[test]
fn what_is_no_register_is_refused_and_left_as_it_is() {
    let directory = tempfile::tempdir().unwrap();
    let other = directory.path().join("other.sqlite3");
    let connection = Connection::open(&other).unwrap();
    connection
        .execute_batch("CREATE TABLE revision (x); INSERT INTO revision VALUES (1)")
        .unwrap();
    drop(connection);
    let text = directory.path().join("text");
    fs::write(&text, "Patient;Eye;Power\n".repeat(100)).unwrap();
    let short = directory.path().join("short");
    fs::write(&short, "x").unwrap();
    let noise = directory.path().join("noise");
    let bytes: Vec<u8> = (0..10_000_u32).map(|n| (n * 7_919 % 251) as u8).collect();
    fs::write(&noise, bytes).unwrap();
    for path in [other, text, short, noise] {
        let before = fs::read(&path).unwrap();
        let error = refused(&path);
        assert_eq!(
            error.show(Words::ENGLISH),
            message(
                &path,
                "this file is not a register of Millrace, and was left as it is; choose another place"
            )
        );
        assert_eq!(fs::read(&path).unwrap(), before);
        for ending in ["-wal", "-shm", "-journal"] {
            let beside = PathBuf::from(format!("{}{ending}", path.display()));
            assert!(!beside.exists(), "{}", beside.display());
        }
    }
    let empty = directory.path().join("empty");
    fs::write(&empty, "").unwrap();
    assert_eq!(
        refused(&empty).show(Words::ENGLISH),
        message(
            &empty,
            "the file is empty, so it is not a register; if it was one, restore the latest backup, \
             otherwise remove the file"
        )
    );
    assert_eq!(fs::read(&empty).unwrap(), b"");
    assert_eq!(
        refused(directory.path()).show(Words::ENGLISH),
        message(
            directory.path(),
            "this is not a file; name a file for the register"
        )
    );
}

#[test]
fn a_register_that_must_be_there_is_not_made() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("no/register.sqlite3");
    let error = Register::open_existing(&path).unwrap_err();
    assert_eq!(
        error.show(Words::ENGLISH),
        message(
            &path,
            "there is no register here; import a case to start one, or name the place of yours"
        )
    );
    assert!(!directory.path().join("no").exists());
}

#[test]
fn a_newer_register_is_refused_and_left_as_it_is() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let connection = Connection::open(&path).unwrap();
    connection.pragma_update(None, "user_version", 7).unwrap();
    connection
        .execute_batch("ALTER TABLE revision RENAME TO change")
        .unwrap();
    drop(connection);
    let before = fs::read(&path).unwrap();
    assert_eq!(
        refused(&path).show(Words::ENGLISH),
        message(
            &path,
            "the register has schema 7 and this program knows 3; it was left as it is; \
             use the newer program"
        )
    );
    assert_eq!(fs::read(&path).unwrap(), before);
    assert_eq!(fs::read_dir(directory.path()).unwrap().count(), 1);
}

#[test]
fn a_journal_without_its_register_is_not_swallowed() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let mut register = Register::open(&path).unwrap();
    register.import([&aimed_at(0)], stamp()).unwrap();
    // The register is moved away while its last change stands in the journal.
    let wal = PathBuf::from(format!("{}-wal", path.display()));
    let journal = fs::read(&wal).unwrap();
    assert!(!journal.is_empty());
    drop(register);
    fs::remove_file(&path).unwrap();
    fs::write(&wal, &journal).unwrap();
    let error = refused(&path);
    assert!(matches!(error.fault, Fault::LeftOver), "{error}");
    assert_eq!(fs::read(&wal).unwrap(), journal);
    assert!(!path.exists());
}

/// Bites for root too: no right helps where there is no directory.
#[test]
fn a_place_that_cannot_be_is_named() {
    let directory = tempfile::tempdir().unwrap();
    let file = directory.path().join("file");
    fs::write(&file, "x").unwrap();
    for path in [
        file.join("register.sqlite3"),
        file.join("a/b/register.sqlite3"),
    ] {
        let error = refused(&path);
        let text = error.show(Words::ENGLISH).into_owned();
        assert!(matches!(error.fault, Fault::Directory(_)), "{text}");
        assert!(text.starts_with("its directory cannot be made ("), "{text}");
        assert!(
            text.contains("choose another place for the register"),
            "{text}"
        );
    }
    assert_eq!(fs::read(&file).unwrap(), b"x");
}

#[test]
fn a_locked_register_says_so_and_loses_nothing() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let mut register = Register::open(&path).unwrap();
    register.set_patience(Duration::from_millis(50)).unwrap();
    let before = content(&register).unwrap();
    let locked = message(
        &path,
        "another program holds the register; nothing was saved; try again, and close the other \
         program if it stays so",
    );
    let other = Connection::open(&path).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    let error = register.import([&aimed_at(0)], stamp()).unwrap_err();
    assert_eq!(error.show(Words::ENGLISH), locked);
    let case = CaseId::random().unwrap();
    let error = register
        .save(case, None, &aimed_at(0), stamp())
        .unwrap_err();
    assert!(matches!(
        error,
        SaveError::Register(RegisterError {
            fault: Fault::Locked,
            ..
        })
    ));
    // Reading goes on.
    assert_eq!(content(&register).unwrap(), before);
    other.execute_batch("COMMIT").unwrap();
    register.import([&aimed_at(0)], stamp()).unwrap();
    drop(register);
    drop(other);

    // A program that lets nobody in at all.
    let other = Connection::open(&path).unwrap();
    other
        .execute_batch("PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE; COMMIT;")
        .unwrap();
    assert_eq!(refused(&path).show(Words::ENGLISH), locked);
    drop(other);
    let mut register = Register::open(&path).unwrap();
    assert_eq!(check(&mut register).problems, []);
}

#[test]
fn a_backup_is_the_register_and_overwrites_nothing() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let register = Register::open(&path).unwrap();
    let mut other = Register::open(&path).unwrap();
    other.set_patience(Duration::from_millis(50)).unwrap();
    let before = content(&register).unwrap();
    let backup = directory.path().join("backup.sqlite3");
    let mut reports = Vec::new();
    register
        .backup(&backup, &mut |pages| {
            // Another program saves meanwhile, and is not in the copy.
            other.import([&aimed_at(0)], stamp()).unwrap();
            reports.push(pages);
            ControlFlow::Continue(())
        })
        .unwrap();
    let last = reports.last().unwrap();
    assert!(0 < last.total && last.done == last.total, "{last:?}");
    let mut copy = Register::open_existing(&backup).unwrap();
    assert_eq!(content(&copy).unwrap(), before);
    assert_eq!(check(&mut copy).problems, []);
    drop(copy);

    let bytes = fs::read(&backup).unwrap();
    let go_on = &mut |_| ControlFlow::Continue(());
    for taken in [&backup, &path, &directory.path().to_owned()] {
        let error = register.backup(taken, go_on).unwrap_err();
        let words = "this file exists and is not overwritten; name a new file for the backup";
        assert_eq!(error.show(Words::ENGLISH), message(taken, words));
    }
    assert_eq!(fs::read(&backup).unwrap(), bytes);
    let nowhere = directory.path().join("no/backup.sqlite3");
    assert!(matches!(
        register.backup(&nowhere, go_on).unwrap_err().fault,
        Fault::File(_)
    ));
    // Stopped: nothing stays.
    let stopped = directory.path().join("stopped.sqlite3");
    let error = register
        .backup(&stopped, &mut |_| ControlFlow::Break(()))
        .unwrap_err();
    assert!(matches!(error.fault, Fault::Stopped), "{error}");
    drop((register.count().unwrap(), register, other));
    let mut names: Vec<_> = fs::read_dir(directory.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    assert_eq!(names, ["backup.sqlite3", "register.sqlite3"]);
}
