//! A whole theatre list: every sheet, its page, and how far it has come.

use crate::support::{case, cases, date, not_signed, reader, signed};
use millrace_core::case::Slot;
use millrace_sheet::{Paper, Progress, Setting, Sheet, Template, pdfs};
use millrace_wording::Words;

#[test]
fn a_list_has_every_sheet_and_a_refused_one_keeps_back_no_other() {
    let mut plans: Vec<_> = cases()
        .iter()
        .filter_map(|(_, draft)| signed(draft).ok())
        .collect();
    // A lens with a name that its block has no room for.
    let mut too_long = case("ordinary-eye");
    let lens = too_long.lens.lenses.get_mut(Slot::Planned).unwrap();
    lens.record.name = "x".repeat(100);
    plans.insert(2, signed(&too_long).unwrap());
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    let mut told = Vec::new();
    let made = pdfs(&plans, setting, |progress| told.push(progress));
    assert_eq!(told.last(), Some(&Progress { done: 14, of: 14 }));
    for (index, sheet) in made.iter().enumerate() {
        assert_eq!(
            sheet.is_err(),
            index == 2,
            "{index}: {:?}",
            sheet.as_ref().err()
        );
    }

    plans.remove(2);
    let at = "2026-12-02T18:00:00Z".parse().unwrap();
    let without = not_signed();
    let page = Sheet::list_page((&plans, &[without]), (date(2026, 12, 3), at), setting).unwrap();
    assert_eq!(page.overlaps(), Vec::<[_; 2]>::new());
    let text: String = reader::pages(&page.pdf().unwrap()).concat();
    let close = |text: &str| text.replace([' ', '\u{200b}'], "");
    let text = close(&text);
    assert!(text.contains("Theatrelist,3Dec2026"));
    assert!(
        text.contains("Mbeki-Lindqvist,SunnivaNo.88-1004,bornnotstatednotstatednotsigned"),
        "{text}"
    );
    for plan in &plans {
        let draft = plan.draft();
        for wanted in [
            draft.patient.name.clone().unwrap(),
            draft.patient.number.clone().unwrap(),
            draft.lens.power().unwrap().to_string(),
            plan.fingerprint().short().to_string(),
        ] {
            assert!(text.contains(&close(&wanted)), "{wanted}");
        }
    }
}
