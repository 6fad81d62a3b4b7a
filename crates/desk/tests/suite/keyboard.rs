//! The whole plan by keyboard: what `tests/window/keys.txt` presses, pressed here at the desk. The
//! same file is played at the real window by `tests/window/plan_by_keyboard.py`.
//!
//! A line is `tab N NAME` (N times Tab, which leads to what is called NAME), `type TEXT` or `key KEY`.
//! `MILLRACE_RENEW_KEYS=1` counts the Tabs of each `tab` line again, by its name.

use crate::support::{Bench, HARD_AND_SHALLOW, demo, harness};
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use millrace_core::case::{Slot, TheatrePlan};
use millrace_core::case_file;
use millrace_desk::settings::Settings;

const KEYS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/window/keys.txt");
/// The window as it first opens.
const FIRST: [f32; 2] = [1280.0, 820.0];

/// What has the focus, as a screen reader names it.
fn focused(harness: &Harness<'_, Bench>) -> Option<String> {
    let nodes = harness.root().children_recursive();
    let mut focused = nodes.filter(|node| node.accesskit_node().is_focused());
    focused.find_map(|node| {
        let node = node.accesskit_node();
        node.label().or_else(|| {
            let named = node.labelled_by().next()?;
            named.label().or_else(|| named.value())
        })
    })
}

/// Whether what has the focus lies between the banner and the line at the foot, or in one of them.
fn is_in_sight(harness: &Harness<'_, Bench>) -> bool {
    let nodes = harness.root().children_recursive();
    let mut focused = nodes.filter(|node| node.accesskit_node().is_focused());
    focused.all(|node| {
        let center = node.rect().center();
        (0.0..FIRST[0]).contains(&center.x) && (0.0..FIRST[1]).contains(&center.y)
    })
}

pub(crate) fn press(harness: &mut Harness<'_, Bench>, keys: &str) {
    let mut modifiers = Modifiers::NONE;
    let mut key = keys;
    while let Some((modifier, rest)) = key.split_once('+') {
        match modifier {
            "ctrl" => modifiers |= Modifiers::COMMAND,
            "shift" => modifiers |= Modifiers::SHIFT,
            other => panic!("{other} is no modifier"),
        }
        key = rest;
    }
    let key = match key {
        "Return" => Key::Enter,
        "space" => Key::Space,
        "Right" => Key::ArrowRight,
        "Left" => Key::ArrowLeft,
        "Down" => Key::ArrowDown,
        "Up" => Key::ArrowUp,
        other => Key::from_name(other).unwrap_or_else(|| panic!("{other} is no key")),
    };
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

/// Types a letter for a list, a text for a field.
pub(crate) fn type_text(harness: &mut Harness<'_, Bench>, text: &str) {
    harness.event(egui::Event::Text(text.to_owned()));
    harness.run();
}

/// Whether the counts of the file hold, or are counted again.
#[derive(Clone, Copy, PartialEq)]
enum Counts {
    Hold,
    AreRenewed,
}

/// Tabs to what is called `name`: as often as the line says, or as often as it takes.
fn tab_to(harness: &mut Harness<'_, Bench>, (count, name): (usize, &str), counts: Counts) -> usize {
    let mut seen = Vec::new();
    let renews = counts == Counts::AreRenewed;
    let most = if renews { 150 } else { count };
    // A page that waits for an entry takes the focus there.
    if count == 0 && focused(harness).as_deref() == Some(name) {
        return 0;
    }
    for pressed in 1..=most {
        press(harness, "Tab");
        let found = focused(harness);
        assert!(is_in_sight(harness), "{found:?} has the focus out of sight");
        if renews && found.as_deref() == Some(name) {
            return pressed;
        }
        seen.push(found);
    }
    let last = seen.last().cloned().flatten();
    assert_eq!(
        last.as_deref(),
        Some(name),
        "what {most} Tabs passed: {seen:?}"
    );
    count
}

#[test]
fn the_hard_shallow_eye_is_planned_from_blank_fields_by_keyboard_alone() {
    let counts = match std::env::var_os("MILLRACE_RENEW_KEYS") {
        Some(_) => Counts::AreRenewed,
        None => Counts::Hold,
    };
    let keys = std::fs::read_to_string(KEYS).unwrap();
    let mut harness = harness(Bench::new(Vec::new(), Settings::default()), FIRST);
    let mut renewed = String::new();
    for line in keys.lines() {
        let (verb, rest) = line.split_once(' ').unwrap_or((line, ""));
        let mut again = line.to_owned();
        match verb {
            "" | "#" => {}
            "type" => type_text(&mut harness, rest),
            "key" => press(&mut harness, rest),
            "tab" => {
                let (count, name) = rest.split_once(' ').unwrap();
                let count = tab_to(&mut harness, (count.parse().unwrap(), name), counts);
                again = format!("tab {count} {name}");
            }
            other => panic!("{other} is no verb"),
        }
        renewed.push_str(&again);
        renewed.push('\n');
    }
    if counts == Counts::AreRenewed {
        std::fs::write(KEYS, renewed).unwrap();
    }

    // What the demo case holds, apart from what nobody typed: the repeated readings, the spreads,
    // the other eye, the reason, the backup lenses and what theatre needs beside.
    let mut expected = demo(HARD_AND_SHALLOW);
    let planned = harness.state().draft().clone();
    expected.eyes.left = millrace_core::biometry::EyeRecord::default();
    expected.reasons.clear();
    for slot in Slot::ALL.into_iter().skip(1) {
        expected.lens.lenses.choose(slot, None);
    }
    expected.theatre = TheatrePlan::default();
    let eye = &mut expected.eyes.right;
    eye.axial_length.as_mut().unwrap().spread = None;
    eye.chamber_depth.as_mut().unwrap().spread = None;
    let keratometry = eye.keratometry.as_mut().unwrap();
    keratometry.value.readings = None;
    keratometry.value.repeat_difference = None;
    let found = case_file::differences(&expected, &planned).unwrap();
    assert_eq!(found, [], "expected, then planned by keyboard");
    assert_eq!(&harness.state().cases[0].2, &planned, "stored as planned");
}
