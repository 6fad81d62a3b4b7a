//! A clock that was set back: the order of saves and sheets stays that of the register, and the jump is said.

use chrono::{DateTime, Utc};

use crate::support::{check, signable, signable_aimed_at, signing};
use millrace_core::case::State;
use millrace_core::signing::PrintedFingerprint;
use millrace_register::{CaseId, Cases, Clock, Register, SetBack, SheetStanding, Stamp, Window};

fn moment(text: &str) -> DateTime<Utc> {
    text.parse().unwrap()
}

fn stamp_at(text: &str) -> Stamp<'static> {
    Stamp {
        by: "A. Okafor",
        desk: None,
        at: moment(text),
        program: "millrace test",
    }
}

const LATER: &str = "2026-12-01T09:00:00Z";
const EARLIER: &str = "2026-11-30T09:00:00Z";
const EARLIEST: &str = "2026-11-29T09:00:00Z";

/// Saved and signed, then changed and signed again by a clock that was set back by two days.
fn set_back(directory: &std::path::Path) -> (Register, CaseId) {
    let mut register = Register::open(&directory.join("register.sqlite3")).unwrap();
    let case = CaseId::from_bytes([1; 16]);
    register
        .save(case, None, &signable(), stamp_at(LATER))
        .unwrap();
    let mut first = signing(-30);
    first.signature.at = moment(LATER);
    register.sign(case, 1, first).unwrap();
    let draft = signable_aimed_at(-25);
    register
        .save(case, Some(1), &draft, stamp_at(EARLIER))
        .unwrap();
    let mut second = signing(-25);
    second.signature.at = moment(EARLIEST);
    register.sign(case, 2, second).unwrap();
    (register, case)
}

#[test]
fn what_came_later_supersedes_whatever_the_clock_said() {
    let directory = tempfile::tempdir().unwrap();
    let (register, case) = set_back(directory.path());
    let history = register.history(case).unwrap();
    let numbers: Vec<_> = history.iter().map(|entry| entry.number).collect();
    assert_eq!(numbers, [1, 2]);
    let loaded = register.load(case).unwrap();
    assert_eq!(
        (loaded.entry.number, loaded.draft),
        (2, signable_aimed_at(-25))
    );
    let listed = register.list(Cases::InUse, Window::ALL).unwrap().remove(0);
    assert_eq!((listed.revision, listed.state), (2, State::Signed));
    assert_eq!(listed.saved_at, moment(EARLIER));
    let [first, second] = <[_; 2]>::try_from(register.sheets_of(case).unwrap()).unwrap();
    assert_eq!(second.supersedes, Some(first.number));
    let standing = |fingerprint| {
        let printed = PrintedFingerprint::Full(fingerprint);
        register.verify(&printed).unwrap()
    };
    assert_eq!(
        standing(second.fingerprint),
        SheetStanding::Current(second.clone())
    );
    let superseded = standing(first.fingerprint);
    assert!(superseded.clock_was_set_back(), "{superseded:?}");
    assert!(!standing(second.fingerprint).clock_was_set_back());
    // By the order of the sheets, not by their times; by number as by fingerprint.
    for sheet in [&first, &second] {
        let (read, by_number) = register.signed_with_standing(sheet.number).unwrap();
        assert_eq!(read.entry, *sheet);
        assert_eq!(by_number, standing(sheet.fingerprint));
    }
    let (sheet, by) = (first, second);
    assert_eq!(superseded, SheetStanding::Superseded { sheet, by });
}

#[test]
fn a_clock_behind_the_last_save_or_sheet_is_told() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let clock = |register: &Register, now| register.clock(moment(now)).unwrap();
    assert_eq!(clock(&register, EARLIEST), Clock::Plausible);
    let case = CaseId::from_bytes([1; 16]);
    register
        .save(case, None, &signable(), stamp_at(EARLIER))
        .unwrap();
    let last = moment(EARLIER);
    assert_eq!(clock(&register, EARLIEST), Clock::Behind { last });
    assert_eq!(clock(&register, EARLIER), Clock::Plausible);
    let mut signature = signing(-30);
    signature.signature.at = moment(LATER);
    register.sign(case, 1, signature).unwrap();
    let last = moment(LATER);
    assert_eq!(clock(&register, EARLIER), Clock::Behind { last });
    assert_eq!(clock(&register, LATER), Clock::Plausible);
}

/// Not damage: nothing is changed by it. But whoever reads times should know.
#[test]
fn a_check_tells_where_the_clock_was_set_back() {
    let directory = tempfile::tempdir().unwrap();
    let (mut register, case) = set_back(directory.path());
    let report = check(&mut register);
    assert_eq!(report.problems, []);
    let expected = [
        SetBack::Save {
            case: case.to_string(),
            revision: 2,
            before: moment(LATER),
            at: moment(EARLIER),
        },
        SetBack::Sheet {
            number: 2,
            before: moment(LATER),
            at: moment(EARLIEST),
        },
    ];
    assert_eq!(report.set_back, expected);
}

/// Signed before it was saved, by the clock, though no sheet came before it.
#[test]
fn a_signature_older_than_what_it_signs_is_told() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let case = CaseId::from_bytes([1; 16]);
    register
        .save(case, None, &signable(), stamp_at(LATER))
        .unwrap();
    let mut signature = signing(-30);
    signature.signature.at = moment(EARLIER);
    register.sign(case, 1, signature).unwrap();
    let expected = SetBack::Sheet {
        number: 1,
        before: moment(LATER),
        at: moment(EARLIER),
    };
    assert_eq!(check(&mut register).set_back, [expected]);
}
