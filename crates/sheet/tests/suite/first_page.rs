//! What theatre works by stands on the first page, whatever goes on to the next.

use millrace_core::case::second_look::pairs;
use millrace_core::case::{Anesthesia, Draft, SecondLook, Told};
use millrace_core::signing::SignedPlan;
use millrace_sheet::{Paper, PlacedText, Setting, Sheet, Template};
use millrace_wording::Words;
use rayon::prelude::*;

use crate::contents::code_on;
use crate::support::hard::{NAMES, full_theatre, named, thirty_findings, toric_and_hard};
use crate::support::{SIGNER, case, cases, date, sheet, signed};

fn on(paper: Paper, plan: &SignedPlan) -> Sheet {
    let template = Template::shipped();
    let setting = Setting {
        paper,
        template: &template,
        words: Words::ENGLISH,
    };
    Sheet::signed(plan, setting).unwrap()
}

/// Texts of a page, without spaces: a text may stand on two lines.
fn page(sheet: &Sheet, index: usize) -> String {
    let texts = sheet.texts().into_iter();
    let texts = texts.filter(|text| text.page == index);
    texts.map(|it| close(&it.text)).collect()
}

fn close(text: &str) -> String {
    text.split_whitespace().collect()
}

fn found(sheet: &Sheet, text: &str) -> PlacedText {
    let texts = sheet.texts();
    let found = texts.iter().find(|it| it.text == text);
    found.unwrap_or_else(|| panic!("{text}: {texts:?}")).clone()
}

/// Not only of an ordinary eye: also with thirty findings, a toric lens and names without an end.
#[test]
fn boxes_signature_and_code_stand_on_the_first_page_of_every_sheet() {
    let mut drafts = cases();
    drafts.push(("toric and hard".to_owned(), toric_and_hard()));
    drafts.push(("thirty".to_owned(), thirty_findings()));
    drafts.extend(NAMES.map(|(name, text)| (name.to_owned(), full_theatre(named(text)))));
    let plans = drafts.into_iter();
    let plans: Vec<_> = plans
        .filter_map(|(name, draft)| Some((name, signed(&draft).ok()?)))
        .collect();
    assert!(20 < plans.len());
    plans.par_iter().for_each(|(name, plan)| {
        for paper in Paper::ALL {
            let sheet = on(paper, plan);
            let first = page(&sheet, 0);
            for text in [
                "Patient says name and eye",
                "Lens opened matches this sheet: make, model, power",
                "Sticker of the implanted lens here",
                "Second look at the critical numbers",
                "supersedes sheet 38",
                "Signed by",
                "consultant surgeon",
            ] {
                assert!(first.contains(&close(text)), "{name}, {paper:?}: {text}");
            }
            assert_eq!(found(&sheet, SIGNER).page, 0, "{name}");
        }
    });
    for (name, plan) in plans.iter().rev().step_by(9) {
        let code = plan.fingerprint().code();
        assert_eq!(code_on(&sheet(plan), 0), [code], "{name}");
    }
}

/// An ordinary eye of which everything is stated, told and looked at twice.
fn ordinary() -> Draft {
    let mut draft = full_theatre(case("ordinary-eye"));
    draft.patient.anticoagulant = Some(true);
    draft.second_look = Some(second_look(&draft));
    draft
}

/// What a second person enters from the same papers.
fn second_look(draft: &Draft) -> SecondLook {
    let side = draft.operation.eye.unwrap();
    let eye = draft.eyes.get(side);
    let keratometry = &eye.keratometry.as_ref().unwrap().value;
    SecondLook {
        by: "A. Okafor".to_owned(),
        on: date(2026, 11, 30),
        number: draft.patient.number.clone().unwrap(),
        eye: side,
        axial_length: eye.axial_length.as_ref().unwrap().value,
        flat: keratometry.flat,
        steep: keratometry.steep,
        chamber_depth: eye.chamber_depth.as_ref().map(|it| it.value),
        lens_thickness: eye.lens_thickness.as_ref().map(|it| it.value),
        target: draft.lens.target,
    }
}

/// The same with two findings that somebody goes against.
fn with_two_findings() -> Draft {
    let mut draft = ordinary();
    let few = case("low-endothelium");
    let few = few.eyes.get(few.operation.eye.unwrap());
    let eye = draft.eyes.get_mut(draft.operation.eye.unwrap());
    eye.endothelium.clone_from(&few.endothelium);
    draft.theatre.anesthesia = Some(Anesthesia::Peribulbar);
    draft
}

#[test]
fn an_ordinary_eye_and_one_with_two_findings_stand_on_one_page_of_either_paper() {
    for (count, draft) in [(0, ordinary()), (2, with_two_findings())] {
        let plan = signed(&draft).unwrap();
        for paper in Paper::ALL {
            let sheet = on(paper, &plan);
            assert_eq!(
                page(&sheet, 0).matches("Reason(").count(),
                count,
                "{paper:?}"
            );
            assert_eq!(
                sheet.page_count(),
                1,
                "{count}, {paper:?}: {:?}",
                page(&sheet, 1)
            );
        }
    }
}

/// In a box of its own, at the height of the power, which it does not touch.
#[test]
fn what_was_told_stands_beside_the_power() {
    let mut draft = ordinary();
    let told = |draft: &Draft| {
        let sheet = sheet(&signed(draft).unwrap());
        let power = found(&sheet, "+21.00 D").bounds;
        let names = ["Allergies", "Anticoagulant, antiplatelet", "Medications"];
        for name in names {
            let [left, top, _, bottom] = found(&sheet, name).bounds;
            let [_, _, right, _] = found(&sheet, "Weir Q").bounds;
            assert!(power[2] < left && right < left, "{name}");
            assert!(power[1] - 30.0 < top && bottom < power[3] + 40.0, "{name}");
        }
        let page = page(&sheet, 0);
        let at = names.map(|name| page.find(&close(name)).unwrap());
        let end = at[2] + page[at[2]..].find("Backup").unwrap();
        assert!(at[0] < at[1] && at[1] < at[2]);
        page[at[0]..end].to_owned()
    };
    assert_eq!(
        told(&draft),
        "Allergieslatex;povidone-iodineAnticoagulant,antiplateletYES\
         Medicationstamsulosinuntil2025;warfarin,INR2.4on1Dec"
    );
    draft.theatre.allergies = Some(Told::NoneKnown);
    draft.theatre.medicines = None;
    draft.patient.anticoagulant = None;
    assert_eq!(
        told(&draft),
        "AllergiesnoneknownAnticoagulant,antiplateletnotaskedMedicationsnotasked"
    );
    draft.patient.anticoagulant = Some(false);
    assert!(told(&draft).contains("antiplateletnonetaken"));
}

/// What is told at length has the width of the page, and none of it is lost.
#[test]
fn what_was_told_at_length_is_all_there() {
    let mut draft = ordinary();
    let all: Vec<_> = (1..=30)
        .map(|number| format!("medicine of many letters {number}"))
        .collect();
    draft.theatre.medicines = Some(Told::These(all.clone()));
    let sheet = sheet(&signed(&draft).unwrap());
    let (first, second) = (page(&sheet, 0), page(&sheet, 1));
    assert!(first.contains("inthebox"));
    for text in all {
        assert!(
            [&first, &second]
                .iter()
                .any(|it| it.contains(&close(&text))),
            "{text}"
        );
    }
}

#[test]
fn a_second_look_stands_on_the_sheet_with_who_when_and_what_came_of_it() {
    let line = |draft: &Draft| {
        let page = page(&sheet(&signed(draft).unwrap()), 0);
        let start = page.find("Secondlookatthecriticalnumbers:").unwrap();
        let end = start + page[start..].find("Patientsays").unwrap();
        page[start..end].replacen("Secondlookatthecriticalnumbers:", "", 1)
    };
    let mut draft = ordinary();
    assert!(pairs(&draft).unwrap().iter().all(|pair| !pair.differs()));
    assert_eq!(line(&draft), "A.Okafor,30Nov2026:agreed");
    let look = draft.second_look.as_mut().unwrap();
    look.axial_length = "23.53 mm".parse().unwrap();
    look.target = None;
    assert_eq!(
        line(&draft),
        "A.Okafor,30Nov2026:NOTAGREEDinaxiallength,target"
    );
    draft.second_look = None;
    assert_eq!(line(&draft), "nosecondlookwastaken");
}
