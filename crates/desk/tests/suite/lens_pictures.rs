//! Pictures of the Lens page, compared with what was looked at and accepted.

use crate::support::{Bench, HARD_AND_SHALLOW, SMALLEST, demo, harness, light, settings};
use millrace_core::case::Draft;
use millrace_core::iol_power::Formula;
use millrace_desk::settings::{Settings, ThemeChoice};
use millrace_desk::whereabouts::Page;
use millrace_wording::{DecimalSign, Words};

const ASTIGMATIC: &str = include_str!("../../../../demo-data/cases/astigmatic-eye.ron");

const OPERATED: &str = include_str!("../../../../demo-data/cases/after-myopic-surgery.ron");

const FIRST: [f32; 2] = [1280.0, 820.0];
/// Tall enough for the whole page.
const TALL: [f32; 2] = [1100.0, 2060.0];

fn picture(name: &str, case: &str, settings: Settings, size: [f32; 2]) {
    picture_of(name, demo(case), settings, size);
}

fn picture_of(name: &str, draft: Draft, settings: Settings, size: [f32; 2]) {
    let mut bench = Bench::new(vec![draft], settings);
    bench.open(0);
    bench.desk.show_page(Page::Lens);
    let mut harness = harness(bench, size);
    harness.run();
    harness.snapshot(name);
}

#[test]
fn lens_of_the_hard_eye() {
    picture("lens_light", HARD_AND_SHALLOW, light(), TALL);
}

#[test]
fn lens_of_the_hard_eye_in_the_dark() {
    let dark = settings(ThemeChoice::Dark, 100);
    picture("lens_dark", HARD_AND_SHALLOW, dark, SMALLEST);
}

#[test]
fn lens_of_the_astigmatic_eye() {
    picture("lens_toric", ASTIGMATIC, light(), [1440.0, 2100.0]);
}

#[test]
fn lens_at_twice_the_size() {
    let large = settings(ThemeChoice::Light, 200);
    picture("lens_200", HARD_AND_SHALLOW, large, [1100.0, 1440.0]);
}

/// The window as it first opens.
#[test]
fn lens_in_the_first_window() {
    picture("lens_first_light", HARD_AND_SHALLOW, light(), FIRST);
}

#[test]
fn lens_in_the_first_window_in_the_dark() {
    let dark = settings(ThemeChoice::Dark, 100);
    picture("lens_first_dark", ASTIGMATIC, dark, FIRST);
}

/// The smallest window with the largest letters.
#[test]
fn lens_in_the_smallest_window_at_twice_the_size() {
    let large = settings(ThemeChoice::Dark, 200);
    picture("lens_smallest_200", HARD_AND_SHALLOW, large, SMALLEST);
}

/// Formulas for untouched corneas are refused, one of them planned by.
#[test]
fn lens_by_a_refused_formula() {
    let mut draft = demo(OPERATED);
    draft.lens.formula = Some(Formula::SrkT);
    picture_of("lens_refused", draft, light(), FIRST);
}

/// Of an irregular cornea no range is stated, and nobody has chosen a formula.
#[test]
fn lens_of_which_no_range_is_stated() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.eyes.right.state.irregular_cornea = Some(true);
    draft.lens.formula = None;
    picture_of("lens_withheld", draft, light(), FIRST);
}

/// There is room to say in words which power is proposed.
#[test]
fn lens_in_a_wide_window_in_the_dark_with_commas() {
    let commas = Settings {
        words: Words {
            decimals: DecimalSign::Comma,
            ..Words::ENGLISH
        },
        ..settings(ThemeChoice::Dark, 100)
    };
    picture("lens_wide", HARD_AND_SHALLOW, commas, [1920.0, 1080.0]);
}
