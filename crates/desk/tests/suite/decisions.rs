//! A decision is taken by the act that names it, and by nothing else.

use crate::support::{Bench, HARD_AND_SHALLOW, click, demo, enter, fill, harness, light, texts};
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::biometry::Side;
use millrace_core::case::{Draft, Told};
use millrace_core::quantity::HundredthDiopters;
use millrace_desk::exchange::Request;
use millrace_desk::frame::theatre_list;
use millrace_desk::whereabouts::Page;

const HIGH: [f32; 2] = [1280.0, 2600.0];

fn open(draft: Draft, page: Page) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], light());
    bench.open(0);
    let mut harness = harness(bench, HIGH);
    harness.state_mut().desk.show_page(page);
    harness.run();
    harness
}

fn is_said(harness: &Harness<'_, Bench>, text: &str) -> bool {
    texts(harness).iter().any(|said| said.contains(text))
}

const REASON: &str = "Reason for the change";

type Leaving = fn(&mut Harness<'static, Bench>);

/// Words in the field and a click anywhere, also on what keeps the eye, once changed the eye of the case.
#[test]
fn the_eye_changes_by_its_button_alone() {
    let before = demo(HARD_AND_SHALLOW);
    let ways: [Leaving; 4] = [
        |_| {},
        |harness| {
            harness.get_by_label(REASON).focus();
            harness.run();
            harness.key_press(Key::Enter);
            harness.run();
        },
        |harness| click(harness, "Lens"),
        |harness| click(harness, "Keep the right eye"),
    ];
    for leave in ways {
        let mut harness = open(before.clone(), Page::Biometry);
        click(&mut harness, "Change the operative eye…");
        fill(&mut harness, REASON, "only thinking");
        leave(&mut harness);
        assert_eq!(harness.state().draft(), &before);
    }
    let mut harness = open(before, Page::Biometry);
    click(&mut harness, "Change the operative eye…");
    fill(&mut harness, REASON, "Listed for the wrong eye");
    click(&mut harness, "Change to the left eye");
    assert_eq!(harness.state().draft().operation.eye, Some(Side::Left));
}

/// After the act that asks for words the caret stands where they go.
#[test]
fn the_caret_stands_in_the_reason_that_is_asked_for() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.reasons.clear();
    let asks = [
        (Page::Biometry, "Change the operative eye…", REASON),
        (
            Page::Biometry,
            "Record a reason for RK-01…",
            "Reason for RK-01",
        ),
        (
            Page::Approach,
            "Judge it not hard…",
            "Reason for the judgment",
        ),
    ];
    for (page, ask, field) in asks {
        let mut harness = open(draft.clone(), page);
        click(&mut harness, ask);
        assert!(harness.get_by_label(field).is_focused(), "{field}");
    }
}

/// Without a reason the button does nothing, and what was given up is gone.
#[test]
fn words_that_were_given_up_are_gone() {
    let mut harness = open(demo(HARD_AND_SHALLOW), Page::Biometry);
    click(&mut harness, "Change the operative eye…");
    click(&mut harness, "Change to the left eye");
    assert_eq!(harness.state().draft().operation.eye, Some(Side::Right));
    fill(&mut harness, "Reason for the change", "only thinking");
    click(&mut harness, "Keep the right eye");
    click(&mut harness, "Change the operative eye…");
    click(&mut harness, "Change to the left eye");
    assert_eq!(harness.state().draft().operation.eye, Some(Side::Right));
}

/// A half-typed reason is no reason; it is told at the foot until it is recorded or given up.
#[test]
fn a_reason_is_recorded_by_its_button_alone() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.reasons.clear();
    let mut harness = open(draft, Page::Biometry);
    click(&mut harness, "Record a reason for RK-01…");
    fill(&mut harness, "Reason for RK-01", "Tens");
    assert_eq!(harness.state().draft().reasons, []);
    assert!(is_said(
        &harness,
        "Not accepted, not saved: Reason for RK-01"
    ));
    click(&mut harness, "Lens");
    assert_eq!(harness.state().draft().reasons, []);
    click(&mut harness, "Biometry");
    click(&mut harness, "Record none");
    assert_eq!(harness.state().draft().reasons, []);
    assert!(!is_said(&harness, "Not accepted"));
    click(&mut harness, "Record a reason for RK-01…");
    fill(&mut harness, "Reason for RK-01", "Tension ring in the room");
    click(&mut harness, "Record the reason");
    assert_eq!(harness.state().draft().reasons.len(), 1);
    assert!(!is_said(&harness, "Not accepted"));
}

/// "latex" once erased "penicillin": after Enter the caret is in the new empty line.
#[test]
fn enter_adds_to_a_list_and_goes_on_to_the_next_line() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.theatre.allergies = None;
    let mut harness = open(draft, Page::Sheet);
    click(&mut harness, "Allergies, as listed");
    enter(&mut harness, "Allergies 1", "penicillin");
    for next in ["latex", "iodine"] {
        // What is typed goes where the caret is.
        harness.event(egui::Event::Text(next.to_owned()));
        harness.run();
        harness.key_press(Key::Enter);
        harness.run();
    }
    let told = harness.state().draft().theatre.allergies.clone();
    let these = ["penicillin", "latex", "iodine"].map(str::to_owned);
    assert_eq!(told, Some(Told::These(these.to_vec())));
}

/// A lost sign is twice the error: both are offered, none is guessed.
#[test]
fn a_power_without_its_sign_is_not_taken() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.lens.target = None;
    let mut harness = open(draft, Page::Lens);
    fill(&mut harness, "Target", "0.50");
    assert_eq!(harness.state().draft().lens.target, None);
    assert!(is_said(
        &harness,
        "the sign is missing: write +0.50 or \u{2212}0.50"
    ));
    click(&mut harness, "\u{2212}0.50");
    let target = Some(HundredthDiopters::new(-50));
    assert_eq!(harness.state().draft().lens.target, target);
    assert!(!is_said(&harness, "the sign is missing"));
    fill(&mut harness, "Target", "0");
    let none = Some(HundredthDiopters::new(0));
    assert_eq!(harness.state().draft().lens.target, none);
}

/// The demo looks like any register: it says on every page that nothing is kept, and asks once before it goes.
#[test]
fn the_demo_says_what_it_is_and_asks_once_before_it_goes() {
    let mut bench = Bench::demo(vec![demo(HARD_AND_SHALLOW)]);
    bench.open(0);
    let mut harness = harness(bench, HIGH);
    for (page, _) in Page::ALL {
        harness.state_mut().desk.show_page(page);
        harness.run();
        harness.get_by_label("DEMO: invented cases, nothing is kept");
        assert!(is_said(&harness, "Not kept: demo"));
        assert!(!texts(&harness).contains(&"Saved".to_owned()));
    }
    let told = |harness: &Harness<'_, Bench>, request: &Request| {
        let told = harness.state().told.iter();
        told.filter(|it| *it == request).count()
    };
    harness.state_mut().desk.show_page(Page::Lens);
    harness.run();
    fill(&mut harness, "Target", "-0.50");
    click(&mut harness, "Open my own register");
    assert_eq!(told(&harness, &Request::OpenOwn), 0);
    assert!(is_said(&harness, "Nothing of this demo is kept"));
    click(&mut harness, "Open my own register");
    assert_eq!(told(&harness, &Request::OpenOwn), 1);
}

/// Nothing was changed: there is nothing to ask about.
#[test]
fn a_demo_that_was_only_looked_at_closes_at_once() {
    let mut bench = Bench::demo(vec![demo(HARD_AND_SHALLOW)]);
    bench.open(0);
    let mut harness = harness(bench, HIGH);
    click(&mut harness, "Open my own register");
    assert!(harness.state().told.contains(&Request::OpenOwn));
}

#[test]
fn a_register_of_ones_own_is_no_demo() {
    let harness = open(demo(HARD_AND_SHALLOW), Page::Lens);
    assert!(!is_said(&harness, "DEMO"));
    assert!(is_said(&harness, "Saved"));
}

/// A list that was opened by a key is closed by it, and by leaving it: it took the next click, and with it changed
/// a lens.
#[test]
fn a_list_that_was_opened_is_closed_by_enter_and_by_leaving() {
    for leaves in [Key::Enter, Key::Tab, Key::Escape] {
        let mut harness = open(demo(HARD_AND_SHALLOW), Page::Lens);
        let before = harness.state().draft().clone();
        let list = |harness: &Harness<'_, Bench>| texts(harness).len();
        let first = harness.get_all_by_role(Role::ComboBox).next();
        first.expect("the page has a list").focus();
        harness.run();
        let closed = list(&harness);
        harness.key_press(Key::Enter);
        harness.run();
        assert!(closed < list(&harness), "it did not open");
        harness.key_press(leaves);
        harness.run();
        assert_eq!(list(&harness), closed, "{leaves:?}");
        assert_eq!(*harness.state().draft(), before, "{leaves:?}");
    }
}

/// From the choice of the posterior cornea, arrow keys walked on and emptied the spare lens.
#[test]
fn arrow_keys_stay_in_the_control_that_has_the_focus() {
    for page in [Page::Biometry, Page::Lens, Page::Approach, Page::Sheet] {
        let mut harness = open(demo(HARD_AND_SHALLOW), page);
        for _ in 0..60 {
            harness.key_press(Key::Tab);
            harness.step();
            for arrow in [
                Key::ArrowDown,
                Key::ArrowUp,
                Key::ArrowRight,
                Key::ArrowLeft,
            ] {
                let before = harness.ctx.memory(egui::Memory::focused);
                // From what is searched for, Down leads into what was found: its own way, named there.
                if before == Some(theatre_list::search_id()) {
                    continue;
                }
                harness.key_press(arrow);
                harness.step();
                let after = harness.ctx.memory(egui::Memory::focused);
                assert_eq!(after, before, "{page:?}, {arrow:?}");
            }
        }
    }
}
