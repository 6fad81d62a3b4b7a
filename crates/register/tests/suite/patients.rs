//! One number for two people, and two numbers for one.

use millrace_core::case::{Draft, Patient};
use millrace_register::{CaseId, PatientDoubt, Register, Window};
use millrace_wording::{Show as _, Words};

use crate::support::{patient, stamp};

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
    let listed = register.list(Window::ALL).unwrap().remove(0);
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
