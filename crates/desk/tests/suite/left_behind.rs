//! What is being typed is handed out within a second, and offered again after the window was killed; the foot
//! says "Saved" of nothing that is not on the drive.

use crate::support::{Bench, HARD_AND_SHALLOW, click, demo, fill, harness, light, texts};
use chrono::NaiveDate;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::Draft;
use millrace_core::quantity::Micrometers;
use millrace_core::signing::SheetNumber;
use millrace_desk::exchange::{
    Answer, CaseId, LeftId, LeftText, Planned, Request, SheetRow, Standing, TypedText,
};
use millrace_desk::whereabouts::Page;

const HIGH: [f32; 2] = [1280.0, 2600.0];

fn open(page: Page) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW), Draft::default()], light());
    bench.open(0);
    bench.desk.show_page(page);
    harness(bench, HIGH)
}

/// Every hand-out so far.
fn kept(harness: &Harness<'_, Bench>) -> Vec<Vec<TypedText>> {
    let told = harness.state().told.iter();
    told.filter_map(|request| match request {
        Request::KeepTyped(texts) => Some(texts.clone()),
        _ => None,
    })
    .collect()
}

fn time(harness: &Harness<'_, Bench>) -> f64 {
    harness.ctx.input(|input| input.time)
}

/// Lets as much time pass as the desk may take.
fn wait_a_second(harness: &mut Harness<'_, Bench>) {
    let begin = time(harness);
    while time(harness) < begin + 0.9 {
        harness.step();
    }
}

/// Types into a field without leaving it.
fn type_into(harness: &mut Harness<'_, Bench>, field: &str, text: &str) {
    click(harness, field);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.run();
    harness.get_by_label(field).type_text(text);
    harness.step();
}

fn is_said(harness: &Harness<'_, Bench>, text: &str) -> bool {
    texts(harness).iter().any(|said| said.contains(text))
}

/// The text of a killed window: what a desk handed out while this was typed.
fn left_by_typing(page: Page, field: &str, text: &str) -> LeftText {
    let mut first = open(page);
    type_into(&mut first, field, text);
    wait_a_second(&mut first);
    let typed = kept(&first).pop().expect("it was handed out");
    assert_eq!(typed.len(), 1);
    LeftText {
        id: LeftId(7),
        typed: typed[0].clone(),
        patient: Some("Ferris, Ada".to_owned()),
        at: NaiveDate::from_ymd_opt(2026, 11, 24)
            .and_then(|day| day.and_hms_opt(10, 42, 0))
            .expect("a moment"),
    }
}

fn offered(left: &LeftText, page: Page) -> Harness<'static, Bench> {
    let mut harness = open(page);
    let answer = Answer::Left(vec![left.clone()]);
    harness.state_mut().desk.accept(answer);
    harness.run();
    harness
}

#[test]
fn what_is_being_typed_is_handed_out_within_a_second() {
    let mut harness = open(Page::Biometry);
    assert!(kept(&harness).is_empty());
    type_into(&mut harness, "Axial length", "23.4");
    wait_a_second(&mut harness);
    let first = kept(&harness);
    let [texts] = first.as_slice() else {
        panic!("{first:?}");
    };
    let [typed] = texts.as_slice() else {
        panic!("{texts:?}");
    };
    assert_eq!(typed.case, CaseId("0".to_owned()));
    assert_eq!(typed.page, "biometry");
    // The field of the operated eye does not name it; the text that stands alone has to.
    assert_eq!(typed.what, "Axial length, right eye");
    assert_eq!(typed.text, "23.4");
    // Nothing more while nothing more is typed.
    wait_a_second(&mut harness);
    assert_eq!(kept(&harness).len(), 1);
    harness.get_by_label("Axial length").type_text("1");
    harness.step();
    wait_a_second(&mut harness);
    assert_eq!(kept(&harness)[1][0].text, "23.41");
    // Given back by the Escape key: nothing is left to be kept.
    harness.key_press(Key::Escape);
    harness.step();
    wait_a_second(&mut harness);
    assert_eq!(kept(&harness)[2], []);
}

#[test]
fn a_text_that_was_taken_is_kept_until_the_drive_has_its_case() {
    let mut harness = open(Page::Biometry);
    harness.state_mut().holds_saves_back = true;
    fill(&mut harness, "Axial length", "23.41");
    wait_a_second(&mut harness);
    assert_eq!(kept(&harness).pop().unwrap()[0].text, "23.41");
    assert!(is_said(&harness, "Saving…"));
    assert!(!is_said(&harness, "Saved"));
    let saved = harness.state_mut().saved_late.pop().unwrap();
    harness.state_mut().desk.accept(saved);
    harness.run();
    wait_a_second(&mut harness);
    assert_eq!(kept(&harness).pop().unwrap(), []);
    assert!(texts(&harness).contains(&"Saved 10:42".to_owned()));
}

/// A meridian alone makes no reading: it is in no case, and no save takes it along.
#[test]
fn a_part_of_a_reading_is_kept_although_its_field_gave_it_on() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.eyes.right.keratometry = None;
    let mut bench = Bench::new(vec![draft], light());
    bench.open(0);
    let mut harness = harness(bench, HIGH);
    click(&mut harness, "Keratometry in, mm");
    fill(&mut harness, "Flat reading", "7.80");
    harness.get_by_label("Not accepted, not saved: Keratometry, right eye");
    wait_a_second(&mut harness);
    let texts = kept(&harness).pop().unwrap();
    assert!(texts.iter().any(|typed| typed.text == "7.80"), "{texts:?}");
}

#[test]
fn the_foot_says_saved_of_nothing_that_is_not_on_the_drive() {
    let mut harness = open(Page::Biometry);
    assert!(texts(&harness).contains(&"Saved".to_owned()));
    type_into(&mut harness, "Axial length", "2");
    harness.step();
    assert!(is_said(&harness, "Saving…"));
    assert!(!is_said(&harness, "Saved"));
    harness.key_press(Key::Escape);
    harness.run();
    assert!(texts(&harness).contains(&"Saved".to_owned()));
    fill(&mut harness, "Axial length", "2.284");
    assert!(is_said(&harness, "The rest is saved"));
    assert!(is_said(&harness, "Not accepted, not saved: Axial length"));
    assert!(!texts(&harness).contains(&"Saved".to_owned()));
    fill(&mut harness, "Lens thickness", "4.91");
    assert!(texts(&harness).contains(&"The rest is saved, 10:42".to_owned()));
}

#[test]
fn a_text_that_was_left_behind_is_put_into_its_field_by_an_act_and_taken_by_another() {
    let left = left_by_typing(Page::Biometry, "Axial length", "23.41");
    let mut harness = offered(&left, Page::Lens);
    let before = harness.state().draft().clone();
    assert!(is_said(
        &harness,
        "Axial length, right eye: \"23.41\" was being typed (24 Nov 2026, 10:42) and was not saved"
    ));
    click(&mut harness, "Put it in the field: Axial length, right eye");
    assert_eq!(harness.state().desk.page(), Page::Biometry);
    assert_eq!(*harness.state().draft(), before, "it is put in, not taken");
    assert!(!is_said(&harness, "was being typed"));
    assert!(texts(&harness).contains(&"23.41".to_owned()));
    // It is kept as typed here before it is forgotten where it was left.
    let told = harness.state().told.iter();
    let told: Vec<_> = told
        .filter(|it| matches!(it, Request::KeepTyped(_) | Request::SettleLeft(_)))
        .collect();
    let typed = Request::KeepTyped(vec![left.typed.clone()]);
    assert_eq!(told, [&typed, &Request::SettleLeft(left.id)]);
    harness.key_press(Key::Enter);
    harness.run();
    let length = harness.state().draft().eyes.right.axial_length.clone();
    assert_eq!(length.unwrap().value.get(), Micrometers::new(23_410));
}

#[test]
fn a_text_that_is_not_wanted_changes_nothing() {
    let left = left_by_typing(Page::Biometry, "Axial length", "23.41");
    let mut harness = offered(&left, Page::Biometry);
    let before = harness.state().draft().clone();
    click(
        &mut harness,
        "Dismiss what was typed: Axial length, right eye",
    );
    assert!(!is_said(&harness, "was being typed"));
    assert_eq!(*harness.state().draft(), before);
    assert!(harness.state().told.contains(&Request::SettleLeft(left.id)));
    assert!(kept(&harness).is_empty());
}

/// The window comes back to another case, or none.
#[test]
fn a_text_of_another_case_leads_to_it() {
    let mut left = left_by_typing(Page::Biometry, "Axial length", "23.41");
    left.typed.case = CaseId("1".to_owned());
    let mut harness = offered(&left, Page::Biometry);
    assert!(is_said(&harness, "In the case of Ferris, Ada something"));
    assert!(!is_said(&harness, "Put it in the field"));
    click(&mut harness, "Open the case of Ferris, Ada");
    assert_eq!(harness.state().desk.session().unwrap().case().0, "1");
    assert!(is_said(&harness, "\"23.41\" was being typed"));
}

/// The words of a decision come back as words: the eye stays what it is until the button is pressed.
#[test]
fn the_words_of_a_decision_decide_nothing_when_they_are_put_in() {
    let ask = "Change the operative eye…";
    let mut first = open(Page::Biometry);
    click(&mut first, ask);
    let reason = "Reason for the change";
    type_into(&mut first, reason, "wrong box");
    wait_a_second(&mut first);
    let typed = kept(&first).pop().unwrap().remove(0);
    assert_eq!(typed.text, "wrong box");
    let left = LeftText {
        id: LeftId(1),
        typed,
        patient: None,
        at: NaiveDate::MIN.and_hms_opt(0, 0, 0).unwrap(),
    };
    let mut harness = offered(&left, Page::Biometry);
    let before = harness.state().draft().clone();
    let put_in = format!("Put it in the field: {reason}");
    click(&mut harness, &put_in);
    harness.run();
    wait_a_second(&mut harness);
    // Nobody asked to change the eye: the field is not there, and the text is not lost.
    assert!(is_said(&harness, "\"wrong box\" was not put in"));
    assert!(!harness.state().told.contains(&Request::SettleLeft(left.id)));
    click(&mut harness, ask);
    click(&mut harness, &put_in);
    wait_a_second(&mut harness);
    assert!(texts(&harness).contains(&"wrong box".to_owned()));
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(*harness.state().draft(), before);
}

/// A signed case, a demo, a second look and a signature: nothing goes in, and nothing is kept.
#[test]
fn what_is_locked_invented_blind_or_signing_is_left_alone() {
    let mut invented = Bench::demo(vec![demo(HARD_AND_SHALLOW)]);
    invented.open(0);
    let mut invented = harness(invented, HIGH);
    type_into(&mut invented, "Axial length", "23.4");
    wait_a_second(&mut invented);
    assert!(kept(&invented).is_empty());

    let left = left_by_typing(Page::Biometry, "Axial length", "23.41");
    let mut signed = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    signed.sheets = vec![SheetRow {
        number: SheetNumber::FIRST,
        plans: Planned::of(&demo(HARD_AND_SHALLOW)),
        by: "A. Okafor".to_owned(),
        at: "2026-11-24T10:00:00".parse().unwrap(),
        standing: Standing::Current,
    }];
    signed.open(0);
    signed.desk.accept(Answer::Left(vec![left]));
    let signed = harness(signed, HIGH);
    let button = signed.get_by_label("Put it in the field: Axial length, right eye");
    assert!(button.accesskit_node().is_disabled());

    let mut harness = open(Page::Sheet);
    type_into(&mut harness, "Consented target, again", "-0.3");
    wait_a_second(&mut harness);
    assert!(kept(&harness).is_empty());

    let mut harness = open(Page::Biometry);
    click(&mut harness, "Second look…");
    let field = texts(&harness);
    let field = field.iter().find(|text| text.starts_with("Axial length"));
    let field = field.expect("it asks for the length").clone();
    type_into(&mut harness, &field, "23.4");
    wait_a_second(&mut harness);
    assert!(kept(&harness).is_empty());
}

/// The person was told what is not accepted and goes on: it is given up with the window.
#[test]
fn what_is_given_up_by_closing_is_kept_no_longer() {
    let mut harness = open(Page::Biometry);
    fill(&mut harness, "Axial length", "2.284");
    wait_a_second(&mut harness);
    assert_eq!(kept(&harness).pop().unwrap()[0].text, "2.284");
    for _ in 0..2 {
        harness.state_mut().desk.ask(Request::Quit);
        harness.run();
    }
    wait_a_second(&mut harness);
    let told = &harness.state().told;
    let end = &told[told.len() - 2..];
    assert_eq!(end, [Request::KeepTyped(Vec::new()), Request::Quit]);
}
