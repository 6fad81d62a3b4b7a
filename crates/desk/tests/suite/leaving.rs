//! The Escape key leaves what covers the page, and the focus is where it was.

use crate::measuring_room::{Typist, focused};
use crate::support::{Bench, HARD_AND_SHALLOW, SMALLEST, click, demo, harness, light, texts};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::biometry::Side;
use millrace_desk::exchange::{Place, Request};

const FIELD: &str = "Lens thickness";

/// At a field of a measured case, from where something is opened by its keys.
fn from_a_field(modifiers: Modifiers, key: Key) -> Typist {
    let mut typist = Typist::at_case(demo(HARD_AND_SHALLOW));
    click(&mut typist.window, FIELD);
    typist.press_with(modifiers, key);
    typist
}

fn is_shown(typist: &Typist, text: &str) -> bool {
    texts(&typist.window).iter().any(|it| it.contains(text))
}

#[test]
fn escape_leaves_what_covers_the_page_and_goes_back_to_the_field() {
    for (modifiers, key, shows) in [
        (Modifiers::COMMAND, Key::Comma, "Part of the settings"),
        (Modifiers::COMMAND, Key::O, "Path of the file"),
        (Modifiers::COMMAND, Key::E, "Path of the file"),
        (
            Modifiers::COMMAND,
            Key::L,
            "Enter the numbers from the papers",
        ),
        (Modifiers::NONE, Key::F1, "Next and previous field"),
    ] {
        let mut typist = from_a_field(modifiers, key);
        assert!(is_shown(&typist, shows), "{shows}");
        typist.press(Key::Escape);
        assert!(!is_shown(&typist, shows), "{shows}");
        assert_eq!(focused(&typist.window).as_deref(), Some(FIELD), "{shows}");
    }
}

/// The keys that opened it leave it as well.
#[test]
fn the_keys_of_the_settings_leave_them_as_well() {
    let mut typist = from_a_field(Modifiers::COMMAND, Key::Comma);
    typist.press_with(Modifiers::COMMAND, Key::Comma);
    assert_eq!(focused(&typist.window).as_deref(), Some(FIELD));
}

/// One press leaves one thing: a file that is asked for over the settings, then them.
#[test]
fn escape_leaves_one_thing_at_a_time() {
    let mut typist = from_a_field(Modifiers::COMMAND, Key::Comma);
    typist.press_with(Modifiers::COMMAND, Key::O);
    typist.press(Key::Escape);
    assert!(!is_shown(&typist, "Path of the file"));
    assert!(is_shown(&typist, "Part of the settings"));
    typist.press(Key::Escape);
    assert!(!is_shown(&typist, "Part of the settings"));
    assert_eq!(focused(&typist.window).as_deref(), Some(FIELD));
}

/// A text that is being typed is given back first, and nothing is left over it.
#[test]
fn escape_gives_a_text_back_before_it_leaves() {
    let mut typist = from_a_field(Modifiers::COMMAND, Key::Comma);
    click(&mut typist.window, "Your name");
    typist.value("B");
    typist.press(Key::Escape);
    assert!(is_shown(&typist, "Part of the settings"));
    typist.press(Key::Escape);
    assert!(!is_shown(&typist, "Part of the settings"));
}

/// In a narrow window the list and the findings stand in place of the page.
#[test]
fn escape_leaves_the_list_and_the_findings_of_a_narrow_window() {
    for side in ["Theatre list", "Findings"] {
        let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
        bench.open(0);
        let mut window = harness(bench, [560.0, 820.0]);
        let is_page =
            |window: &Harness<'_, Bench>| window.query_by_label("Patient and operation").is_some();
        assert!(is_page(&window));
        click(&mut window, side);
        assert!(!is_page(&window), "{side}");
        window.key_press(Key::Escape);
        window.run();
        assert!(is_page(&window), "{side}");
    }
}

/// The question whether the eye is to be another one is left with the eye as it is.
#[test]
fn escape_keeps_the_eye_and_goes_back_to_what_asked() {
    let mut typist = Typist::at_case(demo(HARD_AND_SHALLOW));
    let ask = "Change the operative eye…";
    click(&mut typist.window, ask);
    typist.value("x");
    typist.press(Key::Escape);
    assert!(is_shown(&typist, "Reason for the change"), "given back");
    typist.press(Key::Escape);
    assert!(!is_shown(&typist, "Reason for the change"));
    assert_eq!(focused(&typist.window).as_deref(), Some(ask));
    assert_eq!(typist.draft().operation.eye, Some(Side::Right));
}

/// Over an empty register there is nothing to go back to: what was opened is left, and its own page stays.
#[test]
fn escape_leaves_what_is_opened_before_the_first_case() {
    let mut typist = Typist::at(Bench::new(Vec::new(), light()), [1280.0, 820.0]);
    typist.press_with(Modifiers::COMMAND, Key::Comma);
    assert!(is_shown(&typist, "Part of the settings"));
    typist.press(Key::Escape);
    assert!(!is_shown(&typist, "Part of the settings"));
    typist.press(Key::Escape);
    assert!(typist.window.query_by_label("New case").is_some());
}

/// A place and a name stand there to go on from: what identifies without naming anybody.
#[test]
fn a_panel_of_files_proposes_a_place_and_a_name() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    let mut harness = harness(bench, SMALLEST);
    for (key, label, proposed) in [
        (Key::O, "Path of the file", "~/"),
        (Key::E, "Path of the file", "~/40-2291-right.ron"),
    ] {
        harness.key_press_modifiers(Modifiers::COMMAND, key);
        harness.run();
        let field = harness.get_by_role_and_label(Role::TextInput, label);
        assert_eq!(field.accesskit_node().value().as_deref(), Some(proposed));
        harness.key_press(Key::Escape);
        harness.run();
    }
    // It is selected: what is typed stands in its place, and Enter takes it.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::E);
    harness.run();
    let field = harness.get_by_role_and_label(Role::TextInput, "Path of the file");
    field.type_text("/tmp/mine.ron");
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    let draft = Box::new(harness.state().draft().clone());
    let wanted = Request::ExportFile(draft, Place::Typed("/tmp/mine.ron".to_owned()));
    assert!(harness.state().told.contains(&wanted));
}
