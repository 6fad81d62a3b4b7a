//! A bad photocopy: smaller, askew, blurred, noisy, black or white. Eye, power, name and code can
//! still be read from it, by a reader that knows other sheets only.
#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "pixels of one page, and places on it"
)]

mod copier;
mod ink;
mod reader;

use std::sync::LazyLock;

use copier::Copier;
use image::{GrayImage, Luma};
use millrace_core::case::{Draft, Slot};
use millrace_core::iol_power::{PowerRange, Powers};
use millrace_core::quantity::HundredthDiopters;
use millrace_sheet::{Paper, Setting, Sheet, Template};
use rayon::prelude::*;
use reader::{Copy, Part, SCALE, told};

use crate::outdated::superseded;
use crate::support::hard::{full_theatre, named, toric_and_hard};
use crate::support::{case, sheet, signed};

/// Sheets whose words the reader knows. None is copied: other lenses, other numbers, other findings.
/// Names differ from the first in one word, in four letters, in one letter; powers in half a diopter
/// up and down, and in the sign.
const KNOWN: [(&str, &str, i32); 4] = [
    ("ordinary-eye", "Thorvald-Ames, Ingrid", 2_100),
    ("second-eye", "Thorvald-Ames, Astrid", 2_150),
    ("ordinary-eye", "Thorvald-Abel, Ingrid", 2_050),
    ("ordinary-eye", "Thorwald-Ames, Ingrid", -2_100),
];

const BAD: Copier = Copier {
    scale: 0.94,
    turn_degrees: 1.0,
    shift: [9.0, -6.0],
    blurs: 2,
    noise: 45.0,
    black_below: 140.0,
    seed: 7,
};

struct Words {
    /// RIGHT EYE, then LEFT EYE.
    eyes: Vec<GrayImage>,
    names: Vec<GrayImage>,
    powers: Vec<GrayImage>,
}

static WORDS: LazyLock<Words> = LazyLock::new(|| {
    let words: Vec<[GrayImage; 3]> = KNOWN
        .par_iter()
        .map(|(base, name, power)| {
            let sheet = sheet_of(&with(case(base), name, *power));
            let page = head(&sheet);
            [Part::Eye, Part::Name, Part::Power].map(|part| part.cut(&sheet, &page))
        })
        .collect();
    let all = |part: usize| {
        words
            .iter()
            .map(|word| word[part].clone())
            .collect::<Vec<_>>()
    };
    Words {
        eyes: all(0)[..2].to_vec(),
        names: all(1),
        powers: all(2),
    }
});

/// The draft for a patient of this name, with this power in hundredths of a diopter.
fn with(mut draft: Draft, name: &str, power: i32) -> Draft {
    draft.patient.name = Some(name.to_owned());
    let made = [-3_000, 3_000, 50].map(HundredthDiopters::new);
    let lens = draft.lens.lenses.get_mut(Slot::Planned).unwrap();
    lens.record.powers =
        Powers::new(vec![PowerRange::new(made[0], made[1], made[2]).unwrap()]).unwrap();
    lens.power = Some(HundredthDiopters::new(power));
    draft
}

fn sheet_of(draft: &Draft) -> Sheet {
    sheet(&signed(draft).unwrap())
}

/// What stands on the upper 300 points of the first page, at 150 dpi.
fn head(sheet: &Sheet) -> GrayImage {
    let page = crate::support::gray(&sheet.page(0, SCALE).unwrap());
    image::imageops::crop_imm(&page, 0, 0, page.width(), (300.0 * SCALE) as u32).to_image()
}

/// Which of the known eyes, names and powers are read.
fn read(copied: &GrayImage) -> [Option<usize>; 3] {
    let copy = Copy::new(copied);
    [
        (Part::Eye, &WORDS.eyes),
        (Part::Name, &WORDS.names),
        (Part::Power, &WORDS.powers),
    ]
    .map(|(part, words)| told(&copy.fits(part, words)))
}

/// Each known word is the right one for one sheet at least, so that none is preferred.
#[test]
fn eye_name_and_power_are_read_from_a_bad_copy() {
    let left = full_theatre(case("pseudoexfoliation"));
    let (first, second, third, fourth) = (KNOWN[0], KNOWN[1], KNOWN[2], KNOWN[3]);
    let sheets = [
        (with(toric_and_hard(), first.1, first.2), 1.0, [0, 0, 0]),
        (with(left, second.1, second.2), -1.0, [1, 1, 1]),
        (with(toric_and_hard(), third.1, third.2), 0.3, [0, 2, 2]),
        (with(toric_and_hard(), fourth.1, fourth.2), -0.4, [0, 3, 3]),
    ];
    // They are made by the same threads that would wait for them below.
    LazyLock::force(&WORDS);
    sheets.par_iter().for_each(|(draft, turn_degrees, right)| {
        let page = head(&sheet_of(draft));
        let copier = Copier {
            turn_degrees: *turn_degrees,
            seed: right.iter().sum::<usize>() as u64,
            ..BAD
        };
        assert_eq!(read(&copier.copy(&page)), right.map(Some), "{right:?}");
    });
}

/// Through the mark across a sheet that is no longer what to work by.
#[test]
fn eye_name_and_power_are_read_from_a_bad_copy_of_an_outdated_sheet() {
    let (_, name, power) = KNOWN[0];
    let plan = signed(&with(toric_and_hard(), name, power)).unwrap();
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: millrace_wording::Words::ENGLISH,
    };
    let sheet = Sheet::outdated(&plan, superseded(), setting).unwrap();
    assert_eq!(read(&BAD.copy(&head(&sheet))), [Some(0); 3]);
}

/// The reader reads what stands there and not what it hopes for.
#[test]
fn what_the_copy_lost_is_not_read() {
    let sheet = sheet_of(&toric_and_hard());
    let page = head(&sheet);
    let texts = sheet.texts();
    let pixels = |points: f64| (points * f64::from(SCALE)) as u32;
    let text = |size: f64| {
        texts
            .iter()
            .find(|text| (text.size - size).abs() < 0.1)
            .unwrap()
    };
    let cleared = |size: f64, parts: &[[f64; 4]]| {
        let [left, top, right, bottom] = text(size).bounds;
        let (width, height) = (right - left, bottom - top);
        let mut page = page.clone();
        for part in parts {
            for y in pixels(top + part[1] * height)..=pixels(top + part[3] * height) {
                for x in pixels(left + part[0] * width)..=pixels(left + part[2] * width) {
                    page.put_pixel(x, y, Luma([255]));
                }
            }
        }
        read(&BAD.copy(&page))
    };
    let whole = [-0.02, -0.1, 1.02, 1.1];
    assert_eq!(cleared(42.0, &[whole]), [None, Some(0), Some(0)]);
    assert_eq!(cleared(17.0, &[whole]), [Some(0), None, Some(0)]);
    assert_eq!(cleared(38.0, &[whole]), [Some(0), Some(0), None]);
    // Above and below the bar of the plus: what is left is a minus, and is read as one.
    let upright = [[-0.02, -0.05, 0.165, 0.33], [-0.02, 0.505, 0.165, 1.0]];
    assert_eq!(cleared(38.0, &upright), [Some(0), Some(0), Some(3)]);
}

/// A name of another script against one that differs in one letter.
#[test]
fn names_of_other_scripts_are_read_from_a_bad_copy() {
    let names = [
        ["歐陽曉明 (欧阳晓明)", "歐陽曉朋 (欧阳晓朋)"],
        ["مريم عبد الرحمن الخطيب", "مريم عبد الرحيم الخطيب"],
        ["राजेश्वरी श्रीवास्तव", "राकेश्वरी श्रीवास्तव"],
    ];
    names.par_iter().for_each(|both| {
        let known = |name: &&str| {
            let sheet = sheet_of(&with(case("ordinary-eye"), name, 2_150));
            Part::Name.cut(&sheet, &head(&sheet))
        };
        let words: Vec<GrayImage> = both.iter().map(known).collect();
        for (right, name) in both.iter().enumerate() {
            let copied = BAD.copy(&head(&sheet_of(&named(name))));
            let fits = Copy::new(&copied).fits(Part::Name, &words);
            assert_eq!(told(&fits), Some(right), "{name}: {fits:?}");
        }
    });
}

/// By a copier that sees 300 dots per inch and is half as bad. At 150 a module of the code is less than
/// three pixels: of twenty such copies half are lost, and the fingerprint beside it is what remains. Which
/// copy is lost changes with the pattern, so with every signed content: one of five may be, and none is read
/// as another code.
#[test]
fn the_code_is_read_from_a_poor_copy() {
    let plan = signed(&toric_and_hard()).unwrap();
    let sheet = sheet(&plan);
    let scale = 300.0 / 72.0;
    let texts = sheet.texts();
    let beside = texts
        .iter()
        .find(|text| text.page == 0 && text.text.contains("Signed by"));
    let page = crate::support::gray(&sheet.page(0, scale).unwrap());
    let top = ((beside.unwrap().bounds[1] as f32 - 40.0) * scale) as u32;
    let [width, height] = [120.0, 100.0].map(|points: f32| (points * scale) as u32);
    let left = ((beside.unwrap().bounds[0] as f32 - 90.0) * scale) as u32;
    let part = image::imageops::crop_imm(&page, left, top, width, height).to_image();
    let mut lost_copies = 0;
    for (seed, turn_degrees) in [-1.0, -0.5, 0.2, 0.7, 1.0].into_iter().enumerate() {
        let copier = Copier {
            turn_degrees,
            blurs: 1,
            noise: 20.0,
            seed: seed as u64,
            ..BAD
        };
        let copied = copier.copy(&part);
        let read = codes(&copied);
        if read.is_empty() {
            lost_copies += 1;
        } else {
            assert_eq!(read, [plan.fingerprint().code()], "{turn_degrees}");
        }
    }
    assert!(lost_copies <= 1, "{lost_copies} copies of five were lost");
    // Without two of its corners it is no code.
    let mut lost = part;
    for y in 0..height / 2 {
        for x in 0..width {
            lost.put_pixel(x, y, Luma([255]));
        }
    }
    assert_eq!(codes(&BAD.copy(&lost)), Vec::<String>::new());
}

fn codes(picture: &GrayImage) -> Vec<String> {
    let (width, height) = (picture.width() as usize, picture.height() as usize);
    let gray = |x: usize, y: usize| picture.as_raw()[y * width + x];
    let mut prepared = rqrr::PreparedImage::prepare_from_greyscale(width, height, gray);
    let grids = prepared.detect_grids();
    grids
        .into_iter()
        .filter_map(|grid| Some(grid.decode().ok()?.1))
        .collect()
}
