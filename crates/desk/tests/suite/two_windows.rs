//! The same case in two windows: what the other one stores is shown where nothing is being done here, and told
//! where something is.

use crate::support::{Bench, HARD_AND_SHALLOW, click, demo, harness, light, measuring_room, texts};
use chrono::NaiveDate;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::Draft;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::signing::SheetNumber;
use millrace_desk::exchange::{
    Answer, Conflict, Newer, Planned, Request, Revision, SheetRow, Standing,
};

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
        by: measuring_room("B. Sato"),
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

const CHANGED: &str = "Changed by B. Sato (measuring room), 24 Nov 2026, 10:42: Lens, target \u{2212}0.30 D → \u{2212}1.00 D";

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
    assert!(is_said(
        &harness,
        "B. Sato (measuring room) stored this case anew"
    ));
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

/// The demo case as two people changed it: the length by both, the target by the other one, a technique here and
/// the lens thickness there.
fn apart() -> (Draft, Draft) {
    let (mut mine, mut theirs) = (demo(HARD_AND_SHALLOW), theirs());
    let length = |draft: &mut Draft, by: &str| {
        let length = draft.eyes.right.axial_length.as_mut().unwrap();
        length.by = Some(by.to_owned());
    };
    length(&mut mine, "A. Okafor");
    length(&mut theirs, "B. Sato");
    mine.theatre.technique = vec!["Ring first".to_owned()];
    theirs.eyes.right.lens_thickness = None;
    (mine, theirs)
}

fn in_conflict(mine: Draft, theirs: &Draft) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![mine], light());
    bench.open(0);
    let case = bench.cases[0].0.clone();
    let conflict = Conflict {
        revision: Revision("elsewhere".to_owned()),
        base: Some(Box::new(demo(HARD_AND_SHALLOW))),
        theirs: Box::new(theirs.clone()),
        by: measuring_room("B. Sato"),
    };
    bench.desk.accept(Answer::Conflict { case, conflict });
    harness(bench, HIGH)
}

fn may_save(harness: &Harness<'_, Bench>) -> bool {
    let button = harness.get_by_label("Save these");
    !button.accesskit_node().is_disabled()
}

#[test]
fn a_conflict_is_settled_value_by_value_by_an_act() {
    let (mine, theirs) = apart();
    let mut harness = in_conflict(mine.clone(), &theirs);
    let length = "Right eye, axial length, by";
    let theirs_of = |name: &str, value: &str| format!("{name} – B. Sato (measuring room): {value}");
    // What one of them alone entered is listed, and nobody has to choose.
    assert!(is_said(
        &harness,
        "Ring first, changed by you alone and taken"
    ));
    assert!(is_said(
        &harness,
        "changed by B. Sato (measuring room) alone and taken"
    ));
    assert!(!may_save(&harness));
    click(
        &mut harness,
        &format!("{length} – A. Okafor, here (room-2): A. Okafor"),
    );
    assert!(!may_save(&harness), "the lens is a decision");
    click(&mut harness, &theirs_of("Lens, target", "\u{2212}1.00 D"));
    assert_eq!(
        *harness.state().draft(),
        mine,
        "nothing is taken before the act"
    );
    assert!(may_save(&harness));
    click(&mut harness, "Save these");
    let made = harness.state().draft().clone();
    assert_eq!(made.lens, theirs.lens);
    assert_eq!(made.eyes.right.axial_length, mine.eyes.right.axial_length);
    assert_eq!(made.eyes.right.lens_thickness, None);
    assert_eq!(made.theatre, mine.theatre);
    assert_eq!(saves(&harness), [Revision("elsewhere".to_owned())]);
    assert!(!is_said(&harness, "nothing was overwritten"));
    assert_eq!(harness.state().cases[0].2, made);
}

/// The eye is never put together with what was planned for the other one.
#[test]
fn another_eye_is_chosen_with_all_that_is_planned_for_it() {
    let mine = demo(HARD_AND_SHALLOW);
    let mut theirs = mine.clone();
    theirs.operation.eye = Some(millrace_core::biometry::Side::Left);
    theirs.lens = Draft::default().lens;
    let mut harness = in_conflict(mine.clone(), &theirs);
    assert!(!may_save(&harness), "although they alone changed it");
    let eye = "Operative eye, with all that is planned for it";
    click(&mut harness, &format!("{eye} – A. Okafor, here (room-2)"));
    click(&mut harness, "Save these");
    assert_eq!(*harness.state().draft(), mine);
    assert_eq!(saves(&harness), [Revision("elsewhere".to_owned())]);
}

#[test]
fn a_conflict_is_settled_by_keys_alone() {
    let (mine, theirs) = apart();
    let mut harness = in_conflict(mine, &theirs);
    let first = "Lens, target – B. Sato (measuring room): \u{2212}1.00 D";
    harness.get_by_label(first).focus();
    harness.run();
    harness.key_press(Key::Space);
    harness.run();
    let names = [
        "Right eye, axial length, by – A. Okafor, here (room-2): A. Okafor",
        "Right eye, axial length, by – B. Sato (measuring room): B. Sato",
    ];
    for name in names {
        harness.key_press(Key::Tab);
        harness.run();
        assert!(harness.get_by_label(name).is_focused(), "{name}");
    }
    harness.key_press(Key::Space);
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
    assert!(harness.get_by_label("Save these").is_focused());
    harness.key_press(Key::Enter);
    harness.run();
    let made = harness.state().draft();
    assert_eq!(made.lens, theirs.lens);
    assert_eq!(made.eyes.right.axial_length, theirs.eyes.right.axial_length);
    assert_eq!(made.theatre.technique, ["Ring first"]);
}

/// Typing ends with the click on the act, which then is about another draft than was chosen of: both stay.
#[test]
fn what_is_typed_while_choosing_is_chosen_too() {
    let (mut mine, theirs) = apart();
    mine.eyes = demo(HARD_AND_SHALLOW).eyes;
    let mut harness = in_conflict(mine.clone(), &theirs);
    assert!(is_said(
        &harness,
        "Right eye, axial length, by: B. Sato, changed by B. Sato (measuring room) alone and taken"
    ));
    click(
        &mut harness,
        "Lens, target – B. Sato (measuring room): \u{2212}1.00 D",
    );
    assert!(may_save(&harness));
    click(&mut harness, "Axial length");
    harness.get_by_label("Axial length").type_text("23.41");
    harness.step();
    click(&mut harness, "Save these");
    let draft = harness.state().draft();
    assert_ne!(draft.eyes.right.axial_length, mine.eyes.right.axial_length);
    assert_ne!(
        draft.eyes.right.axial_length,
        theirs.eyes.right.axial_length
    );
    assert_eq!(draft.lens, mine.lens);
    assert_eq!(saves(&harness), []);
    assert!(!may_save(&harness), "it is asked who is right");
    assert!(is_said(&harness, "Right eye, axial length"));
}
