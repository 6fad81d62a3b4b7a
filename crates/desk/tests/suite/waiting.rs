//! What stands in a field and is not accepted is not forgotten: not at the foot, not by a signature, not when
//! the case is left.

use crate::support::{Bench, HARD_AND_SHALLOW, click, demo, fill, harness, light, texts};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::case::Draft;
use millrace_desk::exchange::Request;
use millrace_desk::whereabouts::Page;

const HIGH: [f32; 2] = [1280.0, 2600.0];

fn open(draft: Draft) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft, demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    harness(bench, HIGH)
}

fn told(harness: &Harness<'_, Bench>, request: &Request) -> usize {
    let told = harness.state().told.iter();
    told.filter(|one| *one == request).count()
}

fn is_said(harness: &Harness<'_, Bench>, text: &str) -> bool {
    texts(harness).iter().any(|said| said.contains(text))
}

#[test]
fn a_refused_number_is_said_on_every_page_and_keeps_the_signature_back() {
    let mut harness = open(demo(HARD_AND_SHALLOW));
    harness.state_mut().desk.show_page(Page::Sheet);
    harness.run();
    harness.get_by_label("Nothing of the plan stands against its signature");
    harness.state_mut().desk.show_page(Page::Biometry);
    harness.run();
    fill(&mut harness, "Axial length", "2.284");
    harness.get_by_label("Not accepted, not saved: Axial length");
    harness.state_mut().desk.show_page(Page::Sheet);
    harness.run();
    harness.get_by_label("Not accepted, not saved: Axial length");
    harness.get_by_label("Before it can be signed");
    assert!(is_said(
        &harness,
        "Axial length is not accepted: axial length 2.284 mm is outside"
    ));
    fill(&mut harness, "Role", "surgeon");
    fill(&mut harness, "Consented target, again", "-0.30");
    click(&mut harness, "Sign this plan");
    let signed = harness.state().told.iter();
    assert_eq!(
        signed
            .filter(|request| matches!(request, Request::Sign(_)))
            .count(),
        0
    );

    click(&mut harness, "Restore what is recorded");
    assert!(!is_said(&harness, "Not accepted"));
    harness.get_by_label("Nothing of the plan stands against its signature");
}

#[test]
fn a_corrected_number_waits_no_longer() {
    let mut harness = open(demo(HARD_AND_SHALLOW));
    fill(&mut harness, "Axial length", "x");
    harness.get_by_label("Not accepted, not saved: Axial length");
    fill(&mut harness, "Axial length", "23.11");
    assert!(!is_said(&harness, "Not accepted"));
}

#[test]
fn keratometry_that_is_not_whole_waits_too() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.eyes.right.keratometry = None;
    let mut harness = open(draft);
    click(&mut harness, "Keratometry in, mm");
    fill(&mut harness, "Flat reading", "7.80");
    harness.get_by_label("Not accepted, not saved: Keratometry, right eye");
    harness.state_mut().desk.show_page(Page::Sheet);
    harness.run();
    assert!(is_said(
        &harness,
        "Keratometry, right eye is not accepted: not saved yet; still missing: the flat meridian"
    ));
}

#[test]
fn closing_tells_once_what_would_be_lost() {
    let mut harness = open(demo(HARD_AND_SHALLOW));
    fill(&mut harness, "Axial length", "x");
    harness.state_mut().desk.ask(Request::Quit);
    harness.run();
    assert_eq!(told(&harness, &Request::Quit), 0);
    assert!(is_said(
        &harness,
        "Not accepted, and so not saved: Axial length"
    ));
    // Another text is told of again.
    fill(&mut harness, "Lens thickness", "y");
    harness.state_mut().desk.ask(Request::Quit);
    harness.run();
    assert_eq!(told(&harness, &Request::Quit), 0);
    harness.state_mut().desk.ask(Request::Quit);
    harness.run();
    assert_eq!(told(&harness, &Request::Quit), 1);
}

/// Fields of another case say nothing of this one.
#[test]
fn what_waits_belongs_to_its_case() {
    let mut harness = open(demo(HARD_AND_SHALLOW));
    fill(&mut harness, "Axial length", "x");
    harness.state_mut().open(1);
    harness.run();
    assert!(!is_said(&harness, "Not accepted"));
    harness.state_mut().open(0);
    harness.run();
    harness.get_by_label("Not accepted, not saved: Axial length");
}

/// Neither do the fields of the settings.
#[test]
fn what_the_settings_refuse_stands_against_no_case() {
    let mut harness = open(demo(HARD_AND_SHALLOW));
    click(&mut harness, "Settings");
    click(&mut harness, "Part of the settings, Limits");
    let field = "Anterior chamber depth under which a hard nucleus speaks in favor of SICS";
    crate::support::enter(&mut harness, field, "x");
    assert!(is_said(&harness, "Not accepted: "));
    click(&mut harness, "Sheet");
    harness.get_by_label("Nothing of the plan stands against its signature");
}
