//! Pictures of the Approach page, compared with what was looked at and accepted. The windows are
//! higher than a screen, so that the whole page is in sight.

use crate::support::{Bench, HARD_AND_SHALLOW, date, demo, harness, light, settings};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::biometry::{AnteriorChamberDepth, Side};
use millrace_core::case::{Approach, Draft};
use millrace_core::chamber::Nucleus;
use millrace_core::limits::{Limits, SHIPPED_TEXT};
use millrace_core::quantity::Micrometers;
use millrace_desk::desk::Desk;
use millrace_desk::exchange::{Keeps, Surroundings};
use millrace_desk::settings::{Settings, ThemeChoice};
use millrace_desk::whereabouts::Page;

const HARD_JUST_ABOVE: &str =
    include_str!("../../../../demo-data/cases/hard-just-above-the-limit.ron");

fn approach(draft: Draft, settings: Settings, size: [f32; 2]) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], settings);
    bench.open(0);
    bench.desk.show_page(Page::Approach);
    harness(bench, size)
}

fn dark() -> Settings {
    settings(ThemeChoice::Dark, 100)
}

#[test]
fn shallow_in_light() {
    approach(demo(HARD_AND_SHALLOW), light(), [1100.0, 3100.0]).snapshot("approach_shallow_light");
}

#[test]
fn shallow_in_dark() {
    approach(demo(HARD_AND_SHALLOW), dark(), [1440.0, 2700.0]).snapshot("approach_shallow_dark");
}

#[test]
fn just_above_the_limit_in_light() {
    approach(demo(HARD_JUST_ABOVE), light(), [1440.0, 2700.0]).snapshot("approach_above_light");
}

#[test]
fn just_above_the_limit_in_dark() {
    approach(demo(HARD_JUST_ABOVE), dark(), [1100.0, 3100.0]).snapshot("approach_above_dark");
}

#[test]
fn at_twice_the_size() {
    let twice = settings(ThemeChoice::Light, 200);
    approach(demo(HARD_JUST_ABOVE), twice, [550.0, 3700.0]).snapshot("approach_above_200");
}

/// A piece that reaches into the cornea, the table with the focus, figures partly entered.
#[test]
fn a_piece_that_touches() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.approach.approach = Some(Approach::Phacoemulsification);
    draft.approach.pieces = Some(4);
    let mut harness = approach(draft, light(), [1100.0, 1200.0]);
    let header = "Your own surgically induced astigmatism (SIA)";
    harness.get_by_label(header).click();
    harness.run();
    harness.get_by_label("Flattening").focus();
    harness.run();
    harness.get_by_label("Flattening").type_text("0.35");
    harness.run();
    harness.get_by_label("Number of pieces").focus();
    harness.run();
    harness.snapshot("approach_touches");
}

/// Depth from the endothelium, neither pupil nor lens nor corneal diameter measured, a small nucleus.
#[test]
fn little_measured_of_a_deep_eye() {
    let mut draft = demo(HARD_JUST_ABOVE);
    let eye = &mut draft.eyes.right;
    (eye.pupil, eye.corneal_diameter) = (None, None);
    let depth = eye.chamber_depth.as_mut().expect("the demo has a depth");
    depth.value.depth = AnteriorChamberDepth::new(Micrometers::new(4_100)).expect("a depth");
    let [diameter, thickness] = [3_500, 1_800].map(Micrometers::new);
    draft.approach.nucleus = Nucleus::new(diameter, thickness).ok();
    let mut bench = Bench::new(vec![draft], dark());
    let text = SHIPPED_TEXT.replace(
        "chamber_depth_start: \"epithelium\"",
        "chamber_depth_start: \"endothelium\"",
    );
    assert_ne!(text, SHIPPED_TEXT);
    let around = Surroundings {
        today: date(2026, 11, 24),
        limits: Limits::parse(&text).expect("the shipped limits with one change"),
        lenses: Vec::new(),
        keeps: Keeps::Everything,
        computer: "room-2".to_owned(),
    };
    bench.desk = Desk::new(around, dark());
    bench.open(0);
    bench.desk.show_page(Page::Approach);
    harness(bench, [1100.0, 900.0]).snapshot("approach_deep");
}

#[test]
fn with_nothing_entered() {
    let mut draft = Draft::default();
    draft.operation.eye = Some(Side::Left);
    approach(draft, light(), [1100.0, 2400.0]).snapshot("approach_blank");
}
