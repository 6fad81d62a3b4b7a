//! The Approach page driven through the accessibility tree: what a person does arrives in the draft,
//! once.

use crate::support::{Bench, HARD_AND_SHALLOW, SMALLEST, demo, harness, light};
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _, by};
use millrace_core::biometry::Side;
use millrace_core::case::{Approach, ApproachPlan, Draft};
use millrace_core::chamber::{Nucleus, WorkingPlane};
use millrace_core::quantity::{Direction, HundredthDiopters, Micrometers};
use millrace_desk::exchange::Request;
use millrace_desk::whereabouts::Page;

fn on_page(draft: Draft) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], light());
    bench.open(0);
    bench.desk.show_page(Page::Approach);
    harness(bench, [SMALLEST[0], 2_500.0])
}

/// The demo case as it was measured, before anything was decided on this page.
fn undecided() -> Draft {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.approach = ApproachPlan::default();
    draft
}

fn plan(harness: &Harness<'_, Bench>) -> ApproachPlan {
    harness.state().draft().approach.clone()
}

/// How many changes were stored: each command that changed the draft is stored once.
fn saves(harness: &Harness<'_, Bench>) -> usize {
    let told = &harness.state().told;
    told.iter()
        .filter(|request| matches!(request, Request::Save(_)))
        .count()
}

fn enter(harness: &mut Harness<'_, Bench>, label: &str, text: &str) {
    harness.get_by_label(label).focus();
    harness.run();
    harness.get_by_label(label).type_text(text);
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
}

fn press(harness: &mut Harness<'_, Bench>, key: Key) {
    harness.key_press(key);
    harness.run();
}

fn mm(hundredths: i32) -> Micrometers {
    Micrometers::new(hundredths * 10)
}

#[test]
fn sics_is_chosen_with_one_arrow_key_and_never_by_way_of_the_other() {
    let mut harness = on_page(undecided());
    let choice = || by().role(Role::RadioGroup).label("Approach");
    harness.get(choice()).focus();
    harness.run();
    press(&mut harness, Key::ArrowRight);
    assert_eq!(plan(&harness).approach, Some(Approach::SmallIncision));
    assert_eq!(saves(&harness), 1);
    press(&mut harness, Key::ArrowLeft);
    assert_eq!(plan(&harness).approach, None);
    press(&mut harness, Key::ArrowLeft);
    assert_eq!(plan(&harness).approach, Some(Approach::Phacoemulsification));
    press(&mut harness, Key::ArrowLeft);
    assert_eq!(saves(&harness), 3);
}

#[test]
fn the_incision_is_typed_and_its_place_said_in_words() {
    let mut harness = on_page(undecided());
    enter(&mut harness, "Incision width", "2,4");
    enter(&mut harness, "Direction", "180");
    let found = plan(&harness);
    assert_eq!(found.incision_width, Some(mm(240)));
    assert_eq!(found.incision_direction, Direction::new(180).ok());
    assert_eq!(saves(&harness), 2);
    // ISO 8429: 180° is temporal in a right eye.
    harness.get_by_label("Temporal at 180°, ISO 8429 facing the patient");

    enter(&mut harness, "Direction", "361");
    assert_eq!(plan(&harness), found);
    harness.get_by_label_contains("Not accepted: direction 361°");
    harness.get_by_label("Direction").focus();
    harness.run();
    press(&mut harness, Key::Escape);

    enter(&mut harness, "Capsulorhexis", "5.5");
    assert_eq!(plan(&harness).capsulorhexis, Some(mm(550)));
    enter(&mut harness, "Capsulorhexis", " ");
    assert_eq!(plan(&harness).capsulorhexis, None);
    assert_eq!(saves(&harness), 4);
}

#[test]
fn pieces_are_chosen_by_arrow_keys_from_one_stop_of_the_tab_key() {
    let mut harness = on_page(demo(HARD_AND_SHALLOW));
    let choose = "Approach, Phacoemulsification";
    harness.get_by_label(choose).click();
    harness.run();
    harness.get_by_label("Number of pieces").focus();
    harness.run();
    press(&mut harness, Key::ArrowUp);
    assert_eq!(plan(&harness).pieces, Some(32));
    press(&mut harness, Key::ArrowUp);
    assert_eq!(plan(&harness).pieces, Some(24));
    press(&mut harness, Key::Home);
    assert_eq!(plan(&harness).pieces, Some(4));
    press(&mut harness, Key::ArrowUp);
    assert_eq!(plan(&harness).pieces, Some(4));
    // The approach and three numbers.
    assert_eq!(saves(&harness), 4);

    let stop = harness
        .get_by_label("Number of pieces")
        .accesskit_node()
        .id();
    press(&mut harness, Key::Tab);
    let clear = harness.get_by_label("Clear the number of pieces");
    assert!(clear.is_focused());
    assert_ne!(clear.accesskit_node().id(), stop);
    press(&mut harness, Key::Enter);
    assert_eq!(plan(&harness).pieces, None);
}

/// A row of the table is chosen, with the mouse too, at the plane that is chosen.
#[test]
fn a_row_is_chosen_with_the_mouse_and_says_its_margin_at_the_chosen_plane() {
    let mut harness = on_page(demo(HARD_AND_SHALLOW));
    harness
        .get_by_label("Approach, Phacoemulsification")
        .click();
    harness.run();
    harness.get_by_label_contains("No working plane is chosen");
    // Shallow and hard: at the pupil plane 16 pieces would on average need more depth.
    let row = "16 pieces, 8 sectors in 2 rings, on average";
    harness.get_by_label_contains(row).hover();
    harness.run();
    harness.get_by_label_contains(
        "16 pieces (8 sectors in 2 rings), only looked at, in the pupil plane",
    );
    assert_eq!(plan(&harness).pieces, None);
    harness.get_by_label_contains(row).click();
    harness.run();
    assert_eq!(plan(&harness).pieces, Some(16));
    harness.get_by_label_contains("16 pieces (8 sectors in 2 rings), chosen, in the pupil plane");
    assert_eq!(saves(&harness), 2);
    harness.get_by_label("Working plane, In the bag").click();
    harness.run();
    assert_eq!(plan(&harness).working_plane, Some(WorkingPlane::Bag));
    harness.get_by_label_contains("16 pieces (8 sectors in 2 rings), chosen, in the bag");
}

#[test]
fn a_nucleus_delivered_whole_is_not_divided_by_looking() {
    let mut harness = on_page(demo(HARD_AND_SHALLOW));
    harness.get_by_label_contains("SICS delivers the nucleus undivided");
    let table = "Number of pieces, to look at only";
    harness.get_by_label(table).focus();
    harness.run();
    press(&mut harness, Key::ArrowUp);
    assert_eq!(plan(&harness).pieces, None);
    assert_eq!(saves(&harness), 0);
    harness.get_by_label_contains("32 pieces (8 sectors in 2 rings and 2 layers), only looked at");
}

#[test]
fn the_nucleus_is_taken_whole_or_not_at_all() {
    let mut harness = on_page(undecided());
    enter(&mut harness, "Nucleus diameter", "8.2");
    assert_eq!(plan(&harness).nucleus, None);
    harness.get_by_label("Not saved yet: enter the thickness");
    enter(&mut harness, "Thickness", "4.2");
    let nucleus = Nucleus::new(mm(820), mm(420)).ok();
    assert_eq!(plan(&harness).nucleus, nucleus);
    assert_eq!(saves(&harness), 1);
    // 4.00 × 4.20 mm is thicker than wide: no nucleus stands while the fields say so.
    enter(&mut harness, "Nucleus diameter", "4");
    assert_eq!(plan(&harness).nucleus, None);
    harness
        .get_by_label_contains("Not saved yet: nucleus of 4.00 mm × 4.20 mm is thicker than wide");
    enter(&mut harness, "Nucleus diameter", "8.2");
    assert_eq!(plan(&harness).nucleus, nucleus);
}

#[test]
fn the_surgeons_figures_are_taken_whole_or_not_at_all() {
    let mut harness = on_page(undecided());
    let header = "Your own surgically induced astigmatism (SIA)";
    harness.get_by_label(header).click();
    harness.run();
    enter(&mut harness, "Flattening", "0.35");
    harness.get_by_label("Not saved yet: enter scatter, number of eyes");
    enter(&mut harness, "Number of eyes", "64");
    assert_eq!(saves(&harness), 0);
    harness.get_by_label("Not saved yet: enter scatter");
    enter(&mut harness, "Scatter (SD)", "0.40");
    let effect = plan(&harness).incision_effect.expect("all three are there");
    assert_eq!(effect.flattening(), HundredthDiopters::new(35));
    assert_eq!(effect.scatter(), HundredthDiopters::new(40));
    assert_eq!(effect.eyes(), 64);
    assert_eq!(saves(&harness), 1);
    enter(&mut harness, "Worked out on", "2026-05-01");
    assert!(
        plan(&harness)
            .incision_effect
            .is_some_and(|effect| effect.on().is_some())
    );

    enter(&mut harness, "Scatter (SD)", " ");
    assert_eq!(plan(&harness).incision_effect, None);
    harness.get_by_label("Not saved yet: enter scatter");
    // Figures of no approach in particular serve the first one chosen; not the other one after it.
    harness
        .get_by_label("Approach, Phacoemulsification")
        .click();
    harness.run();
    harness.get_by_label("Not saved yet: enter scatter");
    harness
        .get_by_label("Approach, Small incision (SICS)")
        .click();
    harness.run();
    assert!(
        harness
            .query_by_label("Not saved yet: enter scatter")
            .is_none()
    );
}

#[test]
fn without_an_eye_or_a_section_the_reason_stands_in_place_of_the_picture() {
    let mut draft = Draft::default();
    let harness = on_page(draft.clone());
    harness.get_by_label_contains("No picture: choose the operative eye");
    drop(harness);
    draft.operation.eye = Some(Side::Left);
    let harness = on_page(draft);
    harness.get_by_label("No picture: keratometry is missing");
    let unknown = "margin not known: keratometry is missing";
    for pieces in [4, 6, 8, 12, 16, 24, 32] {
        harness.get_by_label(&format!("{pieces} pieces, {unknown}"));
    }
    harness.get_by_label("Place not recorded");
}
