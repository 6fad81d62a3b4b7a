//! Registers of every released schema stay openable: one of each lies in `fixtures`, and is never made
//! anew once its schema is released.

use std::path::{Path, PathBuf};

use crate::support::{aimed_at, assert_none_signed, by, check, date, signable_aimed_at, signing};
use millrace_core::biometry::Side;
use millrace_core::calendar::Moment;
use millrace_core::case::State;
use millrace_core::signing::SheetNumber;
use millrace_register::{CaseId, Register, SheetStanding, Stamp, Window};

fn fixture(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("tests/fixtures/{name}.sqlite3"))
}

fn copied(name: &str, directory: &Path) -> PathBuf {
    let path = directory.join("register.sqlite3");
    std::fs::copy(fixture(name), &path).unwrap();
    path
}

fn cases() -> [CaseId; 2] {
    [1, 2].map(|byte| CaseId::from_bytes([byte; 16]))
}

/// While schema 3 is not released: `MILLRACE_RENEW_FIXTURE=1 cargo test --workspace`. One case saved at a desk
/// without a name and at one with a name, and signed.
fn renew() {
    let path = fixture("schema-3");
    let _ = std::fs::remove_file(&path);
    let mut register = Register::open(&path).unwrap();
    let [case, _] = cases();
    let draft = signable_aimed_at(-30);
    register.save(case, None, &draft, by("A. Okafor")).unwrap();
    let named = Stamp {
        desk: Some("measuring room"),
        ..by("B. Weir")
    };
    register.save(case, Some(1), &draft, named).unwrap();
    register.sign(case, 2, signing(-30)).unwrap();
}

/// By `tests/oracle/register_chain.py`, from the fixture.
#[test]
fn a_register_of_schema_3_opens_and_says_at_which_desk_each_revision_was_saved() {
    if std::env::var_os("MILLRACE_RENEW_FIXTURE").is_some() {
        renew();
    }
    let directory = tempfile::tempdir().unwrap();
    let path = copied("schema-3", directory.path());
    let mut register = Register::open_existing(&path).unwrap();
    let report = check(&mut register);
    assert_eq!(
        (report.revisions, report.sheets, report.problems),
        (2, 1, vec![])
    );
    let [case, _] = cases();
    let desks = register.history(case).unwrap();
    let desks: Vec<_> = desks.iter().map(|entry| entry.desk.as_deref()).collect();
    assert_eq!(desks, [None, Some("measuring room")]);
    assert_eq!(
        register.head().unwrap().to_string(),
        "2-1-d7f2-18dc-66d7-7c01"
    );
}

/// The hashes were recomputed from the file by `tests/oracle/register_chain.py`, which shares nothing
/// with the program; names, day and target are those of the demo cases it was made of.
#[test]
fn a_register_of_schema_1_opens_and_reads() {
    let directory = tempfile::tempdir().unwrap();
    let path = copied("schema-1", directory.path());
    let mut register = Register::open_existing(&path).unwrap();
    let report = check(&mut register);
    assert_eq!(
        (report.cases, report.revisions, report.problems),
        (2, 3, vec![])
    );

    let [first, second] = cases();
    assert_eq!(first.to_string(), "01040g2081040g2081040g2081");
    for (case, number, saved_by, hash) in [
        (
            first,
            1,
            "A. Okafor",
            "b709e915ac809411e395818cdd2df551ecfbb8c105963e027de648545205d87d",
        ),
        (
            first,
            2,
            "B. Weir",
            "c56911dc9722404fbb9cee59f1b5750e44fe4aa4b40d542bf5d8b1cb75325380",
        ),
        (
            second,
            1,
            "A. Okafor",
            "c25273f5394a16b5eaa2b17038d902b2fb732ca74f9508f35e9f952cb6a539c0",
        ),
    ] {
        let entry = register.load_revision(case, number).unwrap().entry;
        assert_eq!(entry.saved_by, saved_by);
        assert_eq!(
            Moment(entry.saved_at).text().as_deref(),
            Ok("2026-11-24T10:15:30.5Z")
        );
        assert_eq!(entry.hash.to_string(), hash, "{case} {number}");
    }
    let target = |number| {
        let lens = register.load_revision(first, number).unwrap().draft.lens;
        lens.target.unwrap().to_string()
    };
    assert_eq!([target(1), target(2)], ["+0.00 D", "\u{2212}0.25 D"]);

    let found = register.search("okonjo", Window::ALL).unwrap();
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].case, second);
    assert_eq!(found[0].number.as_deref(), Some("40-2291"));
    assert_eq!(found[0].eye, Some(Side::Right));
    assert_eq!(found[0].state, State::Planned);
    assert_eq!(found[0].operation_date, Some(date(2026, 12, 3)));
    // It can be saved to like any other.
    let entry = register.save(second, Some(1), &aimed_at(0), by("B. Weir"));
    assert_eq!(entry.unwrap().number, 2);
    // Nothing was signed in it, and it can be now.
    assert_none_signed(&register);
    register
        .save(first, Some(2), &signable_aimed_at(-30), by("B. Weir"))
        .unwrap();
    let sheet = register.sign(first, 3, signing(-30)).unwrap();
    assert_eq!(sheet.entry.number, SheetNumber::FIRST);
    let backup = directory.path().join("register.sqlite3.schema-1.backup");
    assert!(backup.is_file());
}

/// Fingerprints and hashes were recomputed from the file by `tests/oracle/signed_plan.py`, which shares
/// nothing with the program.
#[test]
fn a_register_of_schema_2_opens_and_its_sheets_are_answered_for() {
    let directory = tempfile::tempdir().unwrap();
    let path = copied("schema-2", directory.path());
    let mut register = Register::open_existing(&path).unwrap();
    let report = check(&mut register);
    assert_eq!(
        (
            report.cases,
            report.revisions,
            report.sheets,
            report.problems
        ),
        (2, 4, 3, vec![])
    );
    let [first, second] = cases();
    for (number, case, short, hash) in [
        (
            1,
            first,
            "M4XW-0GV5-2YS1-E0W2",
            "2afaafd9bda72b6b3bcfdcab7997fa70615945308fcc2a3dcdcdd55462d1ff74",
        ),
        (
            2,
            second,
            "M5PA-HKM4-EWYX-3SHG",
            "b46d54edc689e21e705a13548120c3c5847853954f3ff3cb5dce894b85240dd0",
        ),
        (
            3,
            first,
            "R7EH-EMYB-BTCR-AMMR",
            "e9c79c548affc5875032179af8de20ab9a7b5adac95a2b5bb93f54cf7a13ddb0",
        ),
    ] {
        let sheet = register.signed(SheetNumber::new(number).unwrap()).unwrap();
        assert_eq!(sheet.entry.case, case);
        assert_eq!(sheet.plan.fingerprint().short().to_string(), short);
        assert_eq!(sheet.entry.hash.to_string(), hash, "{number}");
        let standing = register.verify(&short.parse().unwrap()).unwrap();
        match number {
            1 => assert!(matches!(
                standing,
                SheetStanding::Superseded { by, .. } if by.number.get() == 3
            )),
            2 => assert!(matches!(standing, SheetStanding::Current(_))),
            _ => assert!(matches!(
                standing,
                SheetStanding::ChangedSince { by, .. } if by.number == 3
            )),
        }
    }
    // By `tests/oracle/register_chain.py`, from the fixture.
    assert_eq!(
        register.head().unwrap().to_string(),
        "4-3-74a9-6514-1c23-dba3"
    );
    let found = register.search("okonjo", Window::ALL).unwrap();
    let states: Vec<_> = found
        .iter()
        .map(|entry| (entry.state, entry.case))
        .collect();
    assert_eq!(states, [(State::Planned, first), (State::Signed, second)]);
}
