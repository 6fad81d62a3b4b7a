//! The order of a day, as the team sets it in the day view.

use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::{Draft, ListNumber, State};
use millrace_core::signing::SheetNumber;
use millrace_desk::exchange::{Answer, CaseId, Planned, Request, SheetRow, Standing};
use millrace_desk::session::SaveState;

use crate::support::{
    Bench, HARD_AND_SHALLOW, SMALLEST, click, date, demo, enter, fill, harness, light, texts,
};

fn named(name: &str) -> Draft {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.patient.name = Some(name.to_owned());
    draft
}

/// Abara, Brandt and Castell on one day, and Dahl alone on the next.
fn bench() -> Bench {
    let mut dahl = named("Dahl");
    dahl.operation.date = Some(date(2026, 12, 4));
    Bench::new(
        vec![named("Abara"), named("Brandt"), named("Castell"), dahl],
        light(),
    )
}

/// Number and name of each row, from top to bottom.
fn order(harness: &Harness<'_, Bench>) -> Vec<String> {
    let rows = texts(harness)
        .into_iter()
        .filter(|text| text.contains("RIGHT EYE") && text.contains(" · "));
    rows.map(|row| row.split(", 40-2291").next().unwrap().to_owned())
        .collect()
}

fn says(harness: &Harness<'_, Bench>, text: &str) -> bool {
    texts(harness)
        .iter()
        .any(|said| said.replace('\u{a0}', " ").contains(text))
}

fn numbers(harness: &Harness<'_, Bench>) -> Vec<Option<u8>> {
    let cases = harness.state().cases.iter();
    cases
        .map(|(_, _, draft)| draft.operation.list_number.map(ListNumber::get))
        .collect()
}

#[test]
fn a_case_is_moved_and_every_case_of_the_day_gets_its_number() {
    let mut harness = harness(bench(), SMALLEST);
    assert_eq!(order(&harness), ["Abara", "Brandt", "Castell"]);
    harness.get_by_label("Earlier, Castell").focus();
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(order(&harness), ["1, Abara", "2, Castell", "3, Brandt"]);
    assert_eq!(numbers(&harness), [Some(1), Some(3), Some(2), None]);
    // The act stays with the case it moves: the Enter key moves it on.
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(order(&harness), ["1, Castell", "2, Abara", "3, Brandt"]);
    // The other act takes it back.
    click(&mut harness, "Later, Castell");
    assert_eq!(order(&harness), ["1, Abara", "2, Castell", "3, Brandt"]);
    // It is stored with the person.
    let told = &harness.state().told;
    let authors: Vec<_> = told
        .iter()
        .filter_map(|it| match it {
            Request::Order(order) => Some(&*order.by.person),
            _ => None,
        })
        .collect();
    assert_eq!(authors, ["A. Okafor"; 3]);
}

#[test]
fn the_first_goes_no_earlier_and_the_last_no_later() {
    let mut harness = harness(bench(), SMALLEST);
    for (name, is_way) in [
        ("Earlier, Abara", false),
        ("Later, Abara", true),
        ("Earlier, Brandt", true),
        ("Later, Castell", false),
    ] {
        let node = harness.get_by_label(name);
        assert_eq!(!node.accesskit_node().is_disabled(), is_way, "{name}");
    }
    // Alone on its day there is no order.
    click(&mut harness, "Day after, 4 Dec 2026");
    assert!(harness.query_by_label("Earlier, Dahl").is_none());
}

/// A signed case is moved like any other: its sheet stays the one to work by, and its lock stays closed.
#[test]
fn a_signed_case_is_moved_and_stays_signed() {
    let mut bench = bench();
    bench.marks = vec![(0, State::Signed, SheetNumber::FIRST)];
    bench.sheets = vec![SheetRow {
        number: SheetNumber::FIRST,
        plans: Planned::of(&bench.cases[0].2),
        by: "A. Okafor".to_owned(),
        at: "2026-11-24T10:00:00".parse().unwrap(),
        standing: Standing::Current,
    }];
    bench.open(0);
    let mut harness = harness(bench, SMALLEST);
    click(&mut harness, "Day");
    click(&mut harness, "Later, Abara");
    assert_eq!(order(&harness), ["1, Brandt", "2, Abara", "3, Castell"]);
    let session = harness.state().desk.session().unwrap();
    assert_eq!(
        session.draft().operation.list_number.map(ListNumber::get),
        Some(2)
    );
    assert_eq!(session.save_state(), SaveState::Saved);
    assert_eq!(session.revision().0, "1+");
    click(&mut harness, "Back to the page");
    assert!(says(&harness, "SIGNED, sheet 1"));
    assert!(harness.query_by_label("Change the plan…").is_some());
}

/// The open case goes on from the revision that has its place, and undo takes back what was done to the case
/// and not what was done to the list.
#[test]
fn undo_of_the_case_leaves_its_place() {
    let mut bench = bench();
    bench.open(1);
    let mut harness = harness(bench, SMALLEST);
    click(&mut harness, "Patient and operation");
    fill(&mut harness, "Hospital number", "40-2299");
    click(&mut harness, "Day");
    click(&mut harness, "Earlier, Brandt");
    click(&mut harness, "Back to the page");
    click(&mut harness, "Undo");
    let stored = &harness.state().cases[1].2;
    assert_eq!(stored.patient.number.as_deref(), Some("40-2291"));
    assert_eq!(stored.operation.list_number.map(ListNumber::get), Some(1));
    click(&mut harness, "Redo");
    let stored = &harness.state().cases[1].2;
    assert_eq!(stored.patient.number.as_deref(), Some("40-2299"));
    assert_eq!(stored.operation.list_number.map(ListNumber::get), Some(1));
    // Another day is another order; the way back to the day is the way back to its place.
    enter(&mut harness, "Operation day", "2026-12-04");
    assert_eq!(harness.state().cases[1].2.operation.list_number, None);
    click(&mut harness, "Undo");
    let place = harness.state().cases[1].2.operation.list_number;
    assert_eq!(place.map(ListNumber::get), Some(1));
}

/// A change that is still on its way to the drive is stored first, so that neither is lost to the other.
#[test]
fn it_waits_for_the_open_case() {
    let mut bench = bench();
    bench.open(0);
    bench.holds_saves_back = true;
    let mut harness = harness(bench, SMALLEST);
    click(&mut harness, "Patient and operation");
    fill(&mut harness, "Hospital number", "40-2299");
    click(&mut harness, "Day");
    harness.get_by_label("Earlier, Castell").click();
    for _ in 0..4 {
        harness.step();
    }
    let is_asked = |bench: &Bench| bench.told.iter().any(|it| matches!(it, Request::Order(_)));
    assert!(!is_asked(harness.state()));
    let late = harness.state_mut().saved_late.remove(0);
    harness.state_mut().desk.accept(late);
    harness.run();
    assert!(is_asked(harness.state()));
    assert_eq!(numbers(&harness)[..3], [Some(1), Some(3), Some(2)]);
    let session = harness.state().desk.session().unwrap();
    assert_eq!(session.draft().patient.number.as_deref(), Some("40-2299"));
    assert_eq!(
        session.draft().operation.list_number.map(ListNumber::get),
        Some(1)
    );
}

/// Nothing was ordered: the person is told, and the case on the desk is stored as before.
#[test]
fn what_is_refused_changes_nothing() {
    let mut bench = bench();
    bench.open(1);
    let mut harness = harness(bench, SMALLEST);
    click(&mut harness, "Day");
    // Somebody else stores one of them; the list here has not heard of it.
    harness.state_mut().cases[2].1.0.push('x');
    click(&mut harness, "Earlier, Brandt");
    assert_eq!(numbers(&harness)[2], None);
    assert!(says(&harness, "changed meanwhile"));
    let case = CaseId("1".to_owned());
    let before = numbers(&harness);
    assert_eq!(
        harness.state().desk.session().unwrap().save_state(),
        SaveState::Saved
    );
    // A late answer of nobody's asking does nothing.
    harness
        .state_mut()
        .desk
        .accept(Answer::Ordered(Ok(Vec::new())));
    harness.run();
    assert_eq!(numbers(&harness), before);
    assert_eq!(*harness.state().desk.session().unwrap().case(), case);
}
