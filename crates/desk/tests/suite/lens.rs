//! The Lens page, driven by the keyboard alone.

use crate::support::{Bench, HARD_AND_SHALLOW, click, demo, harness, light, texts};
use egui::{
    Event, Key, Modifiers, MouseWheelSource, MouseWheelUnit, PointerButton, TouchPhase, pos2, vec2,
};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::{Command, Draft};
use millrace_core::iol_power::Formula;
use millrace_core::quantity::{HundredthDiopters, Meridian};
use millrace_desk::session::Change;
use millrace_desk::whereabouts::Page;

const ASTIGMATIC: &str = include_str!("../../../../demo-data/cases/astigmatic-eye.ron");
const TALL: [f32; 2] = [1100.0, 2400.0];

fn lens_of(draft: Draft) -> egui_kittest::Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], light());
    bench.open(0);
    bench.desk.show_page(Page::Lens);
    let mut harness = harness(bench, TALL);
    harness.run();
    harness
}

fn power(hundredths: i32) -> HundredthDiopters {
    HundredthDiopters::new(hundredths)
}

#[test]
fn a_target_is_typed_with_a_comma_and_taken_once() {
    let mut harness = lens_of(demo(HARD_AND_SHALLOW));
    harness.get_by_label("Target").focus();
    harness.run();
    harness.get_by_label("Target").type_text("-0,75");
    harness.key_press(Key::Tab);
    harness.run();
    let draft = harness.state().draft();
    assert_eq!(draft.lens.target, Some(power(-75)));
    // A target typed anew is not consented to.
    assert_eq!(draft.lens.consented_target, Some(power(-30)));
    let undoes = harness.state().desk.session().unwrap().undoes();
    assert!(matches!(
        undoes,
        Some(Change::ByHand(command)) if matches!(**command, Command::SetTarget(_))
    ));
}

#[test]
fn what_is_no_refraction_stays_and_is_named() {
    let mut harness = lens_of(demo(HARD_AND_SHALLOW));
    harness.get_by_label("Target").focus();
    harness.run();
    harness.get_by_label("Target").type_text("plano");
    harness.key_press(Key::Tab);
    harness.run();
    assert_eq!(harness.state().draft().lens.target, Some(power(-30)));
    harness.get_by_label_contains("\"plano\" is not a number");
}

/// The demo's chosen power is +22.50 D; its ladder rises by half a diopter.
#[test]
fn up_and_down_choose_the_power() {
    let mut harness = lens_of(demo(HARD_AND_SHALLOW));
    harness.get_by_label("Lens power table").focus();
    harness.run();
    harness.key_press(Key::ArrowDown);
    harness.run();
    assert_eq!(harness.state().draft().lens.power(), Some(power(2_300)));
    harness.key_press(Key::ArrowUp);
    harness.run();
    harness.key_press(Key::ArrowUp);
    harness.run();
    assert_eq!(harness.state().draft().lens.power(), Some(power(2_200)));
}

#[test]
fn a_row_says_all_that_it_shows() {
    let harness = lens_of(demo(HARD_AND_SHALLOW));
    for part in [
        "+22.50 D, proposed, SRK/T \u{2212}0.49 D",
        "Haigis \u{2212}0.68 D",
        "SD 0.45 D",
        "1 % over +0.50 D as hyperopic",
    ] {
        harness.get_by(|node| {
            let words = node.label().unwrap_or_default();
            words.starts_with("+22.50 D") && words.contains(part)
        });
    }
}

const CHART: &str = "Chart of the predicted refraction by power";

/// The row's own words name the same mean; every range lies around it, the wider around the narrower.
#[test]
fn the_chart_says_what_it_shows() {
    let harness = lens_of(demo(HARD_AND_SHALLOW));
    let row = harness.get_by_label_contains("+22.50 D, proposed");
    let row = row.accesskit_node().label().unwrap();
    let (_, rest) = row.split_once("mean ").unwrap();
    let (mean, _) = rest.split_once(',').unwrap();
    let chart = harness.get_by_label(CHART).accesskit_node();
    let words = chart.description().unwrap();
    assert!(words.starts_with("Target \u{2212}0.30 D."), "{words}");
    let start = format!("+22.50 D: mean {mean}, 50 % from ");
    let (_, of_power) = words.split_once(&start).expect(&words);
    let (of_power, _) = of_power.split_once(". ").unwrap();
    let number = |text: &str| -> f64 {
        let plain = text.trim_end_matches(" D").replace('\u{2212}', "-");
        plain.parse().expect(text)
    };
    let mut inner = [number(mean), number(mean)];
    for (range, level) in of_power.split(" % from ").zip(["50", "80", "95"]) {
        let (range, _) = range.rsplit_once(", ").unwrap_or((range, ""));
        let (low, high) = range.split_once(" to ").expect(range);
        let outer = [number(low), number(high)];
        assert!(
            outer[0] < inner[0] && inner[1] < outer[1],
            "{level}: {words}"
        );
        inner = outer;
    }
    let budget = harness.get_by_label("Chart of what the spread is shared by");
    let words = budget.accesskit_node().description().unwrap();
    assert!(
        words.contains("Lens position (ELP) and all else 57 %"),
        "{words}"
    );
}

/// It lies over the table, which is still clicked and scrolled as if it were not there.
#[test]
fn the_chart_takes_no_click_and_no_wheel() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    bench.desk.show_page(Page::Lens);
    let mut harness = harness(bench, [1100.0, 900.0]);
    harness.run();
    let chart = harness.get_by_label(CHART).rect();
    let row = harness.get_by_label_contains("+22.00 D, SRK").rect();
    let over_both = pos2(chart.center().x, row.center().y);
    assert!(chart.contains(over_both) && row.contains(over_both));
    harness.hover_at(over_both);
    harness.run();
    for pressed in [true, false] {
        harness.event(Event::PointerButton {
            pos: over_both,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        });
        harness.run();
    }
    assert_eq!(harness.state().draft().lens.power(), Some(power(2_200)));
    harness.event(Event::MouseWheel {
        unit: MouseWheelUnit::Point,
        delta: vec2(0.0, -78.0),
        phase: TouchPhase::Move,
        source: MouseWheelSource::Wheel,
        modifiers: Modifiers::NONE,
    });
    harness.run();
    // The lines go by under the chart, which stays where it is.
    let after = harness.get_by_label_contains("+22.00 D, SRK").rect();
    assert!(after.top() < row.top() - 50.0, "{row} {after}");
    assert_eq!(harness.get_by_label(CHART).rect(), chart);
}

/// The demo has chosen +2.40 D at 82°; its lens is made in steps of 0.80 D.
#[test]
fn cylinder_and_axis_are_chosen_by_the_keyboard() {
    let mut harness = lens_of(demo(ASTIGMATIC));
    harness.get_by_label("Cylinder of the lens").focus();
    harness.run();
    harness.key_press(Key::ArrowDown);
    harness.run();
    let chosen = harness.state().draft().lens.toric().unwrap();
    assert_eq!(chosen.cylinder, power(320));
    harness.get_by_label("Axis").focus();
    harness.run();
    harness.get_by_label("Axis").type_text("95");
    harness.key_press(Key::Enter);
    harness.run();
    let chosen = harness.state().draft().lens.toric().unwrap();
    assert_eq!(chosen.axis, Meridian::new(95).unwrap());
    assert_eq!(chosen.cylinder, power(320));
}

/// In the demo's eye +3.20 D leaves least and overcorrects, +2.40 D leaves least without: both are proposed, and
/// neither is a finding. +1.60 D, a step further down, is one.
#[test]
fn both_proposed_cylinders_are_told_and_need_no_reason() {
    const FINDING: &str = "Another cylinder was chosen than those proposed";
    let mut harness = lens_of(demo(ASTIGMATIC));
    for name in [
        "+2.40 D at 82°, proposed, leaves least without overcorrecting, leaves ",
        "+3.20 D at 82°, proposed, leaves least, overcorrects, leaves ",
        "+1.60 D at 82°, leaves ",
    ] {
        harness.get_by_label_contains(name);
    }
    harness.get_by_label("Cylinder of the lens").focus();
    harness.run();
    for (key, cylinder, is_finding) in [
        (None, 240, false),
        (Some(Key::ArrowDown), 320, false),
        (Some(Key::ArrowDown), 400, true),
        (Some(Key::ArrowUp), 320, false),
        (Some(Key::ArrowUp), 240, false),
        (Some(Key::ArrowUp), 160, true),
    ] {
        if let Some(key) = key {
            harness.key_press(key);
            harness.run();
        }
        let chosen = harness.state().draft().lens.toric().unwrap();
        assert_eq!(chosen.cylinder, power(cylinder));
        let found = texts(&harness).iter().any(|text| text.contains(FINDING));
        assert_eq!(found, is_finding, "{cylinder}");
    }
}

#[test]
fn nothing_is_computed_of_a_blank_case_and_it_is_said() {
    let harness = lens_of(Draft::default());
    harness.get_by_label_contains("nothing is computed before it is");
}

#[test]
fn another_formula_marks_other_proposals() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.lens.formula = Some(Formula::Haigis);
    let harness = lens_of(draft);
    harness.get_by_label_contains("+22.00 D, proposed, ");
}

/// The line is no place where a difference can be overlooked.
#[test]
fn a_target_that_was_not_consented_to_is_pinned_as_such() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.lens.consented_target = Some(power(-75));
    let harness = lens_of(draft.clone());
    harness.get_by_label("Target \u{2212}0.30 D, consented \u{2212}0.75 D");
    draft.lens.consented_target = None;
    let harness = lens_of(draft);
    harness.get_by_label("Target \u{2212}0.30 D, consent not recorded");
}

/// What a formula is, and how sure a prediction is, is read in the window, where its subject is shown.
#[test]
fn texts_of_reference_open_in_front_of_the_page() {
    let mut harness = lens_of(demo(HARD_AND_SHALLOW));
    let said = |harness: &egui_kittest::Harness<'_, Bench>, text: &str| {
        texts(harness).iter().any(|it| it.contains(text))
    };
    for (button, told) in [
        ("About SRK/T…", "SRK/T (srk_t)"),
        (
            "How sure: the whole model…",
            "The plan states for it a mean",
        ),
    ] {
        assert!(!said(&harness, told), "{told}");
        click(&mut harness, button);
        assert!(said(&harness, told), "{told}");
        harness.key_press(Key::Escape);
        harness.run();
        assert!(!said(&harness, told), "{told}");
    }
    // It is read: the case is what it was.
    assert_eq!(harness.state().draft(), &demo(HARD_AND_SHALLOW));
}
