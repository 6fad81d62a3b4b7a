//! The Sheet page: what theatre needs, and the signature.

use crate::support::{Bench, HARD_AND_SHALLOW, click, date, demo, fill, harness, light, texts};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::{Draft, TheatrePlan, Told};
use millrace_core::quantity::HundredthDiopters;
use millrace_core::signing::SheetNumber;
use millrace_desk::exchange::{CaseId, PagesOf, Place, Request, SheetUse, Standing, Which};
use millrace_desk::settings::PaperSize;
use millrace_desk::whereabouts::Page;
use millrace_wording::Words;

const HIGH: [f32; 2] = [1280.0, 2400.0];

fn on_page(draft: Draft) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], light());
    bench.open(0);
    bench.desk.show_page(Page::Sheet);
    harness(bench, HIGH)
}

fn sign(harness: &mut Harness<'_, Bench>, target: &str) {
    fill(harness, "Role", "consultant surgeon");
    fill(harness, "Consented target, again", target);
    click(harness, "Sign this plan");
}

fn signatures(harness: &Harness<'_, Bench>) -> usize {
    let told = harness.state().told.iter();
    told.filter(|request| matches!(request, Request::Sign(_)))
        .count()
}

#[test]
fn a_change_after_signing_is_signed_anew_and_supersedes() {
    let mut harness = on_page(demo(HARD_AND_SHALLOW));
    harness.get_by_label("Nothing of the plan stands against its signature");
    sign(&mut harness, "-0.30");
    assert_eq!(harness.state().sheets.len(), 1);
    assert!(
        texts(&harness)
            .iter()
            .any(|text| text.ends_with(": current"))
    );
    harness.get_by_label("Signed as sheet 1; its pages are on the Sheet page");
    harness.get_by_label_contains("The case is signed as it stands, as sheet 1");
    assert!(harness.query_by_label("Sign this plan").is_none());

    let mut changed = harness.state().draft().clone();
    changed.lens.target = Some(HundredthDiopters::new(-40));
    changed.lens.consented_target = changed.lens.target;
    let mut bench = Bench::new(vec![changed], light());
    bench.sheets = harness.state().sheets.clone();
    bench.sheets[0].standing = Standing::ChangedSince;
    bench.open(0);
    bench.desk.show_page(Page::Sheet);
    let mut harness = crate::support::harness(bench, HIGH);
    sign(&mut harness, "-0.40");
    let sheets = &harness.state().sheets;
    assert_eq!(sheets.len(), 2);
    assert_eq!(sheets[0].standing, Standing::Superseded(sheets[1].number));
    let told = texts(&harness).join("\n");
    assert!(told.contains("superseded by sheet"), "{told}");
}

#[test]
fn another_target_than_the_plans_is_refused_with_what_to_do() {
    let mut harness = on_page(demo(HARD_AND_SHALLOW));
    sign(&mut harness, "+0.30");
    assert!(harness.state().sheets.is_empty());
    let told = texts(&harness).join("\n");
    // Both numbers are told, with their signs.
    for text in ["+0.30 D", "\u{2212}0.30 D", "read the consent again"] {
        assert!(told.contains(text), "{text}: {told}");
    }
}

#[test]
fn nothing_can_be_signed_while_something_stands_against_it() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.reasons.clear();
    let mut harness = on_page(draft);
    harness.get_by_label("Before it can be signed");
    fill(&mut harness, "Role", "surgeon");
    fill(&mut harness, "Consented target, again", "-0.30");
    click(&mut harness, "Sign this plan");
    assert_eq!(signatures(&harness), 0);
}

#[test]
fn theatres_lists_are_entered_ordered_and_taken_out() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.theatre = TheatrePlan::default();
    let mut harness = on_page(draft);
    for (index, step) in ["frown tunnel", "viscoelastic in front of the nucleus"]
        .iter()
        .enumerate()
    {
        let name = format!("Technique, step {}", index + 1);
        fill(&mut harness, &name, step);
    }
    click(&mut harness, "Technique, step 2, up");
    let technique = harness.state().draft().theatre.technique.clone();
    assert_eq!(
        technique,
        ["viscoelastic in front of the nucleus", "frown tunnel"]
    );
    click(&mut harness, "Technique, step 1, remove");
    assert_eq!(harness.state().draft().theatre.technique, ["frown tunnel"]);

    click(&mut harness, "Allergies, none known");
    assert_eq!(
        harness.state().draft().theatre.allergies,
        Some(Told::NoneKnown)
    );
    click(&mut harness, "Allergies, as listed");
    fill(&mut harness, "Allergies 1", "iodine");
    let these = Told::These(vec!["iodine".to_owned()]);
    assert_eq!(harness.state().draft().theatre.allergies, Some(these));
    click(&mut harness, "Allergies, not asked");
    assert_eq!(harness.state().draft().theatre.allergies, None);
}

/// The pages of another sheet or another case come late: they are not taken for these.
#[test]
fn pages_of_something_else_are_not_drawn() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.holds_pages_back = true;
    bench.open(0);
    bench.desk.show_page(Page::Sheet);
    let mut harness = harness(bench, HIGH);
    harness.get_by_label("The pages are being set…");
    let asked = harness
        .state()
        .told
        .iter()
        .find_map(|request| match request {
            Request::Sheet(SheetUse::Show(of), _) => Some(of.clone()),
            _ => None,
        });
    let wanted = asked.unwrap();
    let is_drawn = |harness: &Harness<'_, Bench>| {
        texts(harness)
            .iter()
            .any(|text| text == "Print preview, page 1 of 1")
    };
    for of in [
        PagesOf {
            which: Which::Signed(SheetNumber::FIRST),
            ..wanted.clone()
        },
        PagesOf {
            case: CaseId("another".to_owned()),
            ..wanted.clone()
        },
        PagesOf {
            version: wanted.version + 1,
            ..wanted.clone()
        },
        PagesOf {
            words: Words::PSEUDO,
            ..wanted.clone()
        },
    ] {
        harness.state_mut().give_pages(of);
        harness.run();
        assert!(!is_drawn(&harness));
        harness.get_by_label("The pages are being set…");
    }
    harness.state_mut().give_pages(wanted);
    harness.run();
    assert!(is_drawn(&harness));
}

#[test]
fn the_page_in_light() {
    let mut harness = on_page(demo(HARD_AND_SHALLOW));
    sign(&mut harness, "-0.30");
    harness.snapshot("sheet_signed");
}

#[test]
fn the_sheets_of_the_open_cases_day_are_asked_for_with_a_folder() {
    let mut harness = on_page(demo(HARD_AND_SHALLOW));
    click(&mut harness, "Case, files, sheets…");
    click(&mut harness, "Sheets of 3 Dec 2026…");
    harness
        .get_by_label("Path of the folder")
        .type_text("/tmp/theatre");
    harness.run();
    click(&mut harness, "Write");
    let wanted = Request::WriteDay(
        date(2026, 12, 3),
        PaperSize::A4,
        Place::Typed("/tmp/theatre".to_owned()),
    );
    assert_eq!(harness.state().told.last(), Some(&wanted));
}

#[test]
fn a_case_without_a_day_offers_no_sheets_of_a_day() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.operation.date = None;
    let harness = on_page(draft);
    assert!(
        !texts(&harness)
            .iter()
            .any(|text| text.starts_with("Sheets of"))
    );
}

/// Signed once and changed since, in a window of this size, with the pages at hand.
fn changed_since(size: [f32; 2]) -> Harness<'static, Bench> {
    let mut signed = on_page(demo(HARD_AND_SHALLOW));
    sign(&mut signed, "-0.30");
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.sheets.clone_from(&signed.state().sheets);
    bench.sheets[0].standing = Standing::ChangedSince;
    bench.open(0);
    bench.desk.show_page(Page::Sheet);
    harness(bench, size)
}

/// Beside the form where there is room for both, under it in a narrow window.
#[test]
fn the_pages_stand_beside_the_form_where_the_window_is_wide() {
    for (size, is_beside) in [
        ([1920.0, 1080.0], true),
        ([1600.0, 900.0], true),
        ([1280.0, 820.0], false),
        ([1100.0, 720.0], false),
    ] {
        let harness = changed_since(size);
        let page = harness.get_by_label("Print preview, page 1 of 1").rect();
        let sign = harness.get_by_label("Sign this plan").rect();
        let field = harness.get_by_label("Viscoelastic").rect();
        if is_beside {
            assert!(field.right() < page.left(), "{size:?}: {field:?} {page:?}");
            assert!(page.top() < field.bottom(), "{size:?}: {field:?} {page:?}");
            assert!(300.0 < page.width(), "{size:?}: {page:?}");
            // Neither under the findings nor far from them.
            let findings = size[0] - 284.0;
            assert!(page.right() <= findings, "{size:?}: {page:?}");
            assert!(findings - 100.0 < page.right(), "{size:?}: {page:?}");
        } else {
            assert!(sign.bottom() < page.top(), "{size:?}: {sign:?} {page:?}");
        }
    }
}

/// What was signed before stands over the signature, which ends the form.
#[test]
fn the_signature_stands_at_the_end_of_the_form() {
    let harness = changed_since([1920.0, 1080.0]);
    let top = |label: &str| harness.get_by_label(label).rect().top();
    let tops = [
        "For theatre",
        "Viscoelastic",
        "Signed sheets",
        "Role",
        "Sign this plan",
    ]
    .map(top);
    assert!(tops.is_sorted(), "{tops:?}");
}

#[test]
fn the_page_in_a_wide_window() {
    changed_since([1920.0, 1080.0]).snapshot("sheet_wide");
}

/// A button that would change a signed plan looks locked, and takes nothing.
#[test]
fn the_buttons_of_a_locked_form_are_locked() {
    let mut harness = on_page(demo(HARD_AND_SHALLOW));
    let take_out = "Technique, step 2, remove";
    assert!(
        !harness
            .get_by_label(take_out)
            .accesskit_node()
            .is_disabled()
    );
    sign(&mut harness, "-0.30");
    assert!(
        harness
            .get_by_label(take_out)
            .accesskit_node()
            .is_disabled()
    );
    let technique = harness.state().draft().theatre.technique.clone();
    click(&mut harness, take_out);
    assert_eq!(harness.state().draft().theatre.technique, technique);
}
