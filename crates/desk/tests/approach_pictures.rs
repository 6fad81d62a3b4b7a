//! Pictures of the Approach page, compared with what was looked at and accepted. The windows are
//! higher than a screen, so that the whole page is in sight.

mod support;

use egui_kittest::Harness;
use millrace_core::biometry::Side;
use millrace_core::case::Draft;
use millrace_desk::pages::Page;
use millrace_desk::settings::{Settings, ThemeChoice};
use support::{Bench, HARD_AND_SHALLOW, demo, harness, light, settings};

const HARD_JUST_ABOVE: &str =
    include_str!("../../../demo-data/cases/hard-just-above-the-limit.ron");

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
    approach(demo(HARD_AND_SHALLOW), light(), [1100.0, 2500.0]).snapshot("approach_shallow_light");
}

#[test]
fn shallow_in_dark() {
    approach(demo(HARD_AND_SHALLOW), dark(), [1440.0, 2000.0]).snapshot("approach_shallow_dark");
}

#[test]
fn just_above_the_limit_in_light() {
    approach(demo(HARD_JUST_ABOVE), light(), [1440.0, 2000.0]).snapshot("approach_above_light");
}

#[test]
fn just_above_the_limit_in_dark() {
    approach(demo(HARD_JUST_ABOVE), dark(), [1100.0, 2500.0]).snapshot("approach_above_dark");
}

#[test]
fn at_twice_the_size() {
    let twice = settings(ThemeChoice::Light, 200);
    approach(demo(HARD_JUST_ABOVE), twice, [1100.0, 4200.0]).snapshot("approach_above_200");
}

#[test]
fn with_nothing_entered() {
    let mut draft = Draft::default();
    draft.operation.eye = Some(Side::Left);
    approach(draft, light(), [1100.0, 2400.0]).snapshot("approach_blank");
}
