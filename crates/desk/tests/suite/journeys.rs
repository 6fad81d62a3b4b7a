//! What people do at the desk, through the accessibility tree.

use crate::support::{
    Bench, HARD_AND_SHALLOW, SMALLEST, click, date, demo, fill, harness, light, measuring_room,
    texts,
};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::biometry::{DepthStart, Method, Side};
use millrace_core::case::Draft;
use millrace_core::quantity::{HundredthDiopters, Micrometers};
use millrace_core::rules::Quantity;
use millrace_desk::exchange::{Answer, Conflict, Request, Revision};
use millrace_desk::whereabouts::Page;

/// High enough that no field of the page has to be scrolled to.
const HIGH: [f32; 2] = [1280.0, 2200.0];

fn open(draft: Draft) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], light());
    bench.open(0);
    harness(bench, HIGH)
}

#[test]
fn an_optometrist_enters_a_blank_eye() {
    let mut harness = open(Draft::default());
    fill(&mut harness, "Name", "Okonjo, Adaeze");
    fill(&mut harness, "Hospital number", "40-2291");
    fill(&mut harness, "Birth date", "1951-03-14");
    fill(&mut harness, "Operation day", "2026-12-03");
    click(&mut harness, "Operative eye, Right eye");
    click(&mut harness, "Today, A. Okafor");
    click(&mut harness, "Method of measurement");
    click(&mut harness, "Optical");

    fill(&mut harness, "Axial length", "22,84");
    click(&mut harness, "Keratometry in, D");
    fill(&mut harness, "Keratometric index", "1.3375");
    fill(&mut harness, "Flat reading", "44.25");
    fill(&mut harness, "Flat meridian", "10");
    fill(&mut harness, "Steep reading", "45");
    fill(&mut harness, "Steep meridian", "100");
    click(&mut harness, "Anterior chamber depth from the, Epithelium");
    fill(&mut harness, "Anterior chamber depth", "2.55");

    let draft = harness.state().draft();
    assert_eq!(draft.patient.name.as_deref(), Some("Okonjo, Adaeze"));
    assert_eq!(draft.age(), Some(75));
    let eye = &draft.eyes.right;
    let length = eye.axial_length.as_ref().unwrap();
    assert_eq!(length.value.get(), Micrometers::new(22_840));
    assert_eq!(length.method, Method::Optical);
    assert_eq!(length.by.as_deref(), Some("A. Okafor"));
    let k = &eye.keratometry.as_ref().unwrap().value;
    assert_eq!(k.flat.reading.to_string(), "44.25 D at 1.3375");
    assert_eq!(k.steep.meridian.degrees(), 100);
    let depth = eye.chamber_depth.as_ref().unwrap();
    assert_eq!(depth.value.start, DepthStart::Epithelium);
    assert!(draft.eyes.left.is_blank());
    // All of it is stored as it was typed.
    assert_eq!(&harness.state().cases[0].2, harness.state().draft());
}

#[test]
fn a_number_without_its_method_waits_and_is_taken_once_it_is_said() {
    let mut draft = Draft::default();
    draft.operation.eye = Some(Side::Left);
    let mut harness = open(draft);
    fill(&mut harness, "Axial length", "23.5");
    harness.get_by_label("Not accepted: choose the method first");
    assert!(harness.state().draft().eyes.left.is_blank());
    click(&mut harness, "Axial length, method");
    click(&mut harness, "Immersion ultrasound");
    harness.run();
    let eye = &harness.state().draft().eyes.left;
    let length = eye.axial_length.as_ref().unwrap();
    assert_eq!(length.value.get(), Micrometers::new(23_500));
    assert_eq!(length.method, Method::ImmersionUltrasound);
}

#[test]
fn a_new_number_is_not_recorded_under_the_name_of_who_measured_the_old_one() {
    let before = demo(HARD_AND_SHALLOW);
    let old = before.eyes.right.axial_length.clone().unwrap();
    assert!(old.on.is_some() && old.by.is_some());
    let mut harness = open(before);
    fill(&mut harness, "Axial length", "22.90");
    let length = |harness: &Harness<'_, Bench>| {
        let eye = &harness.state().draft().eyes.right;
        eye.axial_length.clone().unwrap()
    };
    let unsaid = length(&harness);
    assert_eq!(unsaid.value.get(), Micrometers::new(22_900));
    assert_eq!((unsaid.on, unsaid.by, unsaid.spread), (None, None, None));
    let told = texts(&harness).join("\n");
    assert!(told.contains("day and person not recorded"), "{told}");

    click(&mut harness, "Today, A. Okafor");
    fill(&mut harness, "Axial length", "22.91");
    let said = length(&harness);
    assert_eq!(said.by.as_deref(), Some("A. Okafor"));
    assert_eq!(said.on, Some(date(2026, 11, 24)));
}

#[test]
fn wrong_numbers_change_nothing_and_are_named() {
    let before = demo(HARD_AND_SHALLOW);
    let mut harness = open(before.clone());
    for (field, text, message) in [
        (
            "Axial length",
            "2.284",
            "axial length 2.284 mm is outside 14.00 mm to 40.00 mm",
        ),
        (
            "Flat reading",
            "4425",
            "corneal power 4425.00 D is outside 25.96 D to 67.50 D",
        ),
        (
            "Flat meridian",
            "190",
            "meridian 190° is outside 1° to 180°; the horizontal is written 180",
        ),
        ("Steep reading", "x", "\"x\" is not a number"),
        (
            "Corneal thickness",
            "0.538",
            "\"0.538\" is not a whole number, written without point or comma",
        ),
        ("Lens thickness", "5,0,5", "\"5,0,5\" is not a number"),
        (
            "Endothelial cell density",
            "21.5",
            "\"21.5\" is not a whole number, written without point or comma",
        ),
    ] {
        fill(&mut harness, field, text);
        harness.get_by_label(&format!("Not accepted: {message}"));
    }
    assert_eq!(harness.state().draft(), &before);
    harness.snapshot("everything_wrong");
}

#[test]
fn flat_and_steep_exchanged_are_not_recorded() {
    let mut harness = open(demo(HARD_AND_SHALLOW));
    fill(&mut harness, "Flat reading", "46.00");
    harness.get_by_label(
        "Not accepted: the flat meridian 46.00 D at 1.3375 has a shorter radius than the steep one 45.00 D at 1.3375",
    );
    assert_eq!(harness.state().draft().eyes.right.keratometry, None);
    fill(&mut harness, "Steep reading", "47.00");
    let k = harness.state().draft().eyes.right.keratometry.as_ref();
    assert_eq!(
        k.unwrap().value.steep.reading.to_string(),
        "47.00 D at 1.3375"
    );
}

#[test]
fn what_is_being_typed_is_taken_when_the_page_changes() {
    let mut harness = open(demo(HARD_AND_SHALLOW));
    harness.get_by_label("Axial length").click();
    harness.run();
    harness.get_by_label("Axial length").type_text("23.11");
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Num2);
    harness.run();
    assert_eq!(harness.state().desk.page(), Page::Lens);
    let length = harness.state().draft().eyes.right.axial_length.clone();
    assert_eq!(length.unwrap().value.get(), Micrometers::new(23_110));
}

#[test]
fn undo_takes_back_whole_changes_and_typing_keeps_its_own() {
    let before = demo(HARD_AND_SHALLOW);
    let mut harness = open(before.clone());
    fill(&mut harness, "Axial length", "23.11");
    click(&mut harness, "Guttata, yes");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().draft(), &before);
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    harness.run();
    assert_ne!(harness.state().draft(), &before);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    harness.get_by_label("Axial length").click();
    harness.run();
    harness.get_by_label("Axial length").type_text("9");
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().draft(), &before);
    assert!(harness.get_by_label("Axial length").is_focused());
}

#[test]
fn the_operated_eye_changes_only_with_a_reason_on_the_record() {
    let mut harness = open(demo(HARD_AND_SHALLOW));
    assert!(harness.query_by_label("Operative eye, Left eye").is_none());
    click(&mut harness, "Change the operative eye…");
    fill(
        &mut harness,
        "Reason for the change",
        "Listed for the wrong eye",
    );
    click(&mut harness, "Change to the left eye");
    let draft = harness.state().draft();
    assert_eq!(draft.operation.eye, Some(Side::Left));
    assert_eq!(draft.eye_changes.len(), 1);
    assert_eq!(draft.eye_changes[0].reason, "Listed for the wrong eye");
    assert_eq!(draft.eye_changes[0].by, "A. Okafor");
    assert_eq!(draft.lens.power(), None);
    harness.get_by_label("LEFT EYE");
}

#[test]
fn the_fellow_eye_is_edited_only_when_the_page_is_turned_around() {
    let mut harness = open(demo(HARD_AND_SHALLOW));
    assert!(harness.query_by_label("Axial length, left eye").is_none());
    click(&mut harness, "Edit the left eye…");
    let plain = harness.query_by_role_and_label(Role::TextInput, "Axial length");
    assert!(plain.is_none());
    fill(&mut harness, "Axial length, left eye", "22.95");
    let eyes = &harness.state().draft().eyes;
    let left = eyes.left.axial_length.as_ref().unwrap();
    let right = eyes.right.axial_length.as_ref().unwrap();
    assert_eq!(left.value.get(), Micrometers::new(22_950));
    assert_eq!(right.value.get(), Micrometers::new(22_840));
    click(&mut harness, "Back to the right eye");
    harness.get_by_label("Axial length");
}

#[test]
fn a_reason_is_recorded_for_the_finding_as_it_reads() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.reasons.clear();
    let mut harness = open(draft);
    click(&mut harness, "Record a reason for RK-01…");
    fill(&mut harness, "Reason for RK-01", "Tension ring in the room");
    click(&mut harness, "Record the reason");
    let reasons = &harness.state().draft().reasons;
    assert_eq!(reasons.len(), 1);
    assert_eq!(reasons[0].rule, "RK-01");
    assert_eq!(reasons[0].measured, Quantity::Points(3).into());
    assert_eq!(reasons[0].by, "A. Okafor");
}

#[test]
fn a_case_edited_in_two_places_loses_neither() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    let mut harness = harness(bench, SMALLEST);
    let mine = harness.state().draft().clone();
    let mut theirs = mine.clone();
    theirs.lens.target = Some(HundredthDiopters::new(-100));
    let case = harness.state().cases[0].0.clone();
    harness.state_mut().desk.accept(Answer::Conflict {
        case,
        conflict: Conflict {
            revision: Revision("elsewhere".to_owned()),
            base: None,
            theirs: Box::new(theirs.clone()),
            by: measuring_room("B. Sato"),
        },
    });
    harness.run();
    let told = texts(&harness);
    for text in [
        "Lens, target",
        "Lens, target – A. Okafor, here (room-2): \u{2212}0.30 D",
        "Lens, target – B. Sato (measuring room): \u{2212}1.00 D",
    ] {
        assert!(told.iter().any(|told| told == text), "{text}: {told:?}");
    }
    click(
        &mut harness,
        "Lens, target – B. Sato (measuring room): \u{2212}1.00 D",
    );
    harness.snapshot("conflict");
    click(
        &mut harness,
        "In each line that of B. Sato (measuring room)",
    );
    click(&mut harness, "Save these");
    assert_eq!(harness.state().draft(), &theirs);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().draft(), &mine);
    let last = harness
        .state()
        .told
        .iter()
        .rev()
        .find_map(|request| match request {
            Request::Save(save) => Some(save.seen.clone()),
            _ => None,
        });
    assert_eq!(last, Some(Revision("elsewhere".to_owned())));
}

#[test]
fn closing_takes_and_stores_what_is_being_typed() {
    let mut harness = open(demo(HARD_AND_SHALLOW));
    harness.get_by_label("Axial length").click();
    harness.run();
    harness.get_by_label("Axial length").type_text("23.11");
    harness.run();
    harness.state_mut().desk.ask(Request::Quit);
    harness.run();
    assert_eq!(harness.state().told.last(), Some(&Request::Quit));
    let stored = harness.state().cases[0].2.eyes.right.axial_length.clone();
    assert_eq!(stored.unwrap().value.get(), Micrometers::new(23_110));
}

#[test]
fn the_theatre_list_opens_by_keyboard() {
    let mut other = demo(HARD_AND_SHALLOW);
    other.patient.name = Some("Petrosyan, Artur".to_owned());
    let mut harness = harness(
        Bench::new(vec![demo(HARD_AND_SHALLOW), other], light()),
        HIGH,
    );
    harness.key_press_modifiers(Modifiers::COMMAND, Key::F);
    harness.run();
    harness
        .get_by_label("Search name or number")
        .type_text("petro");
    harness.run();
    harness.run();
    for key in [Key::ArrowDown, Key::Enter] {
        harness.key_press(key);
        harness.run();
    }
    let name = harness.state().draft().patient.name.clone();
    assert_eq!(name.as_deref(), Some("Petrosyan, Artur"));
}
