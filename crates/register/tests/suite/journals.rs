//! A journal of another register, or of another time, beside a register: never read into it.

use std::fs;
use std::path::{Path, PathBuf};

use crate::support::{aimed_at, check, content, filled, patient, stamp};
use millrace_core::case::Draft;
use millrace_register::{CaseId, Cases, Fault, Register, Window};
use millrace_wording::{Show as _, Words};
use rusqlite::Connection;

fn beside(path: &Path, ending: &str) -> PathBuf {
    PathBuf::from(format!("{}{ending}", path.display()))
}

/// What a program that is killed leaves: the file and its journal, copied while it is open.
struct CutOff {
    file: Vec<u8>,
    journal: Vec<u8>,
}

impl CutOff {
    fn of(path: &Path) -> Self {
        let journal = fs::read(beside(path, "-wal")).unwrap();
        assert!(!journal.is_empty());
        let file = fs::read(path).unwrap();
        Self { file, journal }
    }

    /// With the drafts saved last, so that they stand in the journal alone.
    fn after(path: &Path, drafts: &[Draft]) -> Self {
        let mut register = Register::open(path).unwrap();
        register.import(drafts, stamp()).unwrap();
        Self::of(path)
    }
}

fn put(path: &Path, file: &[u8], journal: &[u8]) {
    fs::write(path, file).unwrap();
    fs::write(beside(path, "-wal"), journal).unwrap();
}

fn refused_and_left(path: &Path) {
    let before = [path, &beside(path, "-wal")].map(|file| fs::read(file).unwrap());
    let error = Register::open(path).unwrap_err();
    assert!(
        matches!(error.fault, Fault::ForeignJournal { .. }),
        "{error}"
    );
    let told = error.show(Words::ENGLISH);
    assert!(told.contains("register.sqlite3-wal"), "{told}");
    let after = [path, &beside(path, "-wal")].map(|file| fs::read(file).unwrap());
    assert!(before == after, "nothing is changed");
    // With the journal put away, it is the register that was restored.
    fs::rename(beside(path, "-wal"), beside(path, "-put-away")).unwrap();
    let mut register = Register::open(path).unwrap();
    assert_eq!(check(&mut register).problems, []);
}

#[test]
fn the_journal_of_a_killed_program_is_read() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let before = Register::open(&path).unwrap().count().unwrap();
    let cut_off = CutOff::after(&path, &[aimed_at(0), aimed_at(-25)]);
    let elsewhere = tempfile::tempdir().unwrap();
    let path = elsewhere.path().join("register.sqlite3");
    put(&path, &cut_off.file, &cut_off.journal);
    let mut register = Register::open(&path).unwrap();
    assert_eq!(register.count().unwrap(), before + 2);
    assert_eq!(check(&mut register).problems, []);
}

#[test]
fn the_journal_of_another_register_is_refused() {
    let [mine, other] = [(); 2].map(|()| tempfile::tempdir().unwrap());
    let path = filled(mine.path());
    let sound = fs::read(&path).unwrap();
    // The other is young: all of it still stands in its journal.
    let other = other.path().join("register.sqlite3");
    let foreign = CutOff::after(&other, &[aimed_at(0)]);
    put(&path, &sound, &foreign.journal);
    refused_and_left(&path);
}

#[test]
fn the_journal_of_an_earlier_or_later_time_is_refused() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let early = fs::read(&path).unwrap();
    let drafts: Vec<_> = (0..40)
        .map(|index| {
            patient(
                Some("Weir, Anna"),
                &format!("HN {index}"),
                Some("2026-12-03"),
            )
        })
        .collect();
    let cut_off = CutOff::after(&path, &drafts);
    let late = {
        let mut register = Register::open(&path).unwrap();
        register.import(&drafts, stamp()).unwrap();
        drop(register);
        fs::read(&path).unwrap()
    };
    let journal_of_last = CutOff::after(&path, &[aimed_at(0)]).journal;
    // An earlier journal over a later register, and a later one over an earlier register.
    for (file, journal) in [(&late, &cut_off.journal), (&early, &journal_of_last)] {
        let elsewhere = tempfile::tempdir().unwrap();
        let path = elsewhere.path().join("register.sqlite3");
        put(&path, file, journal);
        refused_and_left(&path);
    }
}

/// This program leaves none, so whatever it holds is not of this register.
#[test]
fn a_journal_of_the_other_kind_is_refused() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let journal = beside(&path, "-journal");
    fs::write(&journal, [0xd9; 4_096]).unwrap();
    let before = fs::read(&path).unwrap();
    let error = Register::open(&path).unwrap_err();
    assert!(
        matches!(error.fault, Fault::ForeignJournal { .. }),
        "{error}"
    );
    assert!(
        error
            .show(Words::ENGLISH)
            .contains("register.sqlite3-journal")
    );
    assert_eq!(fs::read(&path).unwrap(), before);
    assert_eq!(fs::read(&journal).unwrap(), [0xd9; 4_096]);
}

/// Of a change that was cut off in a copy of a register: whoever opens the database writes it back.
fn hot_journal() -> Vec<u8> {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let connection = Connection::open(&path).unwrap();
    connection
        .execute_batch(
            "PRAGMA journal_mode = DELETE; PRAGMA synchronous = OFF; PRAGMA cache_size = 1;
             DROP TRIGGER revision_is_not_changed; BEGIN; UPDATE revision SET saved_by = 'x';",
        )
        .unwrap();
    fs::read(beside(&path, "-journal")).unwrap()
}

#[test]
fn no_command_writes_a_foreign_journal_back() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let sound = fs::read(&path).unwrap();
    let backup = directory.path().join("backup.sqlite3");
    let go_on = &mut |_| std::ops::ControlFlow::Continue(());
    Register::open(&path)
        .unwrap()
        .backup(&backup, go_on)
        .unwrap();
    let journal = hot_journal();
    let put = || {
        fs::write(&path, &sound).unwrap();
        fs::write(beside(&path, "-journal"), &journal).unwrap();
    };
    // The database alone does write it back.
    put();
    let connection = Connection::open(&path).unwrap();
    let _ = connection.query_row("SELECT count(*) FROM revision", [], |_| Ok(()));
    drop(connection);
    assert!(fs::read(&path).unwrap() != sound);

    put();
    let new = directory.path().join("new.sqlite3");
    let refused = [
        Register::open(&path).map(|_| ()),
        Register::repair(&path, &new).map(|_| ()),
        Register::restore(&path, &new).map(|_| ()),
    ];
    for refused in refused {
        let error = refused.unwrap_err();
        assert!(
            matches!(error.fault, Fault::ForeignJournal { .. }),
            "{error}"
        );
        assert!(fs::read(&path).unwrap() == sound);
        assert!(fs::read(beside(&path, "-journal")).unwrap() == journal);
    }
    let moved = Register::restore(&backup, &path).unwrap();
    assert_eq!(moved.len(), 2);
    assert!(fs::read(&moved[0]).unwrap() == sound);
    assert!(fs::read(&moved[1]).unwrap() == journal);
}

/// A journal in use is not looked through each time: the other program would be kept waiting.
#[test]
fn a_second_program_opens_beside_the_first() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let mut first = Register::open(&path).unwrap();
    first.import([&aimed_at(0)], stamp()).unwrap();
    assert_ne!(fs::metadata(beside(&path, "-wal")).unwrap().len(), 0);
    let mut second = Register::open(&path).unwrap();
    second.import([&aimed_at(-25)], stamp()).unwrap();
    first.import([&aimed_at(-50)], stamp()).unwrap();
    assert_eq!(content(&first).unwrap(), content(&second).unwrap());
}

#[test]
fn no_copy_is_written_beside_an_old_journal() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let register = Register::open(&path).unwrap();
    let backup = directory.path().join("backup.sqlite3");
    for ending in ["-wal", "-journal"] {
        let old = beside(&backup, ending);
        fs::write(&old, [1; 4_096]).unwrap();
        let go_on = &mut |_| std::ops::ControlFlow::Continue(());
        let error = register.backup(&backup, go_on).unwrap_err();
        assert!(matches!(error.fault, Fault::LeftOver), "{error}");
        assert!(!backup.exists());
        fs::remove_file(old).unwrap();
    }
}

#[test]
fn a_restore_moves_what_was_there_away_and_says_so() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let backup = directory.path().join("backup.sqlite3");
    let go_on = &mut |_| std::ops::ControlFlow::Continue(());
    Register::open(&path)
        .unwrap()
        .backup(&backup, go_on)
        .unwrap();
    let backed_up = fs::read(&backup).unwrap();
    let expected = content(&Register::open(&backup).unwrap()).unwrap();
    let cut_off = CutOff::after(&path, &[aimed_at(0)]);
    for restored in 1..3 {
        put(&path, &cut_off.file, &cut_off.journal);
        fs::write(beside(&path, "-journal"), "x").unwrap();
        let moved = Register::restore(&backup, &path).unwrap();
        let away = |ending: &str| beside(&path, &format!(".replaced-{restored}{ending}"));
        assert_eq!(moved, ["", "-wal", "-journal"].map(away));
        assert_eq!(fs::read(away("")).unwrap(), cut_off.file);
        assert_eq!(fs::read(away("-wal")).unwrap(), cut_off.journal);
        let register = Register::open_existing(&path).unwrap();
        assert_eq!(content(&register).unwrap(), expected);
        assert_eq!(fs::read(&backup).unwrap(), backed_up);
    }
    // What was moved away is a register still, with its last save.
    fs::remove_file(beside(&path, ".replaced-1-journal")).unwrap();
    let old = Register::open_existing(&beside(&path, ".replaced-1")).unwrap();
    let cases = old.list(Cases::InUse, Window::ALL).unwrap().len();
    assert_eq!(
        cases,
        Register::open(&path)
            .unwrap()
            .list(Cases::InUse, Window::ALL)
            .unwrap()
            .len()
            + 1
    );
}

#[test]
fn nothing_is_restored_from_what_is_not_sound_or_while_it_is_used() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let before = content(&Register::open(&path).unwrap()).unwrap();
    let backup = directory.path().join("backup.sqlite3");
    let mut bytes = fs::read(&path).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle..middle + 4_096].fill(0);
    fs::write(&backup, &bytes).unwrap();
    let error = Register::restore(&backup, &path).unwrap_err();
    assert!(
        matches!(error.fault, Fault::BadBackup(_) | Fault::Damaged(_)),
        "{error}"
    );
    let error = Register::restore(&path, &path).unwrap_err();
    assert!(matches!(error.fault, Fault::Exists), "{error}");
    let absent = directory.path().join("absent.sqlite3");
    let error = Register::restore(&absent, &path).unwrap_err();
    assert!(matches!(error.fault, Fault::Absent), "{error}");

    fs::remove_file(&backup).unwrap();
    let mut register = Register::open(&path).unwrap();
    let go_on = &mut |_| std::ops::ControlFlow::Continue(());
    register.backup(&backup, go_on).unwrap();
    let error = Register::restore(&backup, &path).unwrap_err();
    assert!(matches!(error.fault, Fault::Locked), "{error}");
    let case = CaseId::random().unwrap();
    register.save(case, None, &aimed_at(0), stamp()).unwrap();
    drop(register);
    let after = content(&Register::open(&path).unwrap()).unwrap();
    assert!(before.iter().all(|line| after.contains(line)));
}
