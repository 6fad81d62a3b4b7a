//! What is saved stays, in the order it was saved, whoever saves beside.

use millrace_wording::{Show as _, Words};
use std::path::Path;

use crate::support::{aimed_at, by, check, demos, stamp};
use chrono::{DateTime, Utc};
use millrace_register::{CaseId, Fault, Register, SaveError, Sequence, Stamp};
use rusqlite::Connection;

fn new(directory: &tempfile::TempDir) -> Register {
    Register::open(&directory.path().join("register.sqlite3")).unwrap()
}

#[test]
fn every_save_is_a_revision_that_reads_back() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = new(&directory);
    let case = CaseId::random().unwrap();
    let mut expected = None;
    for number in 1..=5_u32 {
        let draft = aimed_at(-10 * i32::try_from(number).unwrap());
        let entry = register.save(case, expected, &draft, stamp()).unwrap();
        assert_eq!((entry.case, entry.number), (case, number));
        assert_eq!(register.load(case).unwrap().draft, draft);
        expected = Some(number);
    }
    let history = register.history(case).unwrap();
    assert_eq!(history.len(), 5);
    for (entry, number) in history.iter().zip(1..) {
        let revision = register.load_revision(case, number).unwrap();
        assert_eq!(&revision.entry, entry);
        assert_eq!(entry.saved_by, "A. Okafor");
        assert_eq!(entry.program, "millrace test");
        assert_eq!(entry.saved_at, stamp().at);
        let target = -10 * i32::try_from(number).unwrap();
        assert_eq!(revision.draft, aimed_at(target));
    }
    // Opened again, it says the same.
    drop(register);
    let mut register = new(&directory);
    assert_eq!(register.history(case).unwrap(), history);
    let report = check(&mut register);
    assert_eq!(
        (report.cases, report.revisions, report.problems),
        (1, 5, vec![])
    );
}

#[test]
fn what_is_not_there_is_said() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = new(&directory);
    let case = CaseId::random().unwrap();
    let path = register.path().display().to_string();
    let message = |error: millrace_register::RegisterError| error.show(Words::ENGLISH).into_owned();
    let none = format!("no case of the register is called this: {path}");
    assert_eq!(message(register.load(case).unwrap_err()), none);
    assert_eq!(message(register.history(case).unwrap_err()), none);
    // A case that was never saved has no first revision to follow.
    let error = register.save(case, Some(1), &aimed_at(0), stamp());
    assert_eq!(error.unwrap_err().show(Words::ENGLISH), none);
    register.save(case, None, &aimed_at(0), stamp()).unwrap();
    for asked in [0, 2, u32::MAX] {
        assert_eq!(
            message(register.load_revision(case, asked).unwrap_err()),
            format!("the case has no revision {asked}; its newest is 1: {path}")
        );
    }
}

#[test]
fn whoever_saves_is_named() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = new(&directory);
    for nobody in ["", "  "] {
        let error = register.import([&aimed_at(0)], by(nobody)).unwrap_err();
        assert!(matches!(error.fault, Fault::Nobody), "{error}");
    }
    let error = register.import([&aimed_at(0)], by("A\nB")).unwrap_err();
    assert!(matches!(error.fault, Fault::Hidden(_)), "{error}");
    assert_eq!(register.count().unwrap(), 0);
}

/// The desk stands in the hash: neither another name nor none can be put in its place.
#[test]
fn the_desk_is_kept_with_each_revision_and_cannot_be_changed() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = new(&directory);
    let case = CaseId::random().unwrap();
    let at = |desk| Stamp { desk, ..stamp() };
    register.save(case, None, &aimed_at(0), stamp()).unwrap();
    let room = at(Some("measuring room"));
    register.save(case, Some(1), &aimed_at(-25), room).unwrap();
    let desks = register.history(case).unwrap();
    let desks: Vec<_> = desks.iter().map(|entry| entry.desk.as_deref()).collect();
    assert_eq!(desks, [None, Some("measuring room")]);
    let hidden = at(Some("A\nB"));
    let error = register
        .save(case, Some(2), &aimed_at(0), hidden)
        .unwrap_err();
    assert!(
        error.show(Words::ENGLISH).contains("name of the desk"),
        "{error:?}"
    );
    drop(register);

    for (changed, number) in [("'another room'", 2), ("NULL", 2), ("'measuring room'", 1)] {
        let directory = tempfile::tempdir().unwrap();
        let mut register = new(&directory);
        register.save(case, None, &aimed_at(0), stamp()).unwrap();
        register.save(case, Some(1), &aimed_at(-25), room).unwrap();
        let path = register.path().to_owned();
        drop(register);
        let file = Connection::open(&path).unwrap();
        let change = format!(
            "DROP TRIGGER revision_is_not_changed;
             UPDATE revision SET desk = {changed} WHERE number = {number}"
        );
        file.execute_batch(&change).unwrap();
        drop(file);
        let register = Register::open_existing(&path).unwrap();
        let error = register.load_revision(case, number).unwrap_err();
        assert!(
            matches!(error.fault, Fault::Damaged(_)),
            "{changed}: {error}"
        );
    }
}

#[test]
fn a_time_that_would_not_be_read_back_is_not_saved() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = new(&directory);
    let stamp = Stamp {
        at: DateTime::<Utc>::MAX_UTC,
        ..by("A. Okafor")
    };
    let error = register.import([&aimed_at(0)], stamp).unwrap_err();
    assert!(matches!(error.fault, Fault::Time(_)), "{error}");
    assert_eq!(register.count().unwrap(), 0);
}

/// Two running copies edit one case: the second is told what came between, and both are there.
#[test]
fn nothing_is_overwritten_when_two_edit_the_same_case() {
    let directory = tempfile::tempdir().unwrap();
    let mut ours = new(&directory);
    let mut theirs = new(&directory);
    let case = CaseId::random().unwrap();
    ours.save(case, None, &aimed_at(0), stamp()).unwrap();
    let read_by_both = theirs.load(case).unwrap().entry.number;

    theirs
        .save(case, Some(read_by_both), &aimed_at(-25), by("B. Okafor"))
        .unwrap();
    let error = ours
        .save(case, Some(read_by_both), &aimed_at(-50), stamp())
        .unwrap_err();
    assert_eq!(
        error.show(Words::ENGLISH),
        "the case was changed meanwhile: revision 2 by B. Okafor at 24 Nov 2026, 10:15 UTC; \
         nothing was saved"
    );
    let SaveError::Conflict { theirs: between } = error else {
        panic!("{error}");
    };
    assert_eq!(between.draft, aimed_at(-25));
    assert_eq!(ours.load(case).unwrap().draft, aimed_at(-25));

    // Having seen it, ours may follow it; both stay readable.
    let chosen = ours.save(case, Some(between.entry.number), &aimed_at(-50), stamp());
    assert_eq!(chosen.unwrap().number, 3);
    for (number, target) in [(1, 0), (2, -25), (3, -50)] {
        let revision = theirs.load_revision(case, number).unwrap();
        assert_eq!(revision.draft, aimed_at(target));
    }
    // A new case cannot take the place of one that is there.
    let taken = ours.save(case, None, &aimed_at(-75), stamp());
    assert!(matches!(taken, Err(SaveError::Conflict { .. })));
    assert_eq!(check(&mut ours).problems, []);
}

/// Two threads with a connection each save a hundred times; each save either stands or is refused.
#[test]
fn savers_side_by_side_lose_nothing() {
    let directory = tempfile::tempdir().unwrap();
    let case = CaseId::random().unwrap();
    new(&directory)
        .save(case, None, &aimed_at(0), stamp())
        .unwrap();
    let saver = |own: i32| {
        let mut register = new(&directory);
        let (mut saved, mut refused) = (Vec::new(), 0);
        while saved.len() < 50 {
            let newest = register.load(case).unwrap().entry.number;
            let count = i32::try_from(saved.len()).unwrap();
            match register.save(case, Some(newest), &aimed_at(own + count), stamp()) {
                Ok(entry) => saved.push((entry.number, own + count)),
                Err(SaveError::Conflict { theirs }) => {
                    assert!(newest < theirs.entry.number);
                    refused += 1;
                }
                Err(error) => panic!("{error}"),
            }
        }
        (saved, refused)
    };
    let outcomes = std::thread::scope(|scope| {
        let threads = [1_000, 2_000].map(|own| scope.spawn(move || saver(own)));
        threads.map(|thread| thread.join().unwrap())
    });
    let mut register = new(&directory);
    assert_eq!(register.load(case).unwrap().entry.number, 101);
    for (number, target) in outcomes.iter().flat_map(|(saved, _)| saved) {
        let draft = register.load_revision(case, *number).unwrap().draft;
        assert_eq!(draft, aimed_at(*target));
    }
    assert_eq!(check(&mut register).problems, []);
}

#[test]
fn the_other_copy_is_told_what_changed() {
    let directory = tempfile::tempdir().unwrap();
    let mut ours = new(&directory);
    let theirs = new(&directory);
    assert_eq!(theirs.changed_since(Sequence::START).unwrap(), []);
    let saved = ours.import(&demos(), stamp()).unwrap();
    let changed = theirs.changed_since(Sequence::START).unwrap();
    let seen = changed.last().unwrap().sequence;
    assert_eq!(changed.len(), saved.len());
    assert_eq!(theirs.changed_since(seen).unwrap(), []);

    ours.save(saved[3].case, Some(1), &aimed_at(-25), by("B. Okafor"))
        .unwrap();
    let changed = theirs.changed_since(seen).unwrap();
    assert_eq!(changed.len(), 1);
    assert_eq!(changed[0].case, saved[3].case);
    assert_eq!(changed[0].revision, 2);
    assert_eq!(changed[0].saved_by, "B. Okafor");
    assert!(seen < changed[0].sequence);
    assert_eq!(theirs.changed_since(changed[0].sequence).unwrap(), []);
}

#[test]
fn an_import_saves_all_or_nothing() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = new(&directory);
    let mut drafts = demos();
    // A measurement of somebody whose name no file could hold.
    drafts[2].patient.name = Some("a\nb".to_owned());
    let error = register.import(&drafts, stamp()).unwrap_err();
    assert!(
        error.show(Words::ENGLISH).starts_with(
            "the case cannot be stored (line 1, column 182: patient name holds an invisible or a \
             control character (U+000A)); nothing was saved: "
        ),
        "{error}"
    );
    assert_eq!(register.count().unwrap(), 0);
    assert_eq!(register.changed_since(Sequence::START).unwrap(), []);
}

fn raw(path: &Path) -> Connection {
    Connection::open(path).unwrap()
}

/// No SQL of any program changes or removes a revision, by any of the ways SQL has.
#[test]
fn the_database_itself_refuses_to_change_the_past() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = new(&directory);
    let case = CaseId::random().unwrap();
    register.save(case, None, &aimed_at(0), stamp()).unwrap();
    register
        .save(case, Some(1), &aimed_at(-25), stamp())
        .unwrap();
    let before = crate::support::content(&register).unwrap();
    let raw = raw(register.path());
    let columns = "case_id, number, saved_at, saved_by, program, hash, body, desk";
    let never = "a saved revision is never";
    let follows = "a revision follows the last one of its case";
    for (statement, message) in [
        (
            "UPDATE revision SET saved_by = 'x'",
            &*format!("{never} changed"),
        ),
        (
            "UPDATE revision SET body = '{}' WHERE number = 1",
            &*format!("{never} changed"),
        ),
        (
            "UPDATE OR REPLACE revision SET number = 2",
            &*format!("{never} changed"),
        ),
        ("DELETE FROM revision", &*format!("{never} removed")),
        (
            "DELETE FROM revision WHERE number = 2",
            &*format!("{never} removed"),
        ),
        (
            &*format!(
                "INSERT OR REPLACE INTO revision SELECT 1, {columns} FROM revision WHERE number = 1"
            ),
            follows,
        ),
        (
            &*format!(
                "REPLACE INTO revision ({columns}) SELECT {columns} FROM revision WHERE number = 2"
            ),
            follows,
        ),
        (
            &*format!(
                "INSERT INTO revision ({columns}) SELECT case_id, 4, saved_at, saved_by, program, hash, body, desk FROM revision WHERE number = 2"
            ),
            follows,
        ),
        ("DELETE FROM current", "a case is never removed"),
        (
            "UPDATE current SET sequence = 1",
            "a case only moves on to a later revision",
        ),
    ] {
        let error = raw.execute(statement, []).unwrap_err();
        assert_eq!(error.to_string(), message, "{statement}");
    }
    assert_eq!(crate::support::content(&register).unwrap(), before);
    assert_eq!(check(&mut register).problems, []);
}

#[cfg(unix)]
#[test]
fn only_the_owner_reads_it() {
    use std::os::unix::fs::PermissionsExt as _;

    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("a/b/register.sqlite3");
    let mut register = Register::open(&path).unwrap();
    register.import([&aimed_at(0)], stamp()).unwrap();
    let mode = |path: &Path| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
    for made in ["a", "a/b"] {
        assert_eq!(mode(&directory.path().join(made)), 0o700, "{made}");
    }
    for ending in ["", "-wal", "-shm"] {
        let file = directory
            .path()
            .join(format!("a/b/register.sqlite3{ending}"));
        assert_eq!(mode(&file), 0o600, "{ending}");
    }
    let backup = directory.path().join("backup.sqlite3");
    register
        .backup(&backup, &mut |_| std::ops::ControlFlow::Continue(()))
        .unwrap();
    assert_eq!(mode(&backup), 0o600);
}
