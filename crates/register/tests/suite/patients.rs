//! One number for two people, and two numbers for one.

use millrace_core::case::{Command, Draft, Patient, SetAside, State, update};
use millrace_core::finding::{Doubt, OtherCase};
use millrace_core::quantity::HundredthDiopters;
use millrace_register::{
    CaseEntry, CaseId, Cases, OnDay, PatientDoubt, Register, SignError, Window,
};
use millrace_wording::{Show as _, Words};

use crate::support::{assert_none_signed, check, date, patient, signable, signing, stamp};

fn born(name: Option<&str>, number: &str, birth: Option<&str>) -> Draft {
    let mut draft = patient(name, number, None);
    draft.patient.birth_date = birth.map(|birth| birth.parse().unwrap());
    draft
}

/// What is doubted of each, and of which case, as its number in the order of the drafts.
fn doubts(drafts: &[Draft], asked: &Patient, own: Option<usize>) -> Vec<(&'static str, usize)> {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let saved = register.import(drafts, stamp()).unwrap();
    let cases: Vec<CaseId> = saved.iter().map(|entry| entry.case).collect();
    let own = own.map(|own| cases[own]);
    let place = |case: CaseId| cases.iter().position(|known| *known == case).unwrap();
    let found = register.patient_doubts(asked, own).unwrap();
    let mut found: Vec<_> = found
        .iter()
        .map(|doubt| match doubt {
            PatientDoubt::NumberOfAnother(entry) => ("number", place(entry.case)),
            PatientDoubt::AnotherNumber(entry) => ("person", place(entry.case)),
        })
        .collect();
    found.sort_unstable();
    found
}

#[test]
fn a_number_of_another_person_and_a_person_of_another_number_are_found() {
    let birth = Some("1958-09-21");
    let of = |name, number, birth| born(name, number, birth).patient;
    let weir = Some("Weir, Anna");
    let known = [
        born(weir, "31-0117", birth),
        born(Some("Quaye, Emmanuel"), "90-0006", Some("1940-05-05")),
    ];
    for (asked, found) in [
        // The other eye of the same patient, however it is written.
        (of(weir, "31-0117", birth), vec![]),
        (of(Some("WEIR, Änna"), "31/0117", birth), vec![]),
        // Somebody else altogether.
        (of(Some("Weir, Aron"), "31-0118", birth), vec![]),
        (of(weir, "31-0118", Some("1958-09-22")), vec![]),
        (
            of(Some("Weir, Aron"), "31-0117", birth),
            vec![("number", 0)],
        ),
        (of(weir, "31 0117", Some("1958-09-22")), vec![("number", 0)]),
        (of(Some("Weir, Aron"), "310117", None), vec![("number", 0)]),
        (of(None, "31-0117", Some("1958-09-22")), vec![("number", 0)]),
        (of(weir, "31-0118", birth), vec![("person", 0)]),
        (
            of(Some("weir, ANNA"), "13-0117", birth),
            vec![("person", 0)],
        ),
        // Each of two that it contradicts.
        (
            of(weir, "90-0006", birth),
            vec![("number", 1), ("person", 0)],
        ),
        // What is not stated contradicts nothing.
        (of(weir, "31-0117", None), vec![]),
        (of(weir, "31-0118", None), vec![]),
        (of(None, "31-0117", birth), vec![]),
        (
            Patient {
                number: None,
                ..of(weir, "", birth)
            },
            vec![],
        ),
        (Patient::default(), vec![]),
    ] {
        assert_eq!(doubts(&known, &asked, None), found, "{asked:?}");
    }
    // A case does not contradict itself, and only its newest revision speaks.
    let changed = of(Some("Weir, Aron"), "31-0117", birth);
    assert_eq!(doubts(&known, &changed, Some(0)), []);
}

#[test]
fn only_the_newest_revision_of_a_case_is_compared() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let birth = Some("1958-09-21");
    let (wrong, right) = (
        born(Some("Weir, Anna"), "31-0117", birth),
        born(Some("Weir, Anna"), "31-0171", birth),
    );
    let case = register.import([&wrong], stamp()).unwrap()[0].case;
    register.save(case, Some(1), &right, stamp()).unwrap();
    assert_eq!(register.patient_doubts(&right.patient, None).unwrap(), []);
    let found = register.patient_doubts(&wrong.patient, None).unwrap();
    let listed = register.list(Cases::InUse, Window::ALL).unwrap().remove(0);
    assert_eq!(found, [PatientDoubt::AnotherNumber(listed)]);
}

#[test]
fn the_other_case_is_named() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let known = born(Some("Weir, Anna"), "31-0117", Some("1958-09-21"));
    let case = register.import([&known], stamp()).unwrap()[0].case.short();
    let said = |draft: &Draft| {
        let found = register.patient_doubts(&draft.patient, None).unwrap();
        found[0].show(Words::ENGLISH).into_owned()
    };
    assert_eq!(
        said(&born(Some("Weir, Aron"), "31-0117", None)),
        format!(
            "hospital number 31-0117 is in the register for Weir, Anna, born 21 Sep 1958, too (case {case}): \
             one of the two is mistyped or another patient's; both may be compared with the wristband"
        )
    );
    assert_eq!(
        said(&born(Some("Weir, Anna"), "31-0118", Some("1958-09-21"))),
        format!(
            "Weir, Anna, born 21 Sep 1958, is in the register under hospital number 31-0117, too (case {case}): \
             one of the two is mistyped or another patient's; both may be compared with the wristband"
        )
    );
}

/// The register finds it with the save that brings it in: of a new case, of a changed one, of many at once.
#[test]
fn a_case_is_stored_with_what_is_found_of_others() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let birth = Some("1958-09-21");
    let anna = born(Some("Weir, Anna"), "31-0117", birth);
    let aron = born(Some("Weir, Aron"), "31/0117", birth);
    let again = born(Some("weir, anna"), "31-0118", birth);
    let saved = register.import([&anna, &aron, &again], stamp()).unwrap();
    let [first, second, third] = [0, 1, 2].map(|index: usize| saved[index].case);
    let stored = |register: &Register, case| register.load(case).unwrap().draft.other_cases;
    let number = |case: CaseId| OtherCase {
        case: case.to_string(),
        doubt: Doubt::NumberOfAnother,
    };
    let person = |case: CaseId| OtherCase {
        case: case.to_string(),
        doubt: Doubt::AnotherNumber,
    };
    // The first came when nobody was there; those behind it see who came before.
    assert_eq!(stored(&register, first), []);
    assert_eq!(stored(&register, second), [number(first)]);
    assert_eq!(stored(&register, third), [person(first)]);
    let now = register.other_cases(&anna.patient, first).unwrap();
    let mut both = vec![number(second), person(third)];
    both.sort_by(|one, other| one.case.cmp(&other.case));
    assert_eq!(now, both);
    // A save of another value keeps what is known; a save of what a reader learned looks again.
    let mut changed = anna.clone();
    changed.lens.target = Some(HundredthDiopters::new(-30));
    register.save(first, Some(1), &changed, stamp()).unwrap();
    assert_eq!(stored(&register, first), []);
    changed.other_cases = both.clone();
    register.save(first, Some(2), &changed, stamp()).unwrap();
    assert_eq!(stored(&register, first), both);
    // What somebody claims of others does not count.
    changed.other_cases = vec![person(second)];
    register.save(first, Some(3), &changed, stamp()).unwrap();
    assert_eq!(stored(&register, first), both);
    changed.patient.number = Some("31-0119".to_owned());
    register.save(first, Some(4), &changed, stamp()).unwrap();
    assert_eq!(stored(&register, first), [person(third)]);
}

/// A number that stands for "none" is that of many: the first of them by name, and the case is saved.
#[test]
fn of_very_many_others_twenty_are_named() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let named = |index: usize| born(Some(&format!("Test, {index}")), "0000", None);
    let many: Vec<_> = (0..60).map(named).collect();
    let saved = register.import(&many, stamp()).unwrap();
    let mut names: Vec<_> = saved.iter().map(|entry| entry.case.to_string()).collect();
    let own = saved[59].case;
    names.retain(|name| *name != own.to_string());
    names.sort();
    let found = register.load(own).unwrap().draft.other_cases;
    let found: Vec<_> = found.into_iter().map(|other| other.case).collect();
    assert_eq!(found, names[..20]);
}

/// Whoever signs has seen it: a case that says nothing of another one that came meanwhile is not signed.
#[test]
fn nothing_is_signed_that_does_not_know_of_the_other() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let case = CaseId::random().unwrap();
    register.save(case, None, &signable(), stamp()).unwrap();
    let mut other = signable();
    other.patient.name = Some("Somebody, Else".to_owned());
    let other_case = register.import([&other], stamp()).unwrap()[0].case;
    let refused = register.sign(case, 1, signing(-30)).unwrap_err();
    let expected = OtherCase {
        case: other_case.to_string(),
        doubt: Doubt::NumberOfAnother,
    };
    let SignError::OtherCases { others } = &refused else {
        panic!("{refused}");
    };
    assert_eq!(others.as_slice(), std::slice::from_ref(&expected));
    let said = refused.show(Words::ENGLISH).into_owned();
    let name = other_case.short();
    assert!(
        said.contains(&format!("case {name} has this hospital number")),
        "{said}"
    );
    assert_none_signed(&register);

    // Known and without a reason, it is a Review that stands against the signature.
    let known = Draft {
        other_cases: vec![expected],
        ..signable()
    };
    register.save(case, Some(1), &known, stamp()).unwrap();
    let refused = register.sign(case, 2, signing(-30)).unwrap_err();
    let SignError::Obstacles { obstacles } = &refused else {
        panic!("{refused}");
    };
    assert!(
        obstacles
            .iter()
            .any(|it| it.show(Words::ENGLISH).contains("ID-08")),
        "{obstacles:?}"
    );

    // Set aside, the other one is a doubt no longer.
    let said = SetAside {
        reason: Some("another patient's number".to_owned()),
        by: "A. Okafor".to_owned(),
        on: date(2026, 12, 1),
    };
    let aside = update(&other, Command::SetAside(said)).unwrap();
    register.save(other_case, Some(1), &aside, stamp()).unwrap();
    register.save(case, Some(2), &signable(), stamp()).unwrap();
    assert_eq!(register.load(case).unwrap().draft.other_cases, []);
    register.sign(case, 3, signing(-30)).unwrap();
}

/// It leaves the theatre list, its day and the days; it is counted, searched and listed as set aside.
#[test]
fn what_is_set_aside_is_listed_apart() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let on = |name, number, day| patient(Some(name), number, Some(day));
    let kept = on("Weir, Anna", "1", "2026-12-03");
    let put_away = on("Quaye, Emmanuel", "2", "2026-12-01");
    let saved = register.import([&kept, &put_away], stamp()).unwrap();
    let said = SetAside {
        reason: Some("listed twice".to_owned()),
        by: "A. Okafor".to_owned(),
        on: date(2026, 11, 30),
    };
    let aside = update(&put_away, Command::SetAside(said)).unwrap();
    register
        .save(saved[1].case, Some(1), &aside, stamp())
        .unwrap();
    let cases = |entries: Vec<CaseEntry>| -> Vec<CaseId> {
        entries.into_iter().map(|entry| entry.case).collect()
    };
    let all = Window::ALL;
    let in_use = register.list(Cases::InUse, all).unwrap();
    assert_eq!(cases(in_use), [saved[0].case]);
    let listed = register.list(Cases::SetAside, all).unwrap();
    assert_eq!(listed[0].state, State::SetAside);
    assert_eq!(cases(listed), [saved[1].case]);
    assert_eq!(register.count().unwrap(), 2);
    for which in [Cases::InUse, Cases::SetAside] {
        assert_eq!(register.count_of(which).unwrap(), 1, "{which:?}");
    }
    let third = OnDay {
        day: Some(date(2026, 12, 3)),
        cases: 1,
    };
    assert_eq!(register.by_day().unwrap(), [third]);
    assert_eq!(register.on(date(2026, 12, 1)).unwrap(), []);
    assert_eq!(register.place_of(saved[0].case).unwrap(), Some(0));
    assert_eq!(register.place_of(saved[1].case).unwrap(), None);
    let searched = register.search("quaye", all).unwrap();
    assert_eq!(cases(searched), [saved[1].case]);
    assert!(check(&mut register).problems.is_empty());

    let back = update(&aside, Command::BringBack).unwrap();
    register
        .save(saved[1].case, Some(2), &back, stamp())
        .unwrap();
    let in_use = register.list(Cases::InUse, all).unwrap();
    assert_eq!(cases(in_use), [saved[1].case, saved[0].case]);
}
