//! The order of a day: numbers the team gives, which are the list's and no part of a sheet.

use millrace_core::case::{ListNumber, State};
use millrace_core::signing::SheetNumber;
use millrace_register::{
    CaseId, Cases, Fault, Placed, Register, SaveError, SheetStanding, SignError, Window,
};
use tempfile::TempDir;

use crate::support::{by, check, date, patient, signable_aimed_at, signing, stamp};

const THURSDAY: &str = "2026-12-03";

fn number(of: u8) -> Option<ListNumber> {
    ListNumber::try_from(of).ok()
}

fn placed(case: CaseId, expected: u32, of: u8) -> Placed {
    Placed {
        case,
        expected,
        number: number(of),
    }
}

/// Abara, Brandt and Castell on a Thursday, Dahl on the Friday, and Ekwe without a day.
fn register() -> (TempDir, Register, Vec<CaseId>) {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let drafts = [
        patient(Some("Abara"), "1", Some(THURSDAY)),
        patient(Some("Brandt"), "2", Some(THURSDAY)),
        patient(Some("Castell"), "3", Some(THURSDAY)),
        patient(Some("Dahl"), "4", Some("2026-12-04")),
        patient(Some("Ekwe"), "5", None),
    ];
    let saved = register.import(&drafts, stamp()).unwrap();
    let cases = saved.iter().map(|entry| entry.case).collect();
    (directory, register, cases)
}

fn listed(register: &Register) -> String {
    let entries = register.list(Cases::InUse, Window::ALL).unwrap();
    let names = entries.into_iter().filter_map(|entry| entry.name);
    names.collect::<Vec<_>>().join(" ")
}

#[test]
fn numbers_order_a_day_and_those_without_one_follow_by_name() {
    let (_directory, mut register, cases) = register();
    assert_eq!(listed(&register), "Abara Brandt Castell Dahl Ekwe");
    let [abara, _, castell, dahl, _] = cases[..] else {
        panic!("{cases:?}")
    };
    register
        .order(&[placed(castell, 1, 1)], by("B. Weir"))
        .unwrap();
    assert_eq!(listed(&register), "Castell Abara Brandt Dahl Ekwe");
    let places = [
        placed(castell, 2, 2),
        placed(abara, 1, 1),
        placed(dahl, 1, 1),
    ];
    let entries = register.order(&places, by("B. Weir")).unwrap();
    assert_eq!(entries.len(), 3);
    assert_eq!(listed(&register), "Abara Castell Brandt Dahl Ekwe");
    let of_day = register.on(date(2026, 12, 3)).unwrap();
    let numbers: Vec<_> = of_day.iter().map(|entry| entry.list_number).collect();
    assert_eq!(numbers, [number(1), number(2), None]);
    // Found by search they stand in the same order.
    let found = register.search("a", Window::ALL).unwrap();
    assert_eq!(found[0].name.as_deref(), Some("Abara"));
    // Each save names who ordered, and one that changes nothing is none.
    let history = register.history(castell).unwrap();
    let by: Vec<_> = history.iter().map(|entry| &*entry.saved_by).collect();
    assert_eq!(by, ["A. Okafor", "B. Weir", "B. Weir"]);
    assert_eq!(register.order(&[placed(abara, 2, 1)], stamp()).unwrap(), []);
    assert_eq!(check(&mut register).problems, []);
}

#[test]
fn all_are_ordered_or_none() {
    let (_directory, mut register, cases) = register();
    let changed = patient(Some("Brandt"), "2b", Some(THURSDAY));
    register
        .save(cases[1], Some(1), &changed, by("B. Weir"))
        .unwrap();
    let refused = register.order(&[placed(cases[0], 1, 2), placed(cases[1], 1, 1)], stamp());
    let Err(SaveError::Conflict { theirs }) = refused else {
        panic!("{refused:?}")
    };
    assert_eq!((theirs.entry.case, theirs.entry.number), (cases[1], 2));
    let error = register
        .order(&[placed(cases[0], 1, 1), placed(cases[4], 1, 2)], stamp())
        .unwrap_err();
    assert!(
        matches!(&error, SaveError::Register(error) if matches!(error.fault, Fault::NotOrdered(_))),
        "{error}"
    );
    assert_eq!(register.history(cases[0]).unwrap().len(), 1);
    assert_eq!(listed(&register), "Abara Brandt Castell Dahl Ekwe");
}

/// Theatre holds the sheet in its hands: the list around it moves, the sheet stays the one to work by.
#[test]
fn a_signed_sheet_stays_the_one_to_work_by() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let saved = register.import(&[signable_aimed_at(-30)], stamp()).unwrap();
    let case = saved[0].case;
    let sheet = register.sign(case, 1, signing(-30)).unwrap();
    register.order(&[placed(case, 1, 4)], stamp()).unwrap();
    register.order(&[placed(case, 2, 3)], stamp()).unwrap();

    let printed = sheet.plan.fingerprint().short().to_string();
    let standing = |register: &Register| register.verify(&printed.parse().unwrap()).unwrap();
    assert!(matches!(standing(&register), SheetStanding::Current(_)));
    let state = |register: &Register| {
        let entry = register.on(date(2026, 12, 3)).unwrap().remove(0);
        (entry.state, entry.sheet, entry.list_number)
    };
    let first = Some(SheetNumber::FIRST);
    assert_eq!(state(&register), (State::Signed, first, number(3)));
    // It is signed as it stands: there is nothing to sign again.
    let again = register.sign(case, 3, signing(-30));
    assert!(
        matches!(again, Err(SignError::AlreadySigned { .. })),
        "{again:?}"
    );
    assert_eq!(check(&mut register).problems, []);

    // A change of the plan, and its way back, are changes as before.
    let now = |register: &Register| register.load(case).unwrap();
    let mut draft = now(&register).draft;
    let target = draft.lens.target.take();
    register.save(case, Some(3), &draft, stamp()).unwrap();
    draft.lens.target = target;
    register.save(case, Some(4), &draft, stamp()).unwrap();
    let SheetStanding::ChangedSince { by, .. } = standing(&register) else {
        panic!("{:?}", standing(&register))
    };
    assert_eq!(by.number, 5);
    assert_eq!(state(&register), (State::Planned, first, number(3)));
    // Signed again, with its number, the number is no part of the sheet.
    let second = register.sign(case, 5, signing(-30)).unwrap();
    assert_eq!(second.plan.draft().operation.list_number, None);
    assert_eq!(state(&register).0, State::Signed);
    assert_eq!(check(&mut register).problems, []);
}

/// A register of the schema before has no order, and takes one.
#[test]
fn a_register_without_an_order_takes_one() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    let fixture = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/fixtures/schema-2.sqlite3"
    );
    std::fs::copy(fixture, &path).unwrap();
    let mut register = Register::open_existing(&path).unwrap();
    let entries = register.list(Cases::InUse, Window::ALL).unwrap();
    let places: Vec<_> = entries
        .iter()
        .rev()
        .zip(1..)
        .map(|(entry, of)| placed(entry.case, entry.revision, of))
        .collect();
    assert_eq!(places.len(), 2);
    register.order(&places, stamp()).unwrap();
    let ordered = register.list(Cases::InUse, Window::ALL).unwrap();
    let cases = |entries: &[millrace_register::CaseEntry]| {
        entries.iter().map(|entry| entry.case).collect::<Vec<_>>()
    };
    let before = cases(&entries);
    let reversed: Vec<_> = before.into_iter().rev().collect();
    assert_eq!(cases(&ordered), reversed);
    assert_eq!(check(&mut register).problems, []);
}
