//! The register is deleted, moved or replaced while a program has it open: nothing is acknowledged that is
//! not in the register at its place.

use std::fs;
use std::path::{Path, PathBuf};

use crate::support::{aimed_at, check, content, filled, signable, signing, stamp};
use millrace_register::{CaseId, Fault, Register, RegisterError, SaveError, SignError};
use millrace_wording::{Show as _, Words};

fn beside(path: &Path, ending: &str) -> PathBuf {
    PathBuf::from(format!("{}{ending}", path.display()))
}

/// A register that is open, with a case that may be signed, and what every way of writing is told.
fn open(directory: &Path) -> (PathBuf, Register, CaseId) {
    let path = filled(directory);
    let mut register = Register::open(&path).unwrap();
    let case = CaseId::from_bytes([9; 16]);
    register.save(case, None, &signable(), stamp()).unwrap();
    (path, register, case)
}

fn told(register: &mut Register, case: CaseId) -> [RegisterError; 3] {
    let imported = register.import([&aimed_at(0)], stamp()).unwrap_err();
    let saved = match register.save(case, Some(1), &aimed_at(0), stamp()) {
        Err(SaveError::Register(error)) => error,
        other => panic!("{other:?}"),
    };
    let signed = match register.sign(case, 1, signing(-30)) {
        Err(SignError::Register(error)) => error,
        other => panic!("{other:?}"),
    };
    [imported, saved, signed]
}

fn all_gone(register: &mut Register, case: CaseId) {
    for error in told(register, case) {
        assert!(matches!(error.fault, Fault::Gone), "{error}");
        let text = error.show(Words::ENGLISH);
        assert!(
            text.starts_with("the register was deleted or moved"),
            "{text}"
        );
    }
}

fn all_replaced(register: &mut Register, case: CaseId) {
    for error in told(register, case) {
        assert!(matches!(error.fault, Fault::Replaced), "{error}");
        let text = error.show(Words::ENGLISH);
        assert!(
            text.starts_with("another file was put in the place"),
            "{text}"
        );
    }
}

#[test]
fn nothing_is_saved_into_a_register_that_was_deleted() {
    let directory = tempfile::tempdir().unwrap();
    let (path, mut register, case) = open(directory.path());
    fs::remove_file(&path).unwrap();
    all_gone(&mut register, case);
    assert!(!path.exists());
}

#[test]
fn a_register_that_was_moved_is_saved_to_again_when_it_is_back() {
    let directory = tempfile::tempdir().unwrap();
    let (path, mut register, case) = open(directory.path());
    let away = directory.path().join("away.sqlite3");
    fs::rename(&path, &away).unwrap();
    all_gone(&mut register, case);
    fs::rename(&away, &path).unwrap();
    register.save(case, Some(1), &aimed_at(0), stamp()).unwrap();
    drop(register);
    let mut register = Register::open(&path).unwrap();
    assert_eq!(register.load(case).unwrap().draft, aimed_at(0));
    assert_eq!(check(&mut register).problems, []);
}

#[test]
fn nothing_is_saved_when_another_register_was_put_in_its_place() {
    let [directory, other] = [(); 2].map(|()| tempfile::tempdir().unwrap());
    let (path, mut register, case) = open(directory.path());
    let other = filled(other.path());
    let bytes = fs::read(&other).unwrap();
    fs::copy(&other, beside(&path, "-new")).unwrap();
    fs::rename(beside(&path, "-new"), &path).unwrap();
    all_replaced(&mut register, case);
    assert_eq!(fs::read(&path).unwrap(), bytes);
}

/// Written over by another register, as a copy does: the file is the same, what is in it is not.
#[test]
fn nothing_is_saved_when_the_file_was_written_over() {
    let [directory, other] = [(); 2].map(|()| tempfile::tempdir().unwrap());
    let (path, mut register, case) = open(directory.path());
    let other = filled(other.path());
    fs::write(&path, fs::read(&other).unwrap()).unwrap();
    all_replaced(&mut register, case);
}

/// What is saved stands in the journal first: one that is deleted takes it along.
#[test]
fn nothing_is_saved_without_its_journal() {
    let directory = tempfile::tempdir().unwrap();
    let (path, mut register, case) = open(directory.path());
    fs::remove_file(beside(&path, "-wal")).unwrap();
    all_gone(&mut register, case);
    fs::write(beside(&path, "-wal"), "").unwrap();
    all_replaced(&mut register, case);
}

#[test]
fn a_restore_by_another_program_is_noticed() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    let mut first = Register::open(&path).unwrap();
    first.import([&aimed_at(0)], stamp()).unwrap();
    let backup = directory.path().join("backup.sqlite3");
    let go_on = &mut |_| std::ops::ControlFlow::Continue(());
    first.backup(&backup, go_on).unwrap();
    let case = CaseId::from_bytes([9; 16]);
    first.save(case, None, &signable(), stamp()).unwrap();
    // By hand, while it is open: the files are moved away, and the backup is put there.
    for ending in ["", "-wal", "-shm"] {
        let file = beside(&path, ending);
        fs::rename(&file, beside(&path, &format!(".old{ending}"))).unwrap();
    }
    fs::copy(&backup, &path).unwrap();
    let before = content(&Register::open(&path).unwrap()).unwrap();
    all_replaced(&mut first, case);
    assert_eq!(content(&Register::open(&path).unwrap()).unwrap(), before);
}
