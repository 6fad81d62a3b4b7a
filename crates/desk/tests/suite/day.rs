//! The operations of a day: what the desk shows where no case is open, and by a key.

use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use millrace_core::biometry::Side;
use millrace_core::case::{Draft, State};
use millrace_core::signing::SheetNumber;
use millrace_desk::exchange::Request;
use millrace_desk::settings::{Settings, ThemeChoice};
use millrace_desk::whereabouts::Page;

use crate::support::{
    Bench, HARD_AND_SHALLOW, SMALLEST, click, date, demo, harness, light, settings, texts,
};

const WILD: &str = include_str!("../../../../demo-data/cases/wild-fellow-eye.ron");
const TORIC: &str = include_str!("../../../../demo-data/cases/astigmatic-eye.ron");

/// Nothing of it but who, and which eye.
fn not_measured() -> Draft {
    let mut draft = Draft::default();
    draft.patient.name = Some("Lindgren-Osei, Matilda".to_owned());
    draft.patient.number = Some("40-0007".to_owned());
    draft.operation.eye = Some(Side::Left);
    draft.operation.date = Some(date(2026, 12, 3));
    draft
}

/// A day with everything that can be on one, and one operation on the day after.
fn bench(settings: Settings) -> Bench {
    let mut later = demo(TORIC);
    later.operation.date = Some(date(2026, 12, 4));
    later.patient.name = Some("Oyelaran, Folake".to_owned());
    later.patient.number = Some("40-0011".to_owned());
    let drafts = vec![
        demo(HARD_AND_SHALLOW),
        demo(TORIC),
        demo(WILD),
        not_measured(),
        later,
    ];
    let mut bench = Bench::new(drafts, settings);
    bench.marks = vec![
        (0, State::Signed, SheetNumber::FIRST),
        (1, State::Planned, SheetNumber::new(5).unwrap()),
    ];
    bench
}

fn rows(harness: &Harness<'_, Bench>) -> Vec<String> {
    let mut texts = texts(harness);
    texts.retain(|text| text.contains(" · ") && text.contains(" EYE"));
    texts
        .iter()
        .map(|text| text.replace(['\u{a0}', '\u{202f}'], " "))
        .collect()
}

fn says(harness: &Harness<'_, Bench>, text: &str) -> bool {
    texts(harness).iter().any(|said| said == text)
}

/// The sheets of the marks, the demo's own Stop and reasons: in words, beside each other.
#[test]
fn where_no_case_is_open_the_next_day_is_shown() {
    let harness = harness(bench(light()), SMALLEST);
    assert!(says(&harness, "Thursday 3 Dec 2026"));
    assert!(says(
        &harness,
        "4 operations · 1 signed · 1 changed since its sheet · 1 planned, to be signed · 1 not measured"
    ));
    assert_eq!(
        rows(&harness),
        [
            "Okonjo, Adaeze, 40-2291, RIGHT EYE · Weir one-piece +22.50 D · manual small-incision surgery \
             (SICS) · signed, sheet 1 · none open",
            "Thorvald-Ames, Ingrid, 31-0117, RIGHT EYE · Headrace toric +21.00 D, cylinder +2.40 D at 82° · \
             phacoemulsification · CHANGED SINCE sheet 5 · none open",
            "Whitcombe, Aurelia, 14-6653, RIGHT EYE · Weir one-piece +21.50 D · phacoemulsification · \
             planned, not signed · Stop 1, Review 1",
            "Lindgren-Osei, Matilda, 40-0007, LEFT EYE · lens not chosen · not decided · biometry is missing; \
             target is missing; lens is not chosen; approach is not decided · Review 1",
        ]
    );
}

#[test]
fn a_row_is_reached_by_arrows_and_opened_by_enter() {
    let mut harness = harness(bench(light()), SMALLEST);
    let first = rows(&harness)[0].clone();
    let nodes = harness.root().children_recursive();
    let row = nodes.into_iter().find(|node| {
        let label = node.accesskit_node().label().unwrap_or_default();
        label.replace(['\u{a0}', '\u{202f}'], " ") == first
    });
    row.unwrap().focus();
    harness.run();
    harness.key_press(Key::ArrowDown);
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    let opened = harness.state().draft().patient.name.clone();
    assert_eq!(opened.as_deref(), Some("Thorvald-Ames, Ingrid"));
    // In front stands the case now, and the key leads back to the day and to the case again.
    assert_eq!(rows(&harness), Vec::<String>::new());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::D);
    harness.run();
    assert_eq!(rows(&harness).len(), 4);
    click(&mut harness, "Back to the page");
    assert_eq!(rows(&harness), Vec::<String>::new());
}

#[test]
fn other_days_are_turned_to_and_back() {
    let mut harness = harness(bench(light()), SMALLEST);
    click(&mut harness, "Day after, 4 Dec 2026");
    assert!(says(&harness, "Friday 4 Dec 2026"));
    assert_eq!(rows(&harness).len(), 1);
    click(&mut harness, "Day before, 3 Dec 2026");
    assert_eq!(rows(&harness).len(), 4);
    click(&mut harness, "Day after, 4 Dec 2026");
    click(&mut harness, "Today or next");
    assert_eq!(rows(&harness).len(), 4);
}

/// The case is out of sight: undo does nothing to it, and Escape leads back.
#[test]
fn nothing_is_undone_behind_the_day() {
    let mut bench = bench(light());
    bench.open(2);
    bench.desk.show_page(Page::Lens);
    let mut harness = harness(bench, SMALLEST);
    let before = harness.state().draft().lens.target;
    crate::support::enter(&mut harness, "Target", "-1.25");
    assert_ne!(harness.state().draft().lens.target, before);
    let changed = harness.state().draft().clone();
    click(&mut harness, "Day");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(*harness.state().draft(), changed);
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(rows(&harness), Vec::<String>::new());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().draft().lens.target, before);
}

/// What was changed in a case is told of it on the day at once.
#[test]
fn a_change_is_seen_on_the_day() {
    let mut bench = bench(light());
    bench.open(2);
    let mut harness = harness(bench, SMALLEST);
    click(&mut harness, "Day");
    let of_wild = |harness: &Harness<'_, Bench>| {
        let rows = rows(harness);
        rows.into_iter()
            .find(|row| row.starts_with("Whitcombe"))
            .unwrap()
    };
    assert!(of_wild(&harness).contains("phacoemulsification"));
    harness.state_mut().cases[2].2.approach.approach = None;
    harness
        .state_mut()
        .desk
        .accept(millrace_desk::exchange::Answer::ListChanged);
    harness.run();
    assert!(
        of_wild(&harness).contains("approach is not decided"),
        "{}",
        of_wild(&harness)
    );
}

/// Where the list has no room beside it, both lead to each other by mouse.
#[test]
fn where_there_is_no_room_day_and_list_lead_to_each_other() {
    let mut harness = harness(bench(settings(ThemeChoice::Light, 200)), SMALLEST);
    assert_eq!(rows(&harness), Vec::<String>::new());
    click(&mut harness, "Day");
    assert_eq!(rows(&harness).len(), 4);
    click(&mut harness, "Theatre list");
    assert_eq!(rows(&harness), Vec::<String>::new());
}

#[test]
fn its_sheets_are_asked_for_with_its_day() {
    let mut harness = harness(bench(light()), SMALLEST);
    click(&mut harness, "Sheets of 3 Dec 2026…");
    crate::support::enter(&mut harness, "Path of the folder", "/tmp/sheets");
    let told = &harness.state().told;
    let is_asked = told
        .iter()
        .any(|it| matches!(it, Request::WriteDay(day, ..) if *day == date(2026, 12, 3)));
    assert!(is_asked, "{told:?}");
}

#[test]
fn a_register_without_a_day_says_so() {
    let harness = harness(Bench::new(vec![Draft::default()], light()), SMALLEST);
    assert!(says(
        &harness,
        "No operation has a day yet. Choose a case from the theatre list, or begin one"
    ));
}

fn picture(name: &str, settings: Settings, size: [f32; 2]) {
    let mut harness = harness(bench(settings), size);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::D);
    harness.run();
    harness.snapshot(name);
}

#[test]
fn the_day_in_light() {
    picture("day_light", light(), [1280.0, 820.0]);
}

#[test]
fn the_day_in_dark() {
    picture("day_dark", settings(ThemeChoice::Dark, 100), SMALLEST);
}

#[test]
fn the_day_in_a_wide_window() {
    let mut harness = harness(bench(light()), [1920.0, 1080.0]);
    click(&mut harness, "Earlier, Whitcombe, Aurelia");
    harness.snapshot("day_wide");
}

#[test]
fn the_day_with_text_twice_as_large() {
    picture("day_200", settings(ThemeChoice::Light, 200), SMALLEST);
}

/// Four hundred operations of the months before: what is to be done is in sight.
#[test]
fn the_list_opens_at_the_day() {
    let mut drafts: Vec<_> = (0..400)
        .map(|index| {
            let mut draft = not_measured();
            draft.patient.name = Some(format!("Past, {index:03}"));
            draft.operation.date = Some(date(2026, 1 + index / 50, 1 + index % 28));
            draft
        })
        .collect();
    drafts.sort_by_key(|draft| draft.operation.date);
    drafts.extend([not_measured(), demo(HARD_AND_SHALLOW)]);
    let mut harness = harness(Bench::new(drafts, light()), SMALLEST);
    let listed = |harness: &Harness<'_, Bench>, name: &str| {
        let texts = texts(harness);
        texts
            .iter()
            .any(|text| text.starts_with(name) && text.contains(" eye · "))
    };
    assert!(listed(&harness, "Okonjo, Adaeze, 40-2291"));
    assert!(!listed(&harness, "Past, 000"));
    // Once the person moved in it, it stays where it is.
    click(&mut harness, "Search name or number");
    harness.key_press(Key::ArrowDown);
    harness.run();
    harness.key_press(Key::Home);
    harness.run();
    assert!(listed(&harness, "Past, 000"));
}
