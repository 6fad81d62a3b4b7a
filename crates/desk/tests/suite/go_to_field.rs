//! From a finding to the field it is about, and back by the mark beside it.

use crate::support::{Bench, click, demo, harness, light, texts};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::Draft;
use millrace_core::lens::Place;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::rules::Severity;
use millrace_desk::whereabouts::Page;
use millrace_wording::Words;

/// The sheet's case in which as many rules find something as can at once, and the demo's.
const CASES: &[&str] = &[
    include_str!("../../../sheet/tests/suite/support/everything-found.ron"),
    include_str!("../../../../demo-data/cases/hard-and-shallow.ron"),
    include_str!("../../../../demo-data/cases/astigmatic-eye.ron"),
    include_str!("../../../../demo-data/cases/low-endothelium.ron"),
];

/// High enough that every finding is in sight.
const HIGH: [f32; 2] = [1280.0, 16_000.0];

fn open(draft: Draft, page: Page) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], light());
    bench.open(0);
    let mut harness = harness(bench, HIGH);
    harness.state_mut().desk.show_page(page);
    harness.run();
    harness
}

/// What has the focus, by its name.
fn focused(harness: &Harness<'_, Bench>) -> Option<String> {
    let nodes = harness.root().children_recursive();
    let mut focused = nodes.filter(egui_kittest::Node::is_focused);
    focused.next()?.accesskit_node().label()
}

/// Each finding that names a field leads to it from any page, and the field is there.
#[test]
fn a_finding_leads_to_its_field() {
    let mut followed = 0;
    for case in CASES {
        let draft = demo(case);
        let plan = Plan::of(&draft, Limits::shipped()).unwrap();
        let all = [Severity::Stop, Severity::Review, Severity::Note];
        let found = all.into_iter().flat_map(|severity| plan.findings(severity));
        let mut harness = open(draft.clone(), Page::Outcome);
        let leads = texts(&harness);
        for evaluated in found.filter(|it| it.backup.is_none()) {
            if !leads.contains(&format!("Go to the field, {}", evaluated.rule.id)) {
                continue;
            }
            let id = evaluated.rule.id;
            harness.state_mut().desk.show_page(Page::Outcome);
            harness.run();
            click(&mut harness, &format!("Go to the field, {id}"));
            harness.run();
            let name = focused(&harness).unwrap_or_else(|| panic!("{id}: nothing has the focus"));
            assert!(
                name != "Outcome" && !name.starts_with("Go to"),
                "{id} leads to {name}"
            );
            followed += 1;
        }
    }
    assert!(30 <= followed, "{followed}");
}

#[test]
fn the_field_of_an_open_finding_is_marked_and_says_what_is_found() {
    let mut draft = demo(CASES[1]);
    let eye = &mut draft.eyes.right;
    eye.axial_length = eye.axial_length.take().map(|mut length| {
        length.value = "31.00 mm".parse().unwrap();
        length
    });
    let harness = open(draft.clone(), Page::Biometry);
    let described = |harness: &Harness<'_, Bench>| {
        let field = harness.get_by_label("Axial length");
        field.accesskit_node().description().unwrap_or_default()
    };
    assert!(
        described(&harness).contains("Review: Axial length is unusual"),
        "{}",
        described(&harness)
    );
    let usual = open(demo(CASES[1]), Page::Biometry);
    assert!(!described(&usual).contains("unusual"));
    assert!(
        texts(&usual)
            .iter()
            .all(|it| !it.contains("Axial length is unusual"))
    );
}

/// What is found of a backup lens leads to the power of that lens, which theatre's page has.
#[test]
fn a_finding_of_a_backup_lens_leads_to_its_power() {
    let draft = demo(CASES[0]);
    let plan = Plan::of(&draft, Limits::shipped()).unwrap();
    let all = [Severity::Stop, Severity::Review, Severity::Note];
    let found = all.into_iter().flat_map(|severity| plan.findings(severity));
    let mut harness = open(draft.clone(), Page::Outcome);
    let mut led_to = Vec::new();
    for evaluated in found {
        let Some(place) = evaluated.backup else {
            continue;
        };
        let id = millrace_wording::rules::id(Words::ENGLISH, evaluated.rule.id, Some(place));
        harness.state_mut().desk.show_page(Page::Outcome);
        harness.run();
        click(&mut harness, &format!("Go to the field, {id}"));
        harness.run();
        let name = focused(&harness).unwrap_or_else(|| panic!("{id}: nothing has the focus"));
        let meant = match place {
            Place::Bag => "bag",
            Place::Sulcus => "sulcus",
            Place::AnteriorChamber => "nterior chamber",
        };
        assert!(
            name.contains(meant) && name.contains("ower"),
            "{id} leads to {name}"
        );
        led_to.push(place);
    }
    assert!(!led_to.is_empty());
}
