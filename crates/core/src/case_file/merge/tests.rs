use super::*;
use crate::biometry::Side;
use crate::case::{ListNumber, SetAside, Told};
use crate::case_file::read;
use crate::finding::{Doubt, OtherCase};
use crate::quantity::HundredthDiopters;
use crate::rules::testing::date;

const HARD: &str = include_str!("../../../../../demo-data/cases/hard-and-shallow.ron");

fn base() -> Draft {
    read(HARD).unwrap()
}

fn path(name: &str) -> Vec<String> {
    name.split('.').map(str::to_owned).collect()
}

fn told(found: &[Apart]) -> Vec<(String, ChangedBy, bool)> {
    let told = found
        .iter()
        .map(|it| (it.value.join("."), it.changed_by, it.is_chosen));
    told.collect()
}

/// A value that one of them alone changed is taken as it is; one that both changed is chosen.
#[test]
fn what_one_changed_is_taken_and_what_both_changed_is_chosen() {
    let base = base();
    let (mut mine, mut theirs) = (base.clone(), base.clone());
    mine.eyes.right.axial_length = None;
    theirs.eyes.right.lens_thickness = None;
    mine.theatre.technique = vec!["mine".to_owned()];
    theirs.theatre.technique = vec!["theirs".to_owned()];
    let found = apart(Some(&base), &mine, &theirs).unwrap();
    let (first, second) = (
        ChangedBy::One(SideOf::First),
        ChangedBy::One(SideOf::Second),
    );
    assert_eq!(
        told(&found),
        [
            ("right_eye.axial_length".to_owned(), first, false),
            ("right_eye.lens_thickness".to_owned(), second, false),
            ("theatre.technique".to_owned(), ChangedBy::Both, true),
        ]
    );
    let of_theirs = BTreeSet::from([path("right_eye.lens_thickness")]);
    let made = together(&mine, &theirs, &of_theirs).unwrap();
    assert_eq!(made.eyes.right.axial_length, None);
    assert_eq!(made.eyes.right.lens_thickness, None);
    assert_eq!(made.theatre.technique, ["mine"]);
    assert_eq!(made.patient, base.patient);
}

/// A measurement hangs together with its method, day and person: no part of it is mixed with another's.
#[test]
fn a_measurement_is_one_value() {
    let base = base();
    let (mut mine, mut theirs) = (base.clone(), base.clone());
    let length = |draft: &mut Draft, by: &str| {
        let length = draft.eyes.right.axial_length.as_mut().unwrap();
        length.by = Some(by.to_owned());
    };
    length(&mut mine, "A. Okafor");
    length(&mut theirs, "B. Sato");
    theirs.eyes.right.axial_length.as_mut().unwrap().spread = None;
    let found = apart(Some(&base), &mine, &theirs).unwrap();
    assert_eq!(
        told(&found),
        [("right_eye.axial_length".to_owned(), ChangedBy::Both, true)]
    );
    let of_theirs = BTreeSet::from([path("right_eye.axial_length")]);
    let made = together(&mine, &theirs, &of_theirs).unwrap();
    assert_eq!(made, theirs);
}

/// Decisions are never taken over by themselves, also where one of them alone decided.
#[test]
fn a_decision_is_chosen_whoever_made_it() {
    let base = base();
    let mut theirs = base.clone();
    theirs.lens.target = Some(HundredthDiopters::new(-100));
    theirs.reasons.clear();
    let found = apart(Some(&base), &base, &theirs).unwrap();
    let second = ChangedBy::One(SideOf::Second);
    assert_eq!(
        told(&found),
        [
            ("lens".to_owned(), second, true),
            ("reasons".to_owned(), second, true)
        ]
    );
}

/// A power that was planned for one eye never stands beside the other eye.
#[test]
fn another_eye_takes_all_that_was_planned_for_it_along() {
    let base = base();
    let (mut mine, mut theirs) = (base.clone(), base.clone());
    theirs.operation.eye = Some(Side::Left);
    theirs.lens = Draft::default().lens;
    theirs.reasons.clear();
    theirs.theatre.technique = vec!["theirs".to_owned()];
    mine.theatre.allergies = Some(Told::These(vec!["mine".to_owned()]));
    let found = apart(Some(&base), &mine, &theirs).unwrap();
    let (first, second) = (
        ChangedBy::One(SideOf::First),
        ChangedBy::One(SideOf::Second),
    );
    assert_eq!(
        told(&found),
        [
            ("operation.eye".to_owned(), second, true),
            ("theatre.allergies".to_owned(), first, false),
        ]
    );
    assert!(1 < found[0].entries.len());
    let of_theirs = BTreeSet::from([path("operation.eye")]);
    let made = together(&mine, &theirs, &of_theirs).unwrap();
    assert_eq!(made.operation, theirs.operation);
    assert_eq!(made.lens, theirs.lens);
    assert_eq!(made.reasons, theirs.reasons);
    // What was to be done in theatre was planned for that eye; an allergy is the patient's.
    assert_eq!(made.theatre.technique, ["theirs"]);
    assert_eq!(made.theatre.allergies, mine.theatre.allergies);
    assert_eq!(made.eyes, base.eyes);
    let kept = together(&mine, &theirs, &BTreeSet::new()).unwrap();
    assert_eq!(kept, mine);
}

#[test]
fn without_what_both_began_as_everything_is_chosen() {
    let mine = base();
    let mut theirs = mine.clone();
    theirs.eyes.right.axial_length = None;
    let found = apart(None, &mine, &theirs).unwrap();
    assert_eq!(
        told(&found),
        [("right_eye.axial_length".to_owned(), ChangedBy::Both, true)]
    );
    // A value that is nothing there is nothing here, and comes back the other way.
    let all = BTreeSet::from([path("right_eye.axial_length")]);
    assert_eq!(together(&mine, &theirs, &all).unwrap(), theirs);
    assert_eq!(together(&theirs, &mine, &all).unwrap(), mine);
}

/// What somebody set aside comes back by nobody's choice but a person's.
#[test]
fn setting_aside_is_chosen() {
    let base = base();
    let mut theirs = base.clone();
    theirs.set_aside = Some(SetAside {
        reason: Some("Listed twice".to_owned()),
        by: "B. Sato".to_owned(),
        on: chrono::NaiveDate::from_ymd_opt(2026, 11, 24).unwrap(),
    });
    let found = apart(Some(&base), &base, &theirs).unwrap();
    let second = ChangedBy::One(SideOf::Second);
    assert_eq!(told(&found), [("set_aside".to_owned(), second, true)]);
    let all = BTreeSet::from([path("set_aside")]);
    assert_eq!(together(&base, &theirs, &all).unwrap(), theirs);
    assert_eq!(together(&theirs, &base, &all).unwrap(), base);
}

/// What the register has of other cases is asked of nobody, and the newer one holds.
#[test]
fn other_cases_are_taken_from_what_was_stored_last() {
    let other = OtherCase {
        case: "01K7".to_owned(),
        doubt: Doubt::AnotherNumber,
    };
    let base = base();
    let (mut mine, mut theirs) = (base.clone(), base.clone());
    mine.theatre.technique = vec!["mine".to_owned()];
    theirs.other_cases = vec![other];
    let found = apart(Some(&base), &mine, &theirs).unwrap();
    let first = ChangedBy::One(SideOf::First);
    assert_eq!(
        told(&found),
        [("theatre.technique".to_owned(), first, false)]
    );
    let made = together(&mine, &theirs, &BTreeSet::new()).unwrap();
    assert_eq!(made.other_cases, theirs.other_cases);
    assert_eq!(made.theatre, mine.theatre);
    let back = together(&theirs, &mine, &BTreeSet::new()).unwrap();
    assert_eq!(back.other_cases, []);
}

/// The third of Thursday is not made the third of Friday.
#[test]
fn a_place_in_the_order_goes_with_its_day() {
    let base = base();
    let (mut mine, mut theirs) = (base.clone(), base.clone());
    mine.operation.date = Some(date(2026, 12, 4));
    theirs.operation.list_number = ListNumber::try_from(3).ok();
    let made = together(
        &mine,
        &theirs,
        &BTreeSet::from([path("operation.list_number")]),
    )
    .unwrap();
    assert_eq!(made, mine);
    let of_theirs = ["operation.date", "operation.list_number"].map(path);
    let made = together(&mine, &theirs, &BTreeSet::from(of_theirs)).unwrap();
    assert_eq!(made, theirs);
    // One that both agree on stays with the day they agree on.
    mine.operation = theirs.operation.clone();
    mine.patient.number = None;
    let made = together(&mine, &theirs, &BTreeSet::new()).unwrap();
    assert_eq!(made, mine);
}
