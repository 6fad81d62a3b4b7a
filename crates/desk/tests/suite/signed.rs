//! A signed case: marked wherever it is shown, and changed by nothing but by saying so.

use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::case::{Draft, State};
use millrace_core::quantity::HundredthDiopters;
use millrace_core::signing::SheetNumber;
use millrace_desk::exchange::{
    Answer, CaseId, CaseRow, Conflict, Listed, Listing, Planned, Revision, SheetRow, Standing,
};
use millrace_desk::whereabouts::Page;

use crate::support::{
    Bench, HARD_AND_SHALLOW, click, demo, enter, harness, light, measuring_room, texts,
};

const HIGH: [f32; 2] = [1280.0, 2400.0];

pub(crate) fn signed_sheet(draft: &Draft) -> SheetRow {
    SheetRow {
        number: SheetNumber::FIRST,
        plans: Planned::of(draft),
        by: "A. Okafor".to_owned(),
        at: "2026-11-24T10:00:00".parse().expect("a moment"),
        standing: Standing::Current,
    }
}

/// A signed case on this page.
fn signed(page: Page) -> Harness<'static, Bench> {
    let draft = demo(HARD_AND_SHALLOW);
    let mut bench = Bench::new(vec![draft.clone()], light());
    bench.sheets = vec![signed_sheet(&draft)];
    bench.open(0);
    bench.desk.show_page(page);
    harness(bench, HIGH)
}

fn shows(harness: &Harness<'_, Bench>, text: &str) -> bool {
    texts(harness)
        .iter()
        .any(|shown| shown.replace('\u{a0}', " ").contains(text))
}

#[test]
fn no_field_of_a_signed_case_takes_anything() {
    for (page, field) in [(Page::Biometry, "Axial length"), (Page::Lens, "Target")] {
        let mut harness = signed(page);
        let before = harness.state().draft().clone();
        assert!(shows(&harness, "SIGNED, sheet 1"), "{page:?}");
        harness.get_by_label("Signed, sheet 1. Its fields are locked");
        enter(&mut harness, field, "-1.00");
        assert_eq!(*harness.state().draft(), before, "{page:?}");
    }
}

/// The keys that choose, on the first fifty stops of every page: nothing of what was signed changes.
#[test]
fn no_key_changes_a_signed_case() {
    for (page, _) in Page::ALL {
        let mut harness = signed(page);
        let before = harness.state().draft().clone();
        for _ in 0..50 {
            for key in [Key::ArrowRight, Key::ArrowDown, Key::Tab] {
                harness.key_press(key);
                harness.step();
            }
        }
        harness.run();
        assert_eq!(*harness.state().draft(), before, "{page:?}");
    }
}

#[test]
fn a_signed_case_changes_after_saying_so_and_is_marked_at_once() {
    let mut harness = signed(Page::Lens);
    let before = harness.state().draft().clone();
    click(&mut harness, "Change the plan…");
    assert_eq!(*harness.state().draft(), before);
    harness.get_by_label_contains("a new sheet has to be signed");
    click(&mut harness, "Leave it as it is signed");
    enter(&mut harness, "Target", "-1.00");
    assert_eq!(*harness.state().draft(), before);

    click(&mut harness, "Change the plan…");
    click(&mut harness, "Change the plan");
    assert!(shows(&harness, "SIGNED, sheet 1"));
    enter(&mut harness, "Target", "-1.00");
    assert_ne!(*harness.state().draft(), before);
    assert!(shows(&harness, "CHANGED SINCE sheet 1"));
    assert!(!shows(&harness, "SIGNED, sheet 1"));
}

/// An undo took back what was done before the signature, and so un-signed the sheet.
#[test]
fn undo_takes_nothing_back_behind_a_signature() {
    let mut draft = demo(HARD_AND_SHALLOW);
    let target = draft.lens.target.take();
    let mut bench = Bench::new(vec![draft], light());
    bench.open(0);
    bench.desk.show_page(Page::Lens);
    let mut harness = harness(bench, HIGH);
    enter(&mut harness, "Target", "-0.30");
    assert_eq!(harness.state().draft().lens.target, target);
    let row = signed_sheet(harness.state().draft());
    let bench = harness.state_mut();
    bench.sheets = vec![row];
    let (case, sheets) = (CaseId("0".to_owned()), Ok(bench.sheets.clone()));
    bench.desk.accept(Answer::Signed { case, sheets });
    harness.run();
    assert!(shows(&harness, "Signed as sheet 1"));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().draft().lens.target, target);
    assert!(shows(&harness, "SIGNED, sheet 1"));

    // After saying so, undo works, and nothing says *signed* any more.
    click(&mut harness, "Change the plan…");
    click(&mut harness, "Change the plan");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().draft().lens.target, None);
    assert!(shows(&harness, "CHANGED SINCE sheet 1"));
    assert!(!shows(&harness, "Signed as sheet 1"));
}

#[test]
fn a_case_whose_sheets_cannot_be_read_is_locked_until_somebody_says_so() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    let (case, revision, draft) = bench.cases[0].clone();
    let before = draft.clone();
    bench.desk.accept(Answer::Opened {
        case,
        revision,
        draft: Box::new(draft),
        sheets: None,
        other_cases: Vec::new(),
    });
    bench.desk.show_page(Page::Lens);
    let mut harness = harness(bench, HIGH);
    assert!(shows(&harness, "ITS SHEETS COULD NOT BE READ"));
    enter(&mut harness, "Target", "-1.00");
    assert_eq!(*harness.state().draft(), before);
}

#[test]
fn the_list_says_what_was_signed_and_what_was_changed_since() {
    let mut harness = signed(Page::Lens);
    let row = |id: &str, state| CaseRow {
        case: CaseId(id.to_owned()),
        name: Some(format!("Weir, {id}")),
        number: None,
        eye: None,
        date: None,
        list_number: None,
        state,
        sheet: Some(SheetNumber::FIRST),
    };
    harness.state_mut().desk.accept(Answer::Listed(Listed {
        search: String::new(),
        listing: Listing::Planned,
        set_aside: 0,
        total: 2,
        start: 0,
        rows: vec![row("A", State::Signed), row("B", State::Planned)],
        days: Vec::new(),
        open: None,
    }));
    harness.run();
    harness.get_by_label_contains("signed, sheet 1");
    harness.get_by_label_contains("CHANGED SINCE sheet 1");
}

/// Somebody else changed the case and signed it while it was being changed here: what is taken over is signed.
#[test]
fn a_case_that_was_signed_elsewhere_is_locked_when_it_is_taken_over() {
    let mut harness = signed(Page::Lens);
    click(&mut harness, "Change the plan…");
    click(&mut harness, "Change the plan");
    let mut theirs = harness.state().draft().clone();
    theirs.lens.target = Some(HundredthDiopters::new(-50));
    let bench = harness.state_mut();
    bench.sheets = vec![signed_sheet(&theirs)];
    bench.desk.accept(Answer::Conflict {
        case: CaseId("0".to_owned()),
        conflict: Conflict {
            revision: Revision("2".to_owned()),
            base: None,
            theirs: Box::new(theirs.clone()),
            by: measuring_room("B. Sato"),
        },
    });
    harness.run();
    click(
        &mut harness,
        "In each line that of B. Sato (measuring room)",
    );
    click(&mut harness, "Save these");
    assert_eq!(*harness.state().draft(), theirs);
    assert!(shows(&harness, "SIGNED, sheet 1"));
    enter(&mut harness, "Target", "-1.00");
    assert_eq!(*harness.state().draft(), theirs);
}
