//! Pictures of the settings and of the second look, compared with what was looked at and accepted.

use crate::support::{Bench, HARD_AND_SHALLOW, SMALLEST, date, demo, harness, light, settings};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::biometry::Side;
use millrace_core::case::{Draft, SecondLook};
use millrace_desk::settings::{Settings, ThemeChoice};
use millrace_wording::{DecimalSign, Words};

/// Room to see more than the head of a page with text twice as large.
const TALL: [f32; 2] = [1100.0, 1700.0];

fn shown(settings: Settings, draft: Draft, part: Option<&str>) -> Harness<'static, Bench> {
    let is_large = 100 < settings.text_size.percent();
    let size = if is_large { TALL } else { SMALLEST };
    let mut bench = Bench::new(vec![draft], settings);
    bench.open(0);
    let mut harness = harness(bench, size);
    let Some(part) = part else {
        harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::L);
        harness.run();
        return harness;
    };
    harness.get_by_label("Settings").click();
    harness.run();
    let label = format!("Part of the settings, {part}");
    harness.get_by_label(&label).click();
    harness.run();
    harness
}

fn case() -> Draft {
    demo(HARD_AND_SHALLOW)
}

/// As the case, but for the axial length and the flat meridian.
fn looked_at() -> Draft {
    let mut draft = case();
    let eye = draft.eyes.get(Side::Right);
    let keratometry = &eye.keratometry.as_ref().unwrap().value;
    let mut flat = keratometry.flat;
    flat.meridian = millrace_core::quantity::Meridian::new(100).unwrap();
    draft.second_look = Some(SecondLook {
        by: "B. Second".to_owned(),
        on: date(2026, 11, 24),
        number: "40-2291".to_owned(),
        eye: Side::Right,
        axial_length: "22.48 mm".parse().unwrap(),
        flat,
        steep: keratometry.steep,
        chamber_depth: eye.chamber_depth.as_ref().map(|depth| depth.value),
        lens_thickness: None,
        target: draft.lens.target,
    });
    draft
}

fn dark_with_comma() -> Settings {
    Settings {
        words: Words {
            decimals: DecimalSign::Comma,
            ..Words::ENGLISH
        },
        ..settings(ThemeChoice::Dark, 100)
    }
}

fn large(theme: ThemeChoice) -> Settings {
    settings(theme, 200)
}

#[test]
fn at_the_desk() {
    shown(light(), case(), Some("At the desk")).snapshot("settings_at_the_desk_light");
}

#[test]
fn own_ways() {
    shown(dark_with_comma(), case(), Some("My preferences")).snapshot("settings_own_ways_dark");
}

#[test]
fn own_ways_twice_as_large() {
    let large = large(ThemeChoice::Light);
    shown(large, case(), Some("My preferences")).snapshot("settings_own_ways_200");
}

#[test]
fn limits() {
    let mut harness = shown(light(), case(), Some("Limits"));
    change_a_limit(&mut harness);
    harness.snapshot("settings_limits_light");
}

#[test]
fn limits_in_dark_with_a_comma() {
    let mut harness = shown(dark_with_comma(), case(), Some("Limits"));
    change_a_limit(&mut harness);
    harness.snapshot("settings_limits_dark_comma");
}

#[test]
fn limits_twice_as_large() {
    let mut harness = shown(large(ThemeChoice::Light), case(), Some("Limits"));
    change_a_limit(&mut harness);
    harness.snapshot("settings_limits_200");
}

#[test]
fn second_look_being_taken() {
    shown(light(), case(), None).snapshot("second_look_form_light");
}

#[test]
fn second_look_being_taken_twice_as_large() {
    shown(large(ThemeChoice::Dark), case(), None).snapshot("second_look_form_dark_200");
}

#[test]
fn second_look_compared() {
    shown(light(), looked_at(), None).snapshot("second_look_light");
}

#[test]
fn second_look_compared_in_dark() {
    shown(dark_with_comma(), looked_at(), None).snapshot("second_look_dark");
}

#[test]
fn second_look_compared_twice_as_large() {
    shown(large(ThemeChoice::Light), looked_at(), None).snapshot("second_look_200");
}

#[test]
fn lens_records() {
    shown(light(), case(), Some("Lens records")).snapshot("settings_lenses_light");
}

#[test]
fn a_lens_record() {
    in_the_form(light(), "Change… Weir one-piece", 1320.0).snapshot("settings_lens_form_light");
}

#[test]
fn a_toric_lens_record_twice_as_large() {
    let dark = large(ThemeChoice::Dark);
    in_the_form(dark, "Change… Headrace toric", 2760.0).snapshot("settings_lens_form_dark_200");
}

fn in_the_form(settings: Settings, record: &str, height: f32) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![case()], settings);
    bench.open(0);
    let mut harness = harness(bench, [1100.0, height]);
    let part = "Part of the settings, Lens records";
    for label in ["Settings", part, record, "Add a result"] {
        harness.get_by_label(label).click();
        harness.run();
    }
    harness
}

fn change_a_limit(harness: &mut Harness<'static, Bench>) {
    let field = "Longest axial length that passes";
    let find = |harness: &Harness<'static, Bench>| {
        harness
            .get_by_role_and_label(egui::accesskit::Role::TextInput, field)
            .click();
    };
    find(harness);
    harness.run();
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
    harness.run();
    harness
        .get_by_role_and_label(egui::accesskit::Role::TextInput, field)
        .type_text("27.00");
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
}
