//! What must stand on a sheet, and how large.

use millrace_wording::{Words, sheet as say};

use crate::Block;
use crate::data::{Lens, SheetData};
use crate::inspect::{On, Required};

/// Smallest letters of what must be read at one metre, points (house value).
const LARGE: f64 = 10.9;
/// Smallest letters of where the lens sits, points (house value).
const MEDIUM: f64 = 8.9;
/// Smallest letters of what is special, points (house value).
const SPECIAL: f64 = 9.9;
/// Smallest letters of the bands that say a sheet is outdated, points (house value).
const BAND: f64 = 15.0;
/// Smallest letters of the foot, points (house value).
const SMALL: f64 = 6.9;
/// Smallest letters of what is read in the hand, points (house value).
const IN_THE_HAND: f64 = 8.4;

pub(crate) fn required(words: Words, data: &SheetData) -> Vec<Required> {
    let mut required = Vec::new();
    let mut need = |block, on, size, text: &str| {
        required.push(Required {
            block,
            text: text.to_owned(),
            size,
            on,
        });
    };
    let (who, lens) = (&data.identity, &data.lens);
    need(Block::Eye, On::First, 40.0, who.eye);
    for text in [&who.name, &who.number, &who.born] {
        need(Block::Identity, On::First, LARGE, text);
    }
    for text in [&lens.name, &lens.model] {
        need(Block::Lens, On::First, LARGE, text);
    }
    need(Block::Lens, On::First, MEDIUM, &lens.site);
    match &lens.power {
        Some(power) => need(Block::Power, On::First, 30.0, power),
        None => need(Block::Power, On::First, 20.0, say::draft(words)),
    }
    for text in [&lens.cylinder, &lens.axis].into_iter().flatten() {
        need(Block::Cylinder, On::First, 15.0, text);
    }
    // What is long goes on to the next page.
    for fact in &data.told {
        need(Block::Told, On::Any, IN_THE_HAND, fact.name);
        need(Block::Told, On::Any, SPECIAL, &fact.text);
    }
    for text in [data.second_look.name, &data.second_look.text] {
        need(Block::SecondLook, On::Any, IN_THE_HAND, text);
    }
    for text in &data.special {
        need(Block::Special, On::First, SPECIAL, text);
    }
    for over in &data.overrides {
        for text in [
            &over.id,
            &over.title,
            &over.sentence,
            &over.reason,
            &over.by,
        ] {
            need(Block::Overrides, On::Any, IN_THE_HAND, text);
        }
    }
    beside_the_power(lens, &mut need);
    if let Some(mark) = &data.outdated {
        need(Block::Standing, On::Every, BAND, &mark.band);
        need(Block::Standing, On::Every, SPECIAL, &mark.note);
    }
    for text in [who.eye, &who.name, &who.number, &who.born] {
        need(Block::Foot, On::Every, SMALL, text);
    }
    if let Some(signed) = &data.signed {
        let sheet = say::sheet(words, &signed.number);
        need(Block::Foot, On::Every, SMALL, &sheet);
        need(Block::Foot, On::Every, SMALL, &signed.fingerprint);
        for text in [&signed.by, &signed.role, &signed.when] {
            need(Block::Foot, On::Any, IN_THE_HAND, text);
        }
    }
    required
}

/// Prediction and target, and what lies ready.
fn beside_the_power(lens: &Lens, need: &mut impl FnMut(Block, On, f64, &str)) {
    for fact in &lens.facts {
        for text in [fact.name, &fact.text] {
            need(Block::Target, On::First, SPECIAL, text);
        }
    }
    for other in &lens.others {
        need(Block::Ready, On::First, MEDIUM, &other.power);
        for text in [&other.title, &other.name].into_iter().chain(&other.lines) {
            need(Block::Ready, On::First, IN_THE_HAND, text);
        }
    }
}
