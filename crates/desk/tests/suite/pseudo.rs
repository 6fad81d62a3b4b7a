//! Every page in the pseudo-language: what is left of plain English cannot be said in another one.

use crate::support::{
    Bench, HARD_AND_SHALLOW, click, demo, enter, fill, harness, light, measuring_room, texts,
};
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use millrace_core::biometry::Item;
use millrace_core::case::Draft;
use millrace_core::rules;
use millrace_desk::exchange::{Answer, Conflict, Revision};
use millrace_desk::settings::Settings;
use millrace_desk::whereabouts::Page;
use millrace_desk::words::capital_family_name;
use millrace_wording::check::untouched;
use millrace_wording::desk::{frame, keys, lens_records, settings, sheet, widgets};
use millrace_wording::measurements::head;
use millrace_wording::{Show as _, Words};

/// Tall enough that nothing of a page is out of sight.
const TALL: [f32; 2] = [1280.0, 9000.0];
const WORDS: Words = Words::PSEUDO;

const TORIC: &str = include_str!("../../../../demo-data/cases/astigmatic-eye.ron");
const SECOND_EYE: &str = include_str!("../../../../demo-data/cases/second-eye.ron");
const ULTRASOUND: &str = include_str!("../../../../demo-data/cases/contact-ultrasound-only.ron");
const LENSES: &str = include_str!("../../../../demo-data/lenses.ron");

/// What no language changes: the program, the person, the desk, units, scales and a formula's constants.
const FIXED: [&str; 17] = [
    // What desks are called.
    "room-2",
    "measuring room",
    // As a file of limits has it.
    "off",
    "Millrace",
    "A. Okafor",
    "consultant surgeon",
    "cells/mm²",
    "LOCS III",
    "LOCS",
    "NO",
    "NC",
    "WHO",
    "Emery-Little",
    "Haigis",
    "II",
    "III",
    "IV",
];

/// What people typed into the demo: everything in quotation marks, and a family name in capitals.
fn typed() -> Vec<String> {
    let files = [HARD_AND_SHALLOW, TORIC, SECOND_EYE, ULTRASOUND, LENSES];
    let quoted = files
        .iter()
        .flat_map(|file| file.split('"').skip(1).step_by(2));
    let names = quoted.clone().map(capital_family_name);
    quoted.map(str::to_owned).chain(names).collect()
}

fn desk(cases: &[&str]) -> Harness<'static, Bench> {
    let drafts: Vec<Draft> = cases.iter().map(|text| demo(text)).collect();
    let words = Settings {
        words: WORDS,
        ..light()
    };
    let is_empty = drafts.is_empty();
    let mut bench = Bench::new(drafts, words);
    if !is_empty {
        bench.open(0);
    }
    harness(bench, TALL)
}

/// Every text on the desk that holds plain English, with the words that are.
fn english(harness: &Harness<'_, Bench>) -> Vec<(String, Vec<String>)> {
    let typed = typed();
    let ids = rules::ALL.iter().map(|rule| rule.id);
    let allowed: Vec<&str> = typed.iter().map(String::as_str).chain(ids).collect();
    let allowed = || allowed.iter().copied().chain(FIXED);
    texts(harness)
        .into_iter()
        .map(|text| {
            let found = untouched(&text, allowed());
            (text, found)
        })
        .filter(|(_, found)| !found.is_empty())
        .collect()
}

fn assert_no_english(harness: &Harness<'_, Bench>, at: &str) {
    assert!(!texts(harness).is_empty(), "{at}: nothing is shown");
    assert_eq!(english(harness), [], "{at}");
}

fn show(harness: &mut Harness<'_, Bench>, page: Page) {
    harness.state_mut().desk.show_page(page);
    harness.run();
}

fn press(harness: &mut Harness<'_, Bench>, key: Key) {
    harness.key_press_modifiers(Modifiers::COMMAND, key);
    harness.run();
}

#[test]
fn pages_of_a_case_are_said_by_the_wording() {
    for case in [HARD_AND_SHALLOW, TORIC, SECOND_EYE, ULTRASOUND] {
        let mut harness = desk(&[case]);
        for (page, _) in Page::ALL {
            show(&mut harness, page);
            assert_no_english(&harness, page.code());
        }
    }
}

#[test]
fn an_empty_register_and_a_new_case_are_said_by_the_wording() {
    let mut harness = desk(&[]);
    assert_no_english(&harness, "empty register");
    click(&mut harness, frame::new_case(WORDS));
    for (page, _) in Page::ALL {
        show(&mut harness, page);
        assert_no_english(&harness, page.code());
    }
}

/// An entry that is refused says why, beside its field, at the foot and before the signature.
#[test]
fn a_refused_entry_is_said_by_the_wording() {
    let mut harness = desk(&[HARD_AND_SHALLOW]);
    for text in ["2.35", "x", "23.4567"] {
        enter(&mut harness, &head(WORDS, Item::AxialLength), text);
        let marked: Vec<_> = texts(&harness)
            .into_iter()
            .filter(|shown| shown.contains(text))
            .collect();
        assert!(!marked.is_empty(), "{text}");
        let left: Vec<_> = english(&harness)
            .into_iter()
            .filter(|(_, found)| found.iter().any(|word| word != text))
            .collect();
        assert_eq!(left, [], "{text}");
    }
    show(&mut harness, Page::Sheet);
    assert_no_english(&harness, "sheet page beside a refused entry");
}

#[test]
fn settings_are_said_by_the_wording() {
    let mut harness = desk(&[HARD_AND_SHALLOW]);
    press(&mut harness, Key::Comma);
    for part in [
        settings::at_the_desk(WORDS),
        settings::own_ways(WORDS),
        settings::limits(WORDS),
        settings::lens_records(WORDS),
    ] {
        let name = widgets::option(WORDS, settings::part(WORDS), part);
        if part != settings::at_the_desk(WORDS) {
            click(&mut harness, &name);
        }
        assert_no_english(&harness, part);
    }
    click(&mut harness, lens_records::add(WORDS));
    assert_no_english(&harness, "a new lens record");
}

#[test]
fn second_look_keys_and_files_are_said_by_the_wording() {
    let mut harness = desk(&[HARD_AND_SHALLOW]);
    press(&mut harness, Key::O);
    assert_no_english(&harness, "opening a file");
    press(&mut harness, Key::L);
    assert_no_english(&harness, "second look");
    harness.key_press(Key::F1);
    harness.run();
    assert_no_english(&harness, keys::title(WORDS));
}

#[test]
fn a_signed_sheet_is_said_by_the_wording() {
    let mut harness = desk(&[HARD_AND_SHALLOW]);
    show(&mut harness, Page::Sheet);
    fill(&mut harness, sheet::role(WORDS), "consultant surgeon");
    fill(&mut harness, sheet::target_again(WORDS), "-0.30");
    click(&mut harness, sheet::sign(WORDS));
    assert_eq!(harness.state().sheets.len(), 1);
    assert_no_english(&harness, "signed");
}

#[test]
fn a_conflict_is_said_by_the_wording() {
    let mut harness = desk(&[HARD_AND_SHALLOW]);
    let mut theirs = harness.state().draft().clone();
    theirs.lens.target = None;
    theirs.eyes.right.axial_length = None;
    let case = harness.state().cases[0].0.clone();
    harness.state_mut().desk.accept(Answer::Conflict {
        case,
        conflict: Conflict {
            revision: Revision("elsewhere".to_owned()),
            base: None,
            theirs: Box::new(theirs),
            by: measuring_room("A. Okafor"),
        },
    });
    harness.run();
    let entry = frame::entry(WORDS, &["lens", "target"].map(str::to_owned));
    let told = texts(&harness);
    assert!(
        told.iter().any(|text| text.to_lowercase() == entry),
        "{told:?}"
    );
    // A value stands as its file writes it: the method is a code there.
    let code = "optical".to_owned();
    assert_eq!(english(&harness), [(code.clone(), vec![code])]);
}

/// The check itself: a page in English is full of what it looks for.
#[test]
fn a_page_in_english_does_not_pass() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    let harness = harness(bench, TALL);
    let found = english(&harness);
    assert!(50 < found.len(), "{}", found.len());
    let title = rules::Severity::Stop.show(Words::ENGLISH);
    assert!(found.iter().any(|(text, _)| text.contains(title.as_ref())));
}
