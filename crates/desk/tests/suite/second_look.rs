//! A second look is blind until it is whole; then both stand side by side.

use crate::support::{
    Bench, HARD_AND_SHALLOW, click, demo, enter, harness, light, measuring_room, texts,
};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::case::Critical;
use millrace_core::case::second_look::differences;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::rules::Verdict;
use millrace_desk::exchange::{Answer, Conflict, Revision};

const TALL: [f32; 2] = [1100.0, 1400.0];

fn looking() -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    let mut harness = harness(bench, TALL);
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::L);
    harness.run();
    harness
}

/// The numbers of the demo case, as its file has them, but for the axial length: two digits are
/// exchanged.
fn fill(harness: &mut Harness<'static, Bench>) {
    enter(harness, "Your name", "B. Second");
    enter(harness, "Hospital number", "40-2291");
    click(harness, "Operative eye, Right eye");
    enter(harness, "Axial length", "22.48");
    click(harness, "Keratometry in, D");
    enter(harness, "Keratometric index", "1,3375");
    enter(harness, "Flat reading", "44.25");
    enter(harness, "Flat meridian", "10");
    enter(harness, "Steep reading", "45.00");
    enter(harness, "Steep meridian", "100");
    enter(harness, "Anterior chamber depth", "2.55");
    click(harness, "Anterior chamber depth from the, Epithelium");
    enter(harness, "Target", "-0.30");
}

#[test]
fn no_first_number_is_anywhere_while_the_second_is_entered() {
    let harness = looking();
    let all = texts(&harness);
    // Axial length, curvature, depth, thickness, target, number: as the file of the demo has them.
    let first = [
        "22.84",
        "44.25",
        "45.00",
        "2.55",
        "5.05",
        "0.30",
        "40-2291",
        "RIGHT EYE",
        "right eye",
        "Findings",
        "Theatre list",
    ];
    for number in first {
        let shown: Vec<_> = all.iter().filter(|text| text.contains(number)).collect();
        assert!(shown.is_empty(), "{number}: {shown:?}");
    }
    // Whose papers are wanted is said.
    assert!(all.iter().any(|text| text == "OKONJO, Adaeze"));
}

/// The same numbers are in sight on the page of the case: the test above can fail.
/// A change made elsewhere shows both values of every difference, so it waits until they may be seen.
#[test]
fn a_change_made_elsewhere_shows_no_number_before_the_second_look_is_done() {
    let mut harness = looking();
    let mut theirs = harness.state().draft().clone();
    theirs.lens.target = Some(HundredthDiopters::new(-100));
    let case = harness.state().cases[0].0.clone();
    harness.state_mut().desk.accept(Answer::Conflict {
        case,
        conflict: Conflict {
            revision: Revision("elsewhere".to_owned()),
            base: None,
            theirs: Box::new(theirs),
            by: measuring_room("B. Sato"),
        },
    });
    harness.run();
    let shown = |harness: &Harness<'static, Bench>, number: &str| {
        texts(harness).iter().any(|text| text.contains(number))
    };
    for number in ["\u{2212}0.30 D", "\u{2212}1.00 D"] {
        assert!(!shown(&harness, number), "{number}");
    }
    harness.get_by_label_contains("Not saved: changed elsewhere");
    // Left, it is there to be settled.
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::L);
    harness.run();
    for number in ["\u{2212}0.30 D", "\u{2212}1.00 D"] {
        assert!(shown(&harness, number), "{number}");
    }
}

#[test]
fn on_the_page_of_the_case_they_are_in_sight() {
    let mut harness = looking();
    click(&mut harness, "Leave without comparing");
    let all = texts(&harness);
    for number in ["22.84", "44.25", "40-2291", "RIGHT EYE", "Theatre list"] {
        assert!(all.iter().any(|text| text.contains(number)), "{number}");
    }
}

#[test]
fn an_exchanged_digit_is_shown_beside_the_first_and_asks_for_a_reason() {
    let mut harness = looking();
    fill(&mut harness);
    click(&mut harness, "Record and compare");
    let draft = harness.state().draft();
    let look = draft.second_look.as_ref().unwrap();
    assert_eq!(look.by, "B. Second");
    assert_eq!(look.on.to_string(), "2026-11-24");
    let found = differences(draft);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].what, Critical::AxialLength);
    let plan = harness.state().desk.session().unwrap().plan().unwrap();
    let rule = plan.rules.iter().find(|found| found.rule.id == "SL-01");
    assert!(matches!(rule.unwrap().verdict, Verdict::Finding(_)));
    let all = texts(&harness);
    for text in [
        "22.84 mm",
        "22.48 mm",
        "The two looks differ: axial length",
        "By B. Second, 24 Nov 2026",
        "RIGHT EYE",
    ] {
        assert!(all.iter().any(|shown| shown == text), "{text}");
    }
    assert_eq!(harness.state().cases[0].2, *harness.state().draft());
}

#[test]
fn what_is_not_whole_is_not_recorded_and_not_lost() {
    let mut harness = looking();
    enter(&mut harness, "Axial length", "22.48");
    assert!(
        texts(&harness).iter().any(
            |text| text.starts_with("Still missing: your name, hospital number, operative eye")
        )
    );
    click(&mut harness, "Record and compare");
    assert_eq!(harness.state().draft().second_look, None);
    // Undo belongs to the case, which is out of sight here.
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    harness.run();
    click(&mut harness, "Leave without comparing");
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::L);
    harness.run();
    assert!(texts(&harness).iter().any(|text| text == "22.48"));
}

/// Flat and steep exchanged is refused in the words of the core, and nothing is recorded.
#[test]
fn a_flat_meridian_that_is_the_steeper_one_is_refused() {
    let mut harness = looking();
    fill(&mut harness);
    enter(&mut harness, "Flat reading", "46.00");
    let why = "Not accepted: the flat meridian 46.00 D at 1.3375 has a shorter radius than the steep one 45.00 D at 1.3375";
    harness.get_by_label(why);
    click(&mut harness, "Record and compare");
    assert_eq!(harness.state().draft().second_look, None);
}
