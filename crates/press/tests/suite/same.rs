//! What comes through the press is what the sheet is.

use millrace_press::{PressError, Subject};
use millrace_sheet::{Outdated, Sheet, SheetError, Template};
use millrace_wording::{DecimalSign, Words};

use crate::support::{arrangement, by, cases, plan, plans, press, shipped};

#[test]
fn a_signed_sheet_comes_through_the_press_as_it_is() {
    let (mut press, plan) = (press(), plan());
    let sheet = Sheet::signed(&plan, shipped()).unwrap();
    let subject = Subject::Signed(&plan);
    assert_eq!(press.pdf(&subject, shipped()), Ok(sheet.pdf().unwrap()));
    assert_eq!(
        press.pages(&subject, shipped(), 1.5),
        Ok(sheet.pages(1.5)),
        "pictures"
    );
    assert_eq!(press.check(&plan, shipped()), Ok(()));
}

#[test]
fn an_outdated_sheet_comes_through_the_press_as_it_is() {
    let (mut press, plan) = (press(), plan());
    let at = "2026-12-02T07:05:00.125Z".parse().unwrap();
    let number = millrace_core::signing::SheetNumber::new(43).unwrap();
    for why in [Outdated::SupersededBy(number), Outdated::ChangedSince(at)] {
        let sheet = Sheet::outdated(&plan, why, shipped()).unwrap();
        let subject = Subject::Outdated { plan: &plan, why };
        assert_eq!(press.pdf(&subject, shipped()), Ok(sheet.pdf().unwrap()));
    }
}

#[test]
fn a_draft_and_a_list_come_through_the_press_as_they_are() {
    let mut press = press();
    let at = "2026-12-01T16:40:00.25Z".parse().unwrap();
    for (name, draft) in cases::cases() {
        let document = cases::document(&draft);
        let sheet = Sheet::draft(&document, at, shipped()).unwrap();
        let subject = Subject::Draft {
            document: &document,
            at,
        };
        assert_eq!(
            press.pages(&subject, shipped(), 0.5),
            Ok(sheet.pages(0.5)),
            "{name}"
        );
    }
    let (plans, day) = (plans(2), cases::date(2026, 12, 3));
    let without = [cases::not_signed()];
    let page = Sheet::list_page((&plans, &without), (day, at), shipped()).unwrap();
    let subject = Subject::List {
        plans: &plans,
        without: &without,
        day,
        at,
    };
    assert_eq!(press.pdf(&subject, shipped()), Ok(page.pdf().unwrap()));
}

/// Paper, arrangement, language and decimal sign arrive.
#[test]
fn the_setting_comes_through_the_press() {
    let (mut press, plan) = (press(), plan());
    let own = Template::with_arrangement(
        Template::shipped_arrangement().replace("tick(labels.eye_marked)", "tick[In our theatre]"),
    );
    let comma = Words {
        decimals: DecimalSign::Comma,
        ..Words::ENGLISH
    };
    let mut seen = Vec::new();
    for (paper, template, words) in [
        (
            millrace_sheet::Paper::A4,
            &Template::shipped(),
            Words::ENGLISH,
        ),
        (
            millrace_sheet::Paper::Letter,
            &Template::shipped(),
            Words::ENGLISH,
        ),
        (millrace_sheet::Paper::A4, &own, Words::ENGLISH),
        (
            millrace_sheet::Paper::A4,
            &Template::shipped(),
            Words::PSEUDO,
        ),
        (millrace_sheet::Paper::A4, &Template::shipped(), comma),
    ] {
        let setting = millrace_sheet::Setting {
            paper,
            template,
            words,
        };
        let pdf = press.pdf(&Subject::Signed(&plan), setting).unwrap();
        assert_eq!(pdf, Sheet::signed(&plan, setting).unwrap().pdf().unwrap());
        assert!(!seen.contains(&pdf), "{setting:?}");
        seen.push(pdf);
    }
}

/// A refusal arrives with its place, and the process goes on.
#[test]
fn a_refusal_is_the_refusal_of_the_sheet() {
    let (mut press, plan) = (press(), plan());
    let covered =
        arrangement("place(top + left, dy: -230pt, rect(width: 300pt, height: 60pt, fill: white))");
    for template in [
        covered,
        arrangement("pagebreak()"),
        arrangement("move(dx: 500pt)[a long line that leaves the page]"),
    ] {
        let refused: SheetError = Sheet::signed(&plan, by(&template)).unwrap_err();
        let answer = press.pdf(&Subject::Signed(&plan), by(&template));
        assert_eq!(answer, Err(PressError::Sheet(refused)));
    }
    let breaks = arrangement("pagebreak()");
    let refused = Sheet::signed(&plan, by(&breaks)).unwrap_err();
    let answer = press.check(&plan, by(&breaks));
    assert_eq!(answer, Err(PressError::Sheet(refused)));
}
