//! The same case in two windows: what the other one stores is shown where nothing is being done here, and told
//! where something is.

use crate::support::{Bench, HARD_AND_SHALLOW, click, demo, harness, light, texts};
use chrono::NaiveDate;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::case::Draft;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::signing::SheetNumber;
use millrace_desk::exchange::{Answer, Newer, Planned, Request, Revision, SheetRow, Standing};

const HIGH: [f32; 2] = [1280.0, 2600.0];

fn open() -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    harness(bench, HIGH)
}

/// The demo case, with another target.
fn theirs() -> Draft {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.lens.target = Some(HundredthDiopters::new(-100));
    draft
}

fn stored_elsewhere(harness: &mut Harness<'_, Bench>, sheets: Vec<SheetRow>) {
    let newer = Newer {
        case: harness.state().cases[0].0.clone(),
        revision: Revision("elsewhere".to_owned()),
        draft: Box::new(theirs()),
        sheets: Some(sheets),
        author: "B. Sato".to_owned(),
        at: NaiveDate::from_ymd_opt(2026, 11, 24)
            .and_then(|day| day.and_hms_opt(10, 42, 0))
            .unwrap(),
    };
    harness.state_mut().desk.accept(Answer::Newer(newer));
    harness.run();
}

fn is_said(harness: &Harness<'_, Bench>, text: &str) -> bool {
    texts(harness).iter().any(|said| said.contains(text))
}

const CHANGED: &str =
    "Changed by B. Sato (24 Nov 2026, 10:42): Lens, target \u{2212}0.30 D → \u{2212}1.00 D";

fn saves(harness: &Harness<'_, Bench>) -> Vec<Revision> {
    let told = harness.state().told.iter();
    told.filter_map(|request| match request {
        Request::Save(save) => Some(save.seen.clone()),
        _ => None,
    })
    .collect()
}

#[test]
fn an_idle_desk_shows_what_the_other_one_stored() {
    let mut harness = open();
    stored_elsewhere(&mut harness, Vec::new());
    assert_eq!(*harness.state().draft(), theirs());
    harness.get_by_label(CHANGED);
    let session = harness.state().desk.session().unwrap();
    assert_eq!(*session.revision(), Revision("elsewhere".to_owned()));
    // It is theirs: undoing here takes nothing of it back, and nothing is stored over it.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(*harness.state().draft(), theirs());
    assert_eq!(saves(&harness), []);
}

#[test]
fn while_something_is_being_typed_it_is_told_and_waits() {
    let mut harness = open();
    let mine = harness.state().draft().clone();
    click(&mut harness, "Axial length");
    harness.get_by_label("Axial length").type_text("23.4");
    harness.step();
    stored_elsewhere(&mut harness, Vec::new());
    assert_eq!(*harness.state().draft(), mine);
    assert!(is_said(&harness, "B. Sato stored this case anew"));
    assert!(texts(&harness).contains(&"23.4".to_owned()));
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(*harness.state().draft(), theirs());
    harness.get_by_label(CHANGED);
}

/// What is entered all the same is held against what it was entered over: the store tells that the two differ.
#[test]
fn what_is_entered_over_an_older_revision_is_not_stored_over_the_newer_one() {
    let mut harness = open();
    click(&mut harness, "Axial length");
    harness.get_by_label("Axial length").type_text("23.41");
    harness.step();
    stored_elsewhere(&mut harness, Vec::new());
    harness.state_mut().holds_saves_back = true;
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(saves(&harness), [Revision("1".to_owned())]);
    assert_ne!(*harness.state().draft(), theirs());
}

#[test]
fn a_second_look_is_not_disturbed() {
    let mut harness = open();
    let mine = harness.state().draft().clone();
    click(&mut harness, "Second look…");
    stored_elsewhere(&mut harness, Vec::new());
    assert_eq!(*harness.state().draft(), mine);
    assert!(!is_said(&harness, "1.00 D"));
}

#[test]
fn what_was_signed_elsewhere_is_locked_here() {
    let mut harness = open();
    let sheet = SheetRow {
        number: SheetNumber::FIRST,
        plans: Planned::of(&theirs()),
        by: "B. Sato".to_owned(),
        at: "2026-11-24T10:00:00".parse().unwrap(),
        standing: Standing::Current,
    };
    stored_elsewhere(&mut harness, vec![sheet]);
    assert_eq!(*harness.state().draft(), theirs());
    assert!(is_said(&harness, "Signed, sheet 1. Its fields are locked"));
}
