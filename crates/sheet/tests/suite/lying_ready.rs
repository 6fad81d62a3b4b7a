//! What lies ready beside the lens: each power with its sign, its name and its site, as the finished
//! PDF says it.

use crate::support::{case, document, reader, sheet, signed};
use millrace_core::case::{ChosenLens, Draft, Slot};
use millrace_core::iol_power::{Formula, PowerRange, Powers};
use millrace_core::lens::{Place, PowerLabel, ToricChoice, ToricSteps};
use millrace_core::quantity::{HundredthDiopters, Meridian};
use millrace_sheet::{Paper, Setting, Sheet, Template};
use millrace_wording::Words;

const TITLES: [&str; 3] = [
    "Backup lens for the bag",
    "Backup lens for the sulcus",
    "Anterior chamber IOL",
];
const PLACES: [Place; 3] = [Place::Bag, Place::Sulcus, Place::AnteriorChamber];
const SLUICE: &str = "Sluice three-piece, model Sluice B";
const PENSTOCK: &str = "Penstock AC, model Penstock A";

fn close(text: &str) -> String {
    text.chars()
        .filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}')
        .collect()
}

/// What stands under each of the three titles, without spaces: a text may stand on two lines.
fn under_the_titles(sheet: &Sheet) -> [String; 3] {
    let pages = reader::pages(&sheet.pdf().unwrap());
    let page = close(&pages[0]);
    // A finding on one of them names it again.
    let (page, _) = page.split_once("Approach").unwrap();
    let titles = TITLES.map(close);
    let at = titles.each_ref().map(|title| {
        assert_eq!(page.matches(title).count(), 1, "{title}");
        page.find(title).unwrap()
    });
    // The box of what is special, where there is one, stands between them and the approach, and boxes and signature may.
    let rest = &page[at[2]..];
    let others = ["SPECIAL", "Secondlook"];
    let next = others.iter().filter_map(|text| rest.find(text)).min();
    let end = at[2] + next.unwrap_or(rest.len());
    let until = [at[1], at[2], end];
    [0, 1, 2].map(|place| page[at[place] + titles[place].len()..until[place]].to_owned())
}

fn signed_texts(draft: &Draft) -> [String; 3] {
    under_the_titles(&sheet(&signed(draft).unwrap()))
}

fn draft_texts(draft: &Draft) -> [String; 3] {
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    let at = "2026-12-01T10:00:00Z".parse().unwrap();
    under_the_titles(&Sheet::draft(&document(draft), at, setting).unwrap())
}

/// Backup lenses with these powers, in hundredths of a diopter.
fn with_powers(powers: [i32; 3]) -> Draft {
    let made = [-1_000, 3_000, 50].map(HundredthDiopters::new);
    let made = Powers::new(vec![PowerRange::new(made[0], made[1], made[2]).unwrap()]).unwrap();
    let mut draft = case("hard-and-shallow");
    for (place, power) in PLACES.into_iter().zip(powers) {
        let lens = backup(&mut draft, place);
        lens.record.powers = made.clone();
        lens.power = Some(HundredthDiopters::new(power));
    }
    draft
}

fn backup(draft: &mut Draft, place: Place) -> &mut ChosenLens {
    draft.lens.lenses.get_mut(Slot::Backup(place)).unwrap()
}

/// The powers of the case file, read there by hand: +22.00, +21.00 and +18.50 D.
#[test]
fn each_chosen_power_stands_under_its_site_before_its_name() {
    let [spare, sulcus, chamber] = signed_texts(&case("hard-and-shallow"));
    let begins = |text: &str, power: &str, name: &str| {
        let wanted = close(&format!("{power}{name}"));
        assert!(text.starts_with(&wanted), "{text} for {wanted}");
    };
    begins(&spare, "+22.00 D", SLUICE);
    begins(&sulcus, "+21.00 D", SLUICE);
    begins(&chamber, "+18.50 D", PENSTOCK);
    for text in [&spare, &chamber] {
        assert!(
            text.contains("predicted") && !text.contains("proposed"),
            "{text}"
        );
    }
    // Both published rules and vergence stand beside the choice; none is made by the program.
    for rule in ["stepwise rule: ", "minus 5 %: +", "by vergence: +"] {
        assert!(sulcus.contains(&close(rule)), "{sulcus}");
    }
}

#[test]
fn a_power_below_zero_has_a_minus_and_no_power_stands_under_another_site() {
    for (powers, printed) in [
        (
            [-300, 250, -1000],
            ["\u{2212}3.00 D", "+2.50 D", "\u{2212}10.00 D"],
        ),
        ([300, -250, 1000], ["+3.00 D", "\u{2212}2.50 D", "+10.00 D"]),
        ([0, 50, -50], ["+0.00 D", "+0.50 D", "\u{2212}0.50 D"]),
    ] {
        let texts = signed_texts(&with_powers(powers));
        for (place, text) in texts.iter().enumerate() {
            let (first, _) = text.split_once('D').unwrap();
            assert_eq!(format!("{first}D"), close(printed[place]), "{powers:?}");
            let names = text.replace("three-piece", "");
            assert!(!names.contains('-'), "a hyphen for a minus: {text}");
        }
    }
}

/// What is predicted for them is the frozen result of the formula planned by, to the hundredth.
#[test]
fn what_each_power_leaves_is_the_frozen_result() {
    let plan = signed(&with_powers([2200, 2100, 1850])).unwrap();
    let [spare, _, chamber] = under_the_titles(&sheet(&plan));
    let backups = &plan.plan().results.backups;
    assert_eq!(
        backups.iter().map(|it| it.place).collect::<Vec<_>>(),
        PLACES
    );
    let mut seen = Vec::new();
    for (text, result) in [(spare, &backups[0]), (chamber, &backups[2])] {
        let planned = result
            .ladder
            .formula(Formula::SrkT)
            .unwrap()
            .answer()
            .unwrap();
        let predicted = planned.predicted_d.unwrap().d();
        let wanted = format!("predicted{predicted:+.2}D").replace('-', "\u{2212}");
        assert!(text.ends_with(&wanted), "{text} for {wanted}");
        seen.push(wanted);
    }
    assert_ne!(seen[0], seen[1]);
}

#[test]
fn a_draft_has_none_of_these_powers() {
    let texts = draft_texts(&case("hard-and-shallow"));
    for (text, name) in texts.iter().zip([SLUICE, SLUICE, PENSTOCK]) {
        assert_eq!(text, &close(&format!("no power on a draft{name}")));
    }
}

#[test]
fn what_nobody_chose_is_said_and_only_proposed() {
    let mut draft = case("hard-and-shallow");
    backup(&mut draft, Place::Bag).power = None;
    backup(&mut draft, Place::Sulcus).power = None;
    let lenses = &mut draft.lens.lenses;
    lenses.choose(Slot::Backup(Place::AnteriorChamber), None);
    let [spare, sulcus, chamber] = signed_texts(&draft);
    let begins = close(&format!("power not stated{SLUICE}proposed +"));
    assert!(spare.starts_with(&begins), "{spare}");
    let begins = close(&format!("power not stated{SLUICE}stepwise rule"));
    assert!(sulcus.starts_with(&begins), "{sulcus}");
    assert_eq!(chamber, "notstated");

    for place in PLACES {
        draft.lens.lenses.choose(Slot::Backup(place), None);
    }
    assert_eq!(signed_texts(&draft), ["notstated"; 3]);
}

#[test]
fn a_toric_backup_lens_has_its_cylinder_and_axis() {
    let mut draft = case("hard-and-shallow");
    let lens = backup(&mut draft, Place::Bag);
    let cylinder = HundredthDiopters::new(225);
    lens.record.toric = ToricSteps::new(vec![cylinder], PowerLabel::SphericalEquivalent).ok();
    let axis = Meridian::new(88).unwrap();
    lens.toric = Some(ToricChoice { cylinder, axis });
    let [bag, sulcus, chamber] = signed_texts(&draft);
    let wanted = close(&format!("+22.00 D{SLUICE}cylinder +2.25 D, marks at 88°"));
    assert!(bag.starts_with(&wanted), "{bag}");
    assert!(![sulcus, chamber].concat().contains("cylinder"));
}
