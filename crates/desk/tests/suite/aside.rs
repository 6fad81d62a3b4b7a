//! Setting a case aside, and what is known of other cases of the same number or name.

use crate::signed::signed_sheet;
use crate::support::{
    Bench, HARD_AND_SHALLOW, click, date, demo, enter, fill, harness, light, texts,
};
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::{Command, Draft, SetAside, State, update};
use millrace_core::finding::{Doubt, OtherCase};
use millrace_desk::exchange::{CaseId, Request};
use millrace_desk::whereabouts::Page;

const HIGH: [f32; 2] = [1280.0, 2600.0];
const ACTS: &str = "Case, files, sheets…";
const REASON: &str = "Reason for setting aside";

fn open(draft: Draft) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], light());
    bench.open(0);
    let mut harness = harness(bench, HIGH);
    harness.state_mut().desk.show_page(Page::Biometry);
    harness.run();
    harness
}

fn is_said(harness: &Harness<'_, Bench>, text: &str) -> bool {
    texts(harness).iter().any(|said| said.contains(text))
}

fn aside(draft: &Draft) -> Draft {
    let said = SetAside {
        reason: Some("listed twice".to_owned()),
        by: "B. Second".to_owned(),
        on: date(2026, 11, 20),
    };
    update(draft, Command::SetAside(said)).unwrap()
}

/// One act, and one act back; in between no field takes anything.
#[test]
fn an_empty_case_is_discarded_and_brought_back() {
    let mut harness = open(Draft::default());
    click(&mut harness, ACTS);
    assert!(!is_said(&harness, "Set aside…"));
    click(&mut harness, "Discard this empty case");
    let stored = harness.state().draft().clone();
    assert_eq!(State::of(&stored), State::SetAside);
    assert!(is_said(&harness, "DISCARDED by A. Okafor"));
    enter(&mut harness, "Name", "Vane, Ida");
    assert_eq!(harness.state().draft(), &stored);
    click(&mut harness, "Bring back");
    assert_eq!(harness.state().draft(), &Draft::default());
    enter(&mut harness, "Name", "Vane, Ida");
    let name = harness.state().draft().patient.name.clone();
    assert_eq!(name.as_deref(), Some("Vane, Ida"));
    click(&mut harness, ACTS);
    assert!(!is_said(&harness, "Discard this empty case"));
}

/// Words in the field set nothing aside; nor does what leaves it.
#[test]
fn a_case_with_anything_in_it_is_set_aside_by_its_button_and_a_reason() {
    let before = demo(HARD_AND_SHALLOW);
    let mut harness = open(before.clone());
    click(&mut harness, ACTS);
    click(&mut harness, "Set aside…");
    let has_focus = harness.get_by_label(REASON).is_focused();
    assert!(has_focus, "the reason is where one types");
    fill(&mut harness, REASON, "only thinking");
    assert_eq!(harness.state().draft(), &before);
    click(&mut harness, REASON);
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().draft(), &before);
    click(&mut harness, "Go on planning it");
    assert!(!is_said(&harness, REASON));
    assert_eq!(harness.state().draft(), &before);

    click(&mut harness, ACTS);
    click(&mut harness, "Set aside…");
    harness.key_press(Key::Escape);
    harness.run();
    harness.run();
    assert!(!is_said(&harness, REASON), "Escape leaves the question");

    click(&mut harness, ACTS);
    click(&mut harness, "Set aside…");
    fill(&mut harness, REASON, "Operation is off");
    click(&mut harness, "Set this case aside");
    let said = harness.state().draft().set_aside.clone().unwrap();
    assert_eq!(said.reason.as_deref(), Some("Operation is off"));
    assert_eq!(said.by, "A. Okafor");
    assert!(is_said(&harness, "SET ASIDE by A. Okafor"));
    assert!(
        is_said(&harness, "Case is set aside"),
        "a Stop among the findings"
    );
    click(&mut harness, "Bring back");
    assert_eq!(harness.state().draft(), &before);
}

/// What theatre holds in its hands is not put away behind its back.
#[test]
fn a_signed_case_is_not_set_aside_until_its_plan_is_to_be_changed() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.sheets = vec![signed_sheet(&demo(HARD_AND_SHALLOW))];
    bench.open(0);
    let mut harness = harness(bench, HIGH);
    harness.run();
    click(&mut harness, ACTS);
    assert!(!is_said(&harness, "Set aside…"));
    click(&mut harness, "Change the plan…");
    click(&mut harness, "Change the plan");
    assert!(is_said(&harness, "Set aside…"));
}

#[test]
fn what_is_set_aside_leaves_the_list_and_is_found_in_its_own() {
    let planned = demo(HARD_AND_SHALLOW);
    let mut put_away = planned.clone();
    put_away.patient.name = Some("Vane, Ida".to_owned());
    let bench = Bench::new(vec![planned, aside(&put_away)], light());
    let mut harness = harness(bench, [1280.0, 820.0]);
    harness.run();
    let lists = |harness: &Harness<'_, Bench>, name: &str| {
        let row = format!("{name}, ");
        let mut rows = harness.query_all_by_role(Role::ListBoxOption);
        rows.any(|it| {
            let label = it.accesskit_node().label();
            label.is_some_and(|label| label.starts_with(&row))
        })
    };
    assert!(lists(&harness, "Okonjo, Adaeze"));
    assert!(!lists(&harness, "Vane, Ida"));
    click(&mut harness, "Set aside (1)…");
    harness.run();
    assert!(lists(&harness, "Vane, Ida"));
    assert!(!lists(&harness, "Okonjo, Adaeze"));
    assert!(is_said(&harness, "set aside"));
    click(&mut harness, "Back to the theatre list");
    harness.run();
    assert!(lists(&harness, "Okonjo, Adaeze"));
    harness.get_by_label("Search name or number").focus();
    harness
        .get_by_label("Search name or number")
        .type_text("vane");
    harness.run();
    harness.run();
    assert!(lists(&harness, "Vane, Ida"), "a search finds both");
}

fn other() -> Vec<OtherCase> {
    vec![OtherCase {
        case: "1".to_owned(),
        doubt: Doubt::NumberOfAnother,
    }]
}

/// While the number is typed nothing is known; with the save that follows it stands beside the number and
/// among the findings, names the other case and opens it.
#[test]
fn a_number_of_another_patient_is_a_review_at_entry() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW), Draft::default()], light());
    bench.open(0);
    bench.desk.show_page(Page::Biometry);
    let mut harness = harness(bench, HIGH);
    harness.run();
    assert!(!is_said(&harness, "Patient may be another one"));
    click(&mut harness, "Patient and operation");
    harness.state_mut().others = other();
    enter(&mut harness, "Hospital number", "40-2292");
    harness.run();
    assert_eq!(harness.state().draft().other_cases, other());
    let told = "Case 1 has this hospital number and another name or birth date";
    let beside_and_found = texts(&harness)
        .iter()
        .filter(|it| it.contains(told))
        .count();
    assert_eq!(beside_and_found, 2, "at the field and among the findings");
    let before = harness.state().told.len();
    click(&mut harness, "Open case 1");
    let opens = Request::OpenCase(CaseId("1".to_owned()));
    assert!(harness.state().told[before..].contains(&opens));
}

/// Also where no eye is chosen, so that no rule looks yet.
#[test]
fn a_new_case_says_so_at_its_number() {
    let mut harness = open(Draft::default());
    harness.state_mut().others = other();
    enter(&mut harness, "Hospital number", "40-2291");
    harness.run();
    assert!(is_said(&harness, "Case 1 has this hospital number"));
}

/// Its sheet stands as it was signed; the person is told.
#[test]
fn of_a_signed_case_it_is_only_told() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.sheets = vec![signed_sheet(&demo(HARD_AND_SHALLOW))];
    bench.others = other();
    bench.open(0);
    let mut harness = harness(bench, HIGH);
    harness.run();
    assert_eq!(harness.state().draft(), &demo(HARD_AND_SHALLOW));
    assert!(is_said(&harness, "Since this case was saved last: case 1"));
}
