//! A signed sheet that is no longer the one to work by: it says so on every page, whatever a clinic arranges,
//! and everything that was signed is still there to be read.

#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "pixels of one page"
)]

use std::collections::BTreeMap;

use millrace_core::signing::{SheetNumber, SignedPlan};
use millrace_sheet::{Fault, Outdated, Paper, PlacedText, Setting, Sheet, SheetError, Template};
use millrace_wording::{Show as _, Words};

use crate::support::hard::{full_theatre, named, thirty_findings, toric_and_hard};
use crate::support::{case, gray, reader, signed};

pub(crate) fn superseded() -> Outdated {
    Outdated::SupersededBy(SheetNumber::new(10_043).unwrap())
}

pub(crate) fn changed() -> Outdated {
    Outdated::ChangedSince("2026-12-02T07:05:00Z".parse().unwrap())
}

fn set(plan: &SignedPlan, why: Option<Outdated>, template: &Template) -> Result<Sheet, SheetError> {
    on(Paper::A4, plan, why, template)
}

fn on(
    paper: Paper,
    plan: &SignedPlan,
    why: Option<Outdated>,
    template: &Template,
) -> Result<Sheet, SheetError> {
    let setting = Setting {
        paper,
        template,
        words: Words::ENGLISH,
    };
    match why {
        Some(why) => Sheet::outdated(plan, why, setting),
        None => Sheet::signed(plan, setting),
    }
}

/// How often each word stands on all pages. What the foot says of pages depends on their number, and runs
/// break where lines do.
fn words(texts: &[PlacedText]) -> BTreeMap<String, usize> {
    let mut words = BTreeMap::new();
    for text in texts {
        let is_foot = text.text.contains(", page ");
        for word in text.text.split_whitespace().filter(|_| !is_foot) {
            let word = word.trim_end_matches(',').to_owned();
            *words.entry(word).or_default() += 1;
        }
    }
    words
}

#[test]
fn an_outdated_sheet_says_so_at_head_and_foot_of_every_page_and_keeps_every_word() {
    let shipped = Template::shipped();
    let hard = [
        toric_and_hard(),
        thirty_findings(),
        full_theatre(case("ordinary-eye")),
        named("Okonjo-Ravensworth-Castellan, Adaeze Ifeoma Wilhelmina"),
    ];
    for (draft, paper) in hard
        .iter()
        .flat_map(|draft| [Paper::A4, Paper::Letter].map(|paper| (draft, paper)))
    {
        let plan = signed(draft).unwrap();
        let whole = on(paper, &plan, None, &shipped).unwrap();
        for (why, band) in [
            (superseded(), "SUPERSEDED BY SHEET 10043"),
            (changed(), "CHANGED SINCE IT WAS SIGNED"),
        ] {
            let sheet = on(paper, &plan, Some(why), &shipped).unwrap();
            let texts = sheet.texts();
            for page in 0..sheet.page_count() {
                let bands: Vec<_> = texts
                    .iter()
                    .filter(|text| text.page == page && text.text == band)
                    .map(|text| text.bounds)
                    .collect();
                let [head, foot] = bands[..] else {
                    panic!("{band} on page {page}: {bands:?}");
                };
                assert!(head[3] < 45.0, "{head:?}");
                assert!(745.0 < foot[1], "{foot:?}");
                let across = texts.iter().filter(|text| text.page == page);
                assert_eq!(across.filter(|text| 100.0 < text.size).count(), 2);
            }
            assert_eq!(sheet.overlaps(), Vec::<[PlacedText; 2]>::new());
            let (kept, all) = (words(&texts), words(&whole.texts()));
            for (word, count) in all {
                assert!(
                    Some(&count) <= kept.get(&word),
                    "{word}: {count} in {}",
                    draft.patient.name.as_deref().unwrap_or_default()
                );
            }
        }
    }
}

/// What is read through the mark: the black of every letter of the page stays black under it.
#[test]
fn the_mark_across_the_page_is_pale_and_the_letters_under_it_are_black() {
    let plan = signed(&toric_and_hard()).unwrap();
    let sheet = set(&plan, Some(superseded()), &Template::shipped()).unwrap();
    let page = gray(&sheet.page(0, 2.0).unwrap());
    let count = |from: u8, to: u8| {
        let pixels = page
            .pixels()
            .filter(|pixel| (from..=to).contains(&pixel.0[0]));
        pixels.count()
    };
    // The mark covers a fifteenth of the page at least, and is told from white in any print.
    assert!(page.len() < count(205, 225) * 15, "{}", count(205, 225));
    let power = sheet
        .texts()
        .into_iter()
        .find(|text| (30.0..=40.0).contains(&text.size));
    let [left, top, right, bottom] = power.unwrap().bounds.map(|points| (points * 2.0) as u32);
    let under = (left..right).flat_map(|x| (top..bottom).map(move |y| (x, y)));
    let black = under
        .filter(|(x, y)| page.get_pixel(*x, *y).0[0] < 10)
        .count();
    assert!(black > 1_000, "{black}");
}

/// The file says it too, and its title.
#[test]
fn the_file_of_an_outdated_sheet_says_so() {
    let plan = signed(&toric_and_hard()).unwrap();
    let sheet = set(&plan, Some(superseded()), &Template::shipped()).unwrap();
    let pdf = sheet.pdf().unwrap();
    for page in reader::pages(&pdf) {
        assert_eq!(
            page.matches("SUPERSEDED BY SHEET 10043").count(),
            2,
            "{page}"
        );
    }
    let whole = set(&plan, None, &Template::shipped()).unwrap();
    let power = plan.draft().lens.power().unwrap();
    let power = power.show(Words::ENGLISH).into_owned();
    let counted = |pdf: &[u8]| reader::pages(pdf).concat().matches(&power).count();
    assert!(0 < counted(&pdf), "{power}");
    assert_eq!(counted(&pdf), counted(&whole.pdf().unwrap()), "{power}");
    // The same sheet with the same mark is the same file, and with another another.
    assert_eq!(
        set(&plan, Some(superseded()), &Template::shipped())
            .unwrap()
            .pdf()
            .unwrap(),
        pdf
    );
    assert_ne!(
        set(&plan, Some(changed()), &Template::shipped())
            .unwrap()
            .pdf()
            .unwrap(),
        pdf
    );
}

/// A pale area that an arrangement may draw lies under the mark, and nothing lies over the bands.
#[test]
fn no_arrangement_hides_the_mark() {
    let plan = signed(&toric_and_hard()).unwrap();
    let area = "#let middle(data) = block(width: 100%, height: 300pt, fill: luma(240))\n#let end(data) = []";
    let template = Template::with_arrangement(area.to_owned());
    let sheet = set(&plan, Some(superseded()), &template).unwrap();
    let page = gray(&sheet.page(0, 1.0).unwrap());
    let shaded = page
        .pixels()
        .filter(|pixel| (195..=204).contains(&pixel.0[0]));
    assert!(shaded.count() > 5_000);

    for over in [
        "place(top + left, dy: -390pt, rect(width: 535pt, height: 60pt, fill: white))",
        "place(top + left, dy: -200pt, dx: -20pt, rect(width: 500pt, height: 600pt, fill: white))",
    ] {
        let over = format!("#let middle(data) = {{ {over} }}\n#let end(data) = []");
        let refused = set(&plan, Some(superseded()), &Template::with_arrangement(over));
        let leaves = matches!(
            &refused,
            Err(SheetError::Arrangement {
                fault: Fault::Leaves | Fault::Cut,
                ..
            } | SheetError::BlockMissing { .. })
        );
        assert!(leaves, "{:?}", refused.err());
    }
    let shipped = Template::with_arrangement(Template::shipped_arrangement().to_owned());
    for why in [superseded(), changed()] {
        let own = set(&plan, Some(why), &shipped).unwrap().pdf().unwrap();
        let by_us = set(&plan, Some(why), &Template::shipped())
            .unwrap()
            .pdf()
            .unwrap();
        assert_eq!(own, by_us);
    }
}
