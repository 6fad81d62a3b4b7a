//! Pictures of every page, compared with what was looked at and accepted.

use crate::support::{Bench, HARD_AND_SHALLOW, SMALLEST, demo, harness, light, settings};
use egui_kittest::kittest::Queryable as _;
use millrace_core::case::Draft;
use millrace_desk::settings::{Settings, ThemeChoice};
use millrace_desk::whereabouts::Page;

fn picture(name: &str, drafts: Vec<Draft>, settings: Settings) {
    let mut bench = Bench::new(drafts, settings);
    if !bench.cases.is_empty() {
        bench.open(0);
    }
    let mut harness = harness(bench, SMALLEST);
    harness.run();
    harness.snapshot(name);
}

#[test]
fn biometry_in_light() {
    picture("biometry_light", vec![demo(HARD_AND_SHALLOW)], light());
}

#[test]
fn biometry_in_dark() {
    let dark = settings(ThemeChoice::Dark, 100);
    picture("biometry_dark", vec![demo(HARD_AND_SHALLOW)], dark);
}

#[test]
fn biometry_with_text_twice_as_large() {
    let large = settings(ThemeChoice::Light, 200);
    picture("biometry_200", vec![demo(HARD_AND_SHALLOW)], large);
}

#[test]
fn the_fellow_eye_turns_the_page_around() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    let mut harness = harness(bench, [1280.0, 900.0]);
    harness.get_by_label("Edit the left eye…").click();
    harness.run();
    harness.snapshot("biometry_fellow");
}

#[test]
fn nothing_entered() {
    picture("nothing_entered", vec![Draft::default()], light());
}

#[test]
fn first_run() {
    picture("first_run", Vec::new(), light());
}

fn long() -> Draft {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.patient.name = Some(
        "Wolffenbüttel-Ångströmsdóttir y Fernández de la Reguera, Maximiliane Theodora Wilhelmina"
            .to_owned(),
    );
    draft.patient.number = Some("QH-2026-0000-4471-5520-8813/B".to_owned());
    draft
}

#[test]
fn long_names() {
    picture("long_names", vec![long()], light());
}

#[test]
fn long_names_with_text_twice_as_large() {
    let large = settings(ThemeChoice::Dark, 200);
    picture("long_names_200", vec![long()], large);
}

#[test]
fn a_place_that_is_not_there_yet_says_so() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    bench.desk.show_page(Page::Outcome);
    let harness = harness(bench, SMALLEST);
    harness.get_by_label(
        "Refraction, acuity and cornea after the operation come with the next release",
    );
}
