//! Pictures of the Lens page, compared with what was looked at and accepted.

use crate::support::{Bench, HARD_AND_SHALLOW, SMALLEST, demo, harness, light, settings};
use millrace_desk::settings::{Settings, ThemeChoice};
use millrace_desk::whereabouts::Page;
use millrace_wording::{DecimalSign, Words};

const ASTIGMATIC: &str = include_str!("../../../../demo-data/cases/astigmatic-eye.ron");

/// Tall enough for the whole page.
const TALL: [f32; 2] = [1100.0, 2060.0];

fn picture(name: &str, case: &str, settings: Settings, size: [f32; 2]) {
    let mut bench = Bench::new(vec![demo(case)], settings);
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

/// There is room for the chart beside the predictions.
#[test]
fn lens_in_a_wide_window_in_the_dark_with_commas() {
    let commas = Settings {
        words: Words {
            decimals: DecimalSign::Comma,
            ..Words::ENGLISH
        },
        ..settings(ThemeChoice::Dark, 100)
    };
    picture("lens_wide", HARD_AND_SHALLOW, commas, [1920.0, 1160.0]);
}
