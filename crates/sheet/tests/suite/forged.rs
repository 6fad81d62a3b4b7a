//! Arrangements that try to make the sheet say another plan, and harmless ones. Each sheet that is made
//! is read back as a machine would: the pixels of the fixed part, and the text of the file.
//!
//! `MILLRACE_FORGED=1000` makes as many hostile ones as that; the suite makes one of each kind.

mod covers;
mod dice;
mod drawn;
mod harmless;
mod printed;
mod read_back;
mod turned;

use std::collections::BTreeMap;

use dice::Dice;
use millrace_core::case::Slot;
use millrace_core::lens::Place;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::signing::SignedPlan;
use millrace_sheet::{Fault, Paper, Setting, Sheet, SheetError, Template};
use millrace_wording::{Show as _, Words};
use rayon::prelude::*;
use read_back::ReadBack;

use crate::support::hard::toric_and_hard;
use crate::support::{sheet, signed};

/// A toric lens in a hard eye, and two lenses with their powers that lie ready.
fn plan() -> SignedPlan {
    let mut draft = toric_and_hard();
    for (place, power) in [(Place::Bag, 2_000), (Place::Sulcus, 1_900)] {
        let ready = draft.lens.lenses.get_mut(Slot::Backup(place)).unwrap();
        ready.power = Some(HundredthDiopters::new(power));
    }
    signed(&draft).unwrap()
}

fn arranged(plan: &SignedPlan, arrangement: &str) -> Result<Sheet, SheetError> {
    let template = Template::with_arrangement(arrangement.to_owned());
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    Sheet::signed(plan, setting)
}

/// A way to lie, and an arrangement that does from what the dice say.
type Way = (&'static str, fn(&Scene, &mut Dice) -> String);

/// Where the critical values stand, from the upper left corner of the arrangement's first room, and
/// where the room stands.
struct Scene {
    values: Vec<[f64; 4]>,
}

impl Scene {
    fn of(plan: &SignedPlan) -> Self {
        let marked = "#let middle(data) = [Marker]\n#let end(data) = []";
        let texts = arranged(plan, marked).unwrap().texts();
        let found = |wanted: &str| {
            let found = texts.iter().find(|text| text.text == wanted);
            found.unwrap_or_else(|| panic!("{wanted}")).bounds
        };
        let [left, top, ..] = found("Marker");
        let values = read_back::critical(plan);
        let values = values.iter().map(|value| {
            let [l, t, r, b] = found(value);
            [l - left, t - top, r - left, b - top]
        });
        Self {
            values: values.collect(),
        }
    }
}

fn ways() -> Vec<Way> {
    [
        &covers::WAYS[..],
        &printed::WAYS[..],
        &drawn::WAYS[..],
        &turned::WAYS[..],
    ]
    .concat()
}

/// None of them prints a critical value differently from the signed one: each is refused, by the check
/// and not because it cannot be laid out.
#[test]
fn no_hostile_arrangement_makes_a_sheet() {
    let asked = std::env::var("MILLRACE_FORGED").ok();
    let (plan, ways) = (plan(), ways());
    // Each kind once, where nobody asks for more.
    let count = asked.map_or(ways.len(), |count| count.parse().unwrap());
    let (scene, shipped) = (Scene::of(&plan), ReadBack::of(&sheet(&plan)));
    // What is not hostile beside them is no reason to refuse.
    arranged(&plan, &covers::beside_shipped("[words]")).unwrap();
    let made: Vec<(&str, Result<Fault, String>)> = (0..count)
        .into_par_iter()
        .map(|index| {
            let (name, way) = ways[index % ways.len()];
            let mut dice = Dice::new(index as u64);
            let arrangement = way(&scene, &mut dice);
            let outcome = match arranged(&plan, &arrangement) {
                Err(SheetError::Arrangement { fault, .. }) => Ok(fault),
                Err(SheetError::BlockMissing { .. }) => Ok(Fault::Over),
                Err(SheetError::OffThePage { .. }) => Ok(Fault::Leaves),
                Err(error) => Err(error.show(Words::ENGLISH).into_owned()),
                Ok(sheet) => Err(format!(
                    "made: {:?}",
                    ReadBack::of(&sheet).differs(&shipped)
                )),
            };
            (name, outcome.map_err(|why| format!("{why}\n{arrangement}")))
        })
        .collect();
    let mut tally: BTreeMap<&str, BTreeMap<Fault, usize>> = BTreeMap::new();
    let mut through = Vec::new();
    for (name, outcome) in made {
        match outcome {
            Ok(fault) => *tally.entry(name).or_default().entry(fault).or_default() += 1,
            Err(why) => through.push(format!("{name}: {why}")),
        }
    }
    println!("{tally:#?}");
    assert!(
        through.is_empty(),
        "{} of {count}:\n{}",
        through.len(),
        through.join("\n\n")
    );
    assert_eq!(tally.len(), ways.len().min(count), "ways that were tried");
}

/// Harmless ones make a sheet, whose fixed part is the shipped one's to the pixel.
#[test]
fn harmless_arrangements_make_the_same_sheet() {
    let plan = plan();
    let shipped = ReadBack::of(&sheet(&plan));
    let variants = harmless::variants();
    assert!(50 <= variants.len(), "{}", variants.len());
    let wrong: Vec<String> = variants
        .par_iter()
        .filter_map(|(name, arrangement)| match arranged(&plan, arrangement) {
            Err(error) => Some(format!("{name}: {}", error.show(Words::ENGLISH))),
            Ok(sheet) => {
                let differs = ReadBack::of(&sheet).differs(&shipped)?;
                Some(format!("{name}: {differs}"))
            }
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A copy of the shipped arrangement is an arrangement like any other, and prints every case.
#[test]
fn the_shipped_arrangement_passes_for_every_case() {
    use crate::support::hard::{NAMES, full_theatre, named, thirty_findings};
    let mut drafts = crate::support::cases();
    let theatre: Vec<_> = drafts
        .iter()
        .map(|(name, draft)| (format!("{name}, full"), full_theatre(draft.clone())))
        .collect();
    drafts.extend(theatre);
    drafts.push(("toric-and-hard".to_owned(), toric_and_hard()));
    drafts.push(("thirty".to_owned(), thirty_findings()));
    drafts.extend(NAMES.map(|(name, text)| (name.to_owned(), named(text))));
    let template = Template::with_arrangement(Template::shipped_arrangement().to_owned());
    let wrong: Vec<String> = drafts
        .par_iter()
        .flat_map_iter(|(name, draft)| {
            let settings = [
                (Paper::A4, Words::ENGLISH),
                (Paper::Letter, Words::ENGLISH),
                (Paper::A4, Words::PSEUDO),
            ];
            let template = &template;
            settings.into_iter().filter_map(move |(paper, words)| {
                let setting = Setting {
                    paper,
                    template,
                    words,
                };
                let at = "2026-12-01T10:00:00Z".parse().unwrap();
                let made = match signed(draft) {
                    Ok(plan) => Sheet::signed(&plan, setting),
                    Err(_) => Sheet::draft(&crate::support::document(draft), at, setting),
                };
                let error = made.err()?;
                Some(format!("{name}: {}", error.show(Words::ENGLISH)))
            })
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
