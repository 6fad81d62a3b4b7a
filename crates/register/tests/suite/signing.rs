//! Signed plans: frozen, numbered, superseded, and answered for.

use millrace_wording::{Show as _, Words};
use std::sync::{Arc, Barrier};

use crate::support::{assert_none_signed, check, signable, signable_aimed_at, signing, stamp};
use millrace_core::case::State;
use millrace_core::signing::{Obstacle, PrintedFingerprint, SheetNumber};
use millrace_register::{CaseId, Cases, Fault, Register, SheetStanding, SignError, Window};
use rusqlite::Connection;

fn printed(text: &impl ToString) -> PrintedFingerprint {
    text.to_string().parse().unwrap()
}

/// A register with the hard, shallow eye saved once.
fn with_case(directory: &std::path::Path) -> (Register, CaseId) {
    let mut register = Register::open(&directory.join("register.sqlite3")).unwrap();
    let case = CaseId::random().unwrap();
    register.save(case, None, &signable(), stamp()).unwrap();
    (register, case)
}

fn listed(register: &Register) -> (State, Option<u32>) {
    let entry = register.list(Cases::InUse, Window::ALL).unwrap().remove(0);
    (entry.state, entry.sheet.map(SheetNumber::get))
}

#[test]
fn a_sheet_is_current_until_the_case_changes_and_superseded_by_the_next() {
    let directory = tempfile::tempdir().unwrap();
    let (mut register, case) = with_case(directory.path());
    assert_eq!(listed(&register), (State::Planned, None));
    assert_none_signed(&register);

    let first = register.sign(case, 1, signing(-30)).unwrap();
    assert_eq!(first.entry.number, SheetNumber::FIRST);
    assert_eq!((first.entry.revision, first.entry.supersedes), (1, None));
    assert_eq!(*first.plan.draft(), signable());
    assert_eq!(listed(&register), (State::Signed, Some(1)));
    let short = printed(&first.plan.fingerprint().short());
    for text in [short, printed(&first.plan.fingerprint().code())] {
        assert_eq!(
            register.verify(&text).unwrap(),
            SheetStanding::Current(first.entry.clone())
        );
    }

    let saved = register
        .save(case, Some(1), &signable_aimed_at(-25), stamp())
        .unwrap();
    assert_eq!(listed(&register), (State::Planned, Some(1)));
    let sheet = first.entry.clone();
    let by = saved;
    assert_eq!(
        register.verify(&short).unwrap(),
        SheetStanding::ChangedSince { sheet, by }
    );

    let (_, standing) = register.signed_with_standing(SheetNumber::FIRST).unwrap();
    assert_eq!(standing, register.verify(&short).unwrap());

    let second = register.sign(case, 2, signing(-25)).unwrap();
    assert_eq!(second.entry.number.get(), 2);
    assert_eq!(second.plan.supersedes(), Some(SheetNumber::FIRST));
    assert_eq!(listed(&register), (State::Signed, Some(2)));
    let (sheet, by) = (first.entry.clone(), second.entry.clone());
    assert_eq!(
        register.verify(&short).unwrap(),
        SheetStanding::Superseded { sheet, by }
    );
    // Both are kept as they were signed, also for a program that opens the file anew.
    let path = register.path().to_owned();
    drop(register);
    let mut register = Register::open_existing(&path).unwrap();
    assert_eq!(register.signed(SheetNumber::FIRST).unwrap(), first);
    assert_eq!(register.signed(second.entry.number).unwrap(), second);
    let sheets = register.sheets_of(case).unwrap();
    assert_eq!(sheets, [first.entry, second.entry]);
    let report = check(&mut register);
    assert_eq!((report.sheets, report.problems), (2, vec![]));
}

#[test]
fn numbers_count_over_the_register_and_supersede_within_the_case() {
    let directory = tempfile::tempdir().unwrap();
    let (mut register, case) = with_case(directory.path());
    let other = CaseId::random().unwrap();
    register.save(other, None, &signable(), stamp()).unwrap();
    register.sign(case, 1, signing(-30)).unwrap();
    let second = register.sign(other, 1, signing(-30)).unwrap();
    assert_eq!(
        (second.entry.number.get(), second.entry.supersedes),
        (2, None)
    );
    register.save(case, Some(1), &signable(), stamp()).unwrap();
    let third = register.sign(case, 2, signing(-30)).unwrap();
    assert_eq!(third.entry.number.get(), 3);
    assert_eq!(third.entry.supersedes, Some(SheetNumber::FIRST));
    // The same plan under another number is another sheet.
    let standing = register
        .verify(&printed(&second.plan.fingerprint()))
        .unwrap();
    assert_eq!(standing, SheetStanding::Current(second.entry));
}

#[test]
fn what_was_never_signed_is_unknown() {
    let directory = tempfile::tempdir().unwrap();
    let (mut register, case) = with_case(directory.path());
    let sheet = register.sign(case, 1, signing(-30)).unwrap();
    let elsewhere = tempfile::tempdir().unwrap();
    let (register, other) = with_case(elsewhere.path());
    let standing = register.verify(&printed(&sheet.plan.fingerprint().short()));
    assert_eq!(standing.unwrap(), SheetStanding::Unknown);
    assert_eq!(register.sheets_of(other).unwrap(), []);
    assert!(matches!(
        register.sheets_of(case).unwrap_err().fault,
        Fault::NoSuchCase
    ));
    let error = register
        .signed(SheetNumber::FIRST)
        .unwrap_err()
        .show(Words::ENGLISH)
        .into_owned();
    assert!(
        error.starts_with("the register has no sheet 1; none was signed yet: "),
        "{error}"
    );
}

#[test]
fn only_the_newest_revision_is_signed_and_only_once() {
    let directory = tempfile::tempdir().unwrap();
    let (mut register, case) = with_case(directory.path());
    register
        .save(case, Some(1), &signable_aimed_at(-25), stamp())
        .unwrap();
    let SignError::Conflict { theirs } = register.sign(case, 1, signing(-30)).unwrap_err() else {
        panic!("a change that came between is told");
    };
    assert_eq!(theirs.entry.number, 2);
    let first = register.sign(case, 2, signing(-25)).unwrap();
    let again = register.sign(case, 2, signing(-25)).unwrap_err();
    let SignError::AlreadySigned { sheet } = &again else {
        panic!("{again}");
    };
    assert_eq!(**sheet, first.entry);
    assert_eq!(
        again.show(Words::ENGLISH),
        "the case is signed as it stands: sheet 1 by A. Okafor at 25 Nov 2026, 08:00 UTC; \
         nothing was signed"
    );
    assert_eq!(register.sheets_of(case).unwrap().len(), 1);
}

#[test]
fn what_stands_against_it_is_told_and_nothing_is_signed() {
    let directory = tempfile::tempdir().unwrap();
    let (mut register, case) = with_case(directory.path());
    let error = register.sign(case, 1, signing(30)).unwrap_err();
    let SignError::Obstacles { obstacles } = &error else {
        panic!("{error}");
    };
    assert!(matches!(obstacles[..], [Obstacle::EnteredDiffers { .. }]));
    assert_none_signed(&register);
    assert_eq!(listed(&register), (State::Planned, None));
    assert_eq!(check(&mut register).problems, []);
}

/// Many copies sign one revision at once: one sheet, and the others are told of it.
#[test]
fn of_many_who_sign_at_once_one_does() {
    const COPIES: usize = 6;
    let directory = tempfile::tempdir().unwrap();
    let (mut register, case) = with_case(directory.path());
    let path = register.path().to_owned();
    let together = Arc::new(Barrier::new(COPIES));
    let threads: Vec<_> = (0..COPIES)
        .map(|_| {
            let (path, together) = (path.clone(), Arc::clone(&together));
            std::thread::spawn(move || {
                let mut copy = Register::open_existing(&path).unwrap();
                together.wait();
                copy.sign(case, 1, signing(-30))
            })
        })
        .collect();
    let outcomes: Vec<_> = threads
        .into_iter()
        .map(|thread| thread.join().unwrap())
        .collect();
    let signed = outcomes.iter().filter(|outcome| outcome.is_ok()).count();
    let told = outcomes
        .iter()
        .filter(|outcome| matches!(outcome, Err(SignError::AlreadySigned { .. })))
        .count();
    assert_eq!((signed, told), (1, COPIES - 1), "{outcomes:?}");
    assert_eq!(register.sheets_of(case).unwrap().len(), 1);
    assert_eq!(check(&mut register).problems, []);
}

#[test]
fn the_database_itself_refuses_to_change_what_was_signed() {
    let directory = tempfile::tempdir().unwrap();
    let (mut register, case) = with_case(directory.path());
    register.sign(case, 1, signing(-30)).unwrap();
    let connection = Connection::open(register.path()).unwrap();
    let columns =
        "number, case_id, revision, supersedes, signed_at, signed_by, fingerprint, hash, body";
    for (statement, message) in [
        (
            "UPDATE sheet SET signed_by = 'x'".to_owned(),
            "never changed",
        ),
        ("DELETE FROM sheet".to_owned(), "never removed"),
        (
            format!("INSERT OR REPLACE INTO sheet ({columns}) SELECT {columns} FROM sheet"),
            "follows the last one",
        ),
        // A second sheet of the same revision, and one that leaves a gap.
        (
            format!(
                "INSERT INTO sheet ({columns}) SELECT 2, case_id, revision, 1, signed_at, signed_by,
                 randomblob(32), hash, body FROM sheet"
            ),
            "follows the last one",
        ),
        (
            format!(
                "INSERT INTO sheet ({columns}) SELECT 3, case_id, revision, 1, signed_at, signed_by,
                 randomblob(32), hash, body FROM sheet"
            ),
            "follows the last one",
        ),
    ] {
        let error = connection.execute(&statement, []).unwrap_err().to_string();
        assert!(error.contains(message), "{statement}: {error}");
    }
    assert_eq!(check(&mut register).problems, []);
}

/// What somebody changes behind the program's back is found, and not answered for as current.
#[test]
fn a_changed_signed_plan_is_found_and_never_current() {
    for (trigger, statement, problem) in [
        (
            "sheet_is_not_changed",
            "UPDATE sheet SET body = replace(body, '+22.50 D', '+23.50 D') WHERE number = 1",
            "sheet 1: it is not what was signed, or not in its place",
        ),
        (
            "sheet_is_not_changed",
            "UPDATE sheet SET signed_by = 'Somebody Else' WHERE number = 1",
            "sheet 1: person or time are not those of the signature",
        ),
        (
            "sheet_is_not_changed",
            "UPDATE sheet SET fingerprint = randomblob(32) WHERE number = 1",
            "sheet 1: it does not have the fingerprint it was signed with",
        ),
        (
            "sheet_is_not_changed",
            "UPDATE sheet SET supersedes = NULL WHERE number = 2",
            "sheet 2: it does not supersede the sheet of its case before it",
        ),
        (
            "sheet_is_not_changed",
            "UPDATE sheet SET revision = 3 WHERE number = 1",
            "sheet 1: it is not what was signed, or not in its place",
        ),
        (
            "sheet_is_not_removed",
            "DELETE FROM sheet WHERE number = 1",
            "sheet 1 is missing",
        ),
    ] {
        let directory = tempfile::tempdir().unwrap();
        let (mut register, case) = with_case(directory.path());
        let first = register.sign(case, 1, signing(-30)).unwrap();
        register.save(case, Some(1), &signable(), stamp()).unwrap();
        register.sign(case, 2, signing(-30)).unwrap();
        register.save(case, Some(2), &signable(), stamp()).unwrap();
        let path = register.path().to_owned();
        drop(register);
        Connection::open(&path)
            .unwrap()
            .execute_batch(&format!(
                "PRAGMA foreign_keys = OFF; DROP TRIGGER {trigger}; {statement};"
            ))
            .unwrap();
        let mut register = Register::open(&path).unwrap();
        let problems: Vec<_> = check(&mut register)
            .problems
            .iter()
            .map(|problem| problem.show(Words::ENGLISH).into_owned())
            .collect();
        assert!(
            problems.contains(&problem.to_owned()),
            "{statement}: {problems:?}"
        );
        match register.verify(&printed(&first.plan.fingerprint())) {
            Err(error) => assert!(matches!(error.fault, Fault::Damaged(_)), "{error}"),
            Ok(standing) => assert!(
                !matches!(standing, SheetStanding::Current(_)),
                "{statement}: {standing:?}"
            ),
        }
    }
}
