//! Every page as a picture, compared with the one that was looked at and accepted.
//! `UPDATE_SNAPSHOTS=1` renews those that differ: look at each before it is committed.

mod compare;
mod faults;

use compare::{Mode, check, kept, pictures};
use millrace_core::case::Draft;
use millrace_core::signing::SignedPlan;
use millrace_sheet::{Outdated, Paper, Setting, Sheet, Template};
use millrace_wording::Words;
use rayon::prelude::*;

use crate::outdated::{changed, superseded};
use crate::support::hard::{
    MORE_NAMES, NAMES, full_theatre, named, thirty_findings, toric_and_hard,
};
use crate::support::{case, cases, date, document, not_signed, sheet, signed};

/// Cases of the demo that nobody can sign as they stand: their print is a draft.
const UNSIGNED: [&str; 2] = ["contact-ultrasound-only", "wild-fellow-eye"];

fn hard() -> Vec<(String, Draft)> {
    let mut hard = vec![
        ("toric-and-hard".to_owned(), toric_and_hard()),
        ("thirty-findings".to_owned(), thirty_findings()),
        (
            "full-theatre".to_owned(),
            full_theatre(case("ordinary-eye")),
        ),
    ];
    hard.extend(NAMES.map(|(name, text)| (format!("name-{name}"), named(text))));
    hard
}

fn draft_print(draft: &Draft, paper: Paper) -> Sheet {
    let template = Template::shipped();
    let at = "2026-12-01T10:00:00Z".parse().unwrap();
    let setting = Setting {
        paper,
        template: &template,
        words: Words::ENGLISH,
    };
    Sheet::draft(&document(draft), at, setting).unwrap()
}

fn outdated(why: Outdated) -> Sheet {
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    Sheet::outdated(&signed(&toric_and_hard()).unwrap(), why, setting).unwrap()
}

fn list_page() -> Sheet {
    let plans: Vec<_> = cases()
        .iter()
        .filter_map(|(_, draft)| signed(draft).ok())
        .collect();
    list_of(&plans)
}

/// A list of patients with a name in each script that has no pages of its own here.
fn list_of_scripts() -> Sheet {
    let plans = MORE_NAMES.map(|name| signed(&named(name)).unwrap());
    list_of(&plans)
}

fn list_of(plans: &[SignedPlan]) -> Sheet {
    let template = Template::shipped();
    let without = not_signed();
    let at = "2026-12-02T18:00:00Z".parse().unwrap();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    Sheet::list_page((plans, &[without]), (date(2026, 12, 3), at), setting).unwrap()
}

fn assert_as_accepted(sheets: impl ParallelIterator<Item = (String, Sheet)>) {
    let found: Vec<String> = sheets
        .flat_map(|(name, sheet)| check(&name, &pictures(&sheet), (&kept(), Mode::asked_for())))
        .collect();
    assert!(
        found.is_empty(),
        "{}\nwhat is drawn now lies beside each as *.new.png",
        found.join("\n")
    );
}

#[test]
fn the_demo_cases_look_as_accepted() {
    assert_as_accepted(cases().into_par_iter().map(|(name, draft)| {
        let sheet = if UNSIGNED.contains(&name.as_str()) {
            draft_print(&draft, Paper::A4)
        } else {
            sheet(&signed(&draft).unwrap())
        };
        (name, sheet)
    }));
}

#[test]
fn the_hard_cases_look_as_accepted() {
    assert_as_accepted(hard().into_par_iter().map(|(name, draft)| {
        let plan = signed(&draft).unwrap();
        (name, sheet(&plan))
    }));
}

#[test]
fn a_draft_an_outdated_sheet_and_the_list_look_as_accepted() {
    let draft = draft_print(&case("hard-and-shallow"), Paper::Letter);
    assert_as_accepted(
        vec![
            ("draft-letter".to_owned(), draft),
            ("superseded".to_owned(), outdated(superseded())),
            ("changed-since".to_owned(), outdated(changed())),
            ("list".to_owned(), list_page()),
            ("scripts".to_owned(), list_of_scripts()),
        ]
        .into_par_iter(),
    );
}

/// A picture that no test looks at proves nothing.
#[test]
fn no_picture_is_kept_that_nothing_is_compared_with() {
    let mut known: Vec<String> = cases()
        .into_iter()
        .chain(hard())
        .map(|(name, _)| name)
        .collect();
    let others = [
        "draft-letter",
        "superseded",
        "changed-since",
        "list",
        "scripts",
    ];
    known.extend(others.map(str::to_owned));
    let mut seen = Vec::new();
    for entry in std::fs::read_dir(kept()).unwrap() {
        let file = entry.unwrap().file_name().into_string().unwrap();
        if file.ends_with(".new.png") {
            continue;
        }
        let name = file.strip_suffix(".png").unwrap();
        let (name, page) = name.rsplit_once('-').unwrap();
        assert!(page.parse::<usize>().is_ok(), "{file}");
        assert!(known.iter().any(|known| known == name), "{file}");
        seen.push(name.to_owned());
    }
    for name in known {
        assert!(seen.contains(&name), "{name} has no picture");
    }
}
