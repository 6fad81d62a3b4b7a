//! A sheet as a machine reads it: the pixels of its fixed part, and the text of the file.

use image::GrayImage;
use millrace_core::lens::Place;
use millrace_core::signing::SignedPlan;
use millrace_sheet::Sheet;
use millrace_wording::{Show as _, Words};

use crate::support::{gray, reader};

/// Pixels of a point.
const PIXELS: f32 = 2.0;

/// The critical values as the sheet says them: patient, number, eye, power, cylinder, axis, what lies
/// ready, target.
pub(super) fn critical(plan: &SignedPlan) -> Vec<String> {
    let draft = &plan.plan().case;
    let (lens, words) = (&draft.lens, Words::ENGLISH);
    let toric = lens.toric().unwrap();
    let ready = lens.lenses.backup(Place::Bag).unwrap().power.unwrap();
    let shown = [
        lens.power().unwrap().show(words).into_owned(),
        toric.cylinder.show(words).into_owned(),
        toric.axis.show(words).into_owned(),
        ready.show(words).into_owned(),
        lens.target.unwrap().show(words).into_owned(),
    ];
    let mut values = Vec::from(shown);
    values.extend([
        draft.patient.name.clone().unwrap(),
        draft.patient.number.clone().unwrap(),
        "RIGHT EYE".to_owned(),
    ]);
    values
}

pub(super) struct ReadBack {
    /// The first page down to the arrangement.
    top: GrayImage,
    /// What the file says up to the arrangement, on every page from its text.
    powers: Vec<String>,
}

impl ReadBack {
    pub(super) fn of(sheet: &Sheet) -> Self {
        let page = gray(&sheet.page(0, PIXELS).unwrap());
        let bottom = sheet
            .texts()
            .iter()
            .find(|text| text.text == "Anterior chamber IOL")
            .map_or(0.0, |text| text.bounds[3]);
        let rows = (0..page.height())
            .take_while(|row| f64::from(*row) < bottom * f64::from(PIXELS) + 30.0)
            .count();
        let rows = u32::try_from(rows).unwrap();
        let top = image::imageops::crop_imm(&page, 0, 0, page.width(), rows).to_image();
        // A sheet of which no file is made says nothing.
        let pages = sheet.pdf().map(|pdf| reader::pages(&pdf));
        let text: String = pages.unwrap_or_default().concat();
        Self {
            top,
            powers: powers(&text),
        }
    }

    /// What a machine reads otherwise than on the other sheet.
    pub(super) fn differs(&self, other: &Self) -> Option<String> {
        if self.top != other.top {
            let pixels = self.top.pixels().zip(other.top.pixels());
            let count = pixels.filter(|(one, other)| one != other).count();
            return Some(format!("{count} pixels of the fixed part differ"));
        }
        let another = self
            .powers
            .iter()
            .find(|power| !other.powers.contains(power));
        another.map(|power| format!("the file says {power}"))
    }
}

/// Everything with a sign, two decimals and the unit of a lens power.
fn powers(text: &str) -> Vec<String> {
    let close: Vec<char> = text.chars().filter(|it| !it.is_whitespace()).collect();
    let mut found = Vec::new();
    for (index, letter) in close.iter().enumerate() {
        if !matches!(letter, '+' | '−' | '-') {
            continue;
        }
        let number: String = close[index + 1..]
            .iter()
            .take_while(|it| it.is_numeric() || matches!(it, '.' | ','))
            .collect();
        let unit = close.get(index + 1 + number.chars().count());
        if number.contains(['.', ',']) && unit == Some(&'D') {
            found.push(format!("{letter}{number} D"));
        }
    }
    found
}
