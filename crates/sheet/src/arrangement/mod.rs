//! Whether a clinic's arrangement left the fixed part as it is and prints nothing in its own rooms that
//! could be taken for another plan.
//!
//! The finished pages are read back, whatever the arrangement did to make them:
//!
//! 1. `blank`: the fixed part is laid out again around empty rooms of the same height. Outside of the
//!    rooms both must be the same, glyph by glyph and line by line.
//! 2. `letters`: every letter in a room is dark, upright, of a size, and the glyph of its letter.
//! 3. `words`: every number in a room, as it is seen and however it was put together, is one of the
//!    data, and no more often.
//! 4. `drawings` and `figures`: what is drawn there is a figure of the plan, whole, or a level line or
//!    a box; and nothing lies over anything.

mod blank;
mod drawings;
mod figures;
mod letters;
mod numbers;
mod parts;
mod pieces;
mod unseen;
mod words;

use millrace_core::biometry::Side;
use millrace_wording::terms::eye_capitals;
use millrace_wording::{Language, Words};
use typst_layout::PagedDocument;

use crate::data::SheetData;
use crate::error::{Fault, Spot};
use crate::{SheetError, Template};

use letters::Seen;
use numbers::Numbers;
use parts::{Item, Parts};

/// What is wrong with something of a page.
#[derive(Debug, PartialEq)]
struct Wrong {
    fault: Fault,
    /// The page, counted from 0.
    page: usize,
    /// Left and top in points.
    at: [f64; 2],
    text: String,
}

impl From<Wrong> for SheetError {
    fn from(wrong: Wrong) -> Self {
        let [across_pt, down_pt] = wrong.at;
        Self::Arrangement {
            fault: wrong.fault,
            at: Spot {
                page: wrong.page + 1,
                across_pt,
                down_pt,
                text: wrong.text,
            },
        }
    }
}

impl Wrong {
    fn with(item: &Item<'_>, fault: Fault) -> Self {
        let [left, top, ..] = item.bounds();
        Self {
            fault,
            page: item.page,
            at: [left, top],
            text: item.text(),
        }
    }
}

/// Refuses pages on which the arrangement of the template did what it must not.
pub(crate) fn check(
    document: &PagedDocument,
    data: &SheetData,
    template: &Template,
) -> Result<(), SheetError> {
    let parts = Parts::of(document);
    rooms_hold_what_they_may(&parts, data)?;
    blank::check(&parts, data, template)
}

fn rooms_hold_what_they_may(parts: &Parts<'_>, data: &SheetData) -> Result<(), Wrong> {
    let mut numbers = Numbers::of(data);
    let mut seen: Vec<Seen> = Vec::new();
    for room in &parts.rooms {
        parts::nothing_leaves(room)?;
        unseen::check(room, data, &numbers)?;
        let drawn = figures::find(room, &data.figures)?;
        let first = seen.len();
        for (index, item) in room.items.iter().enumerate() {
            let figure = drawn.iter().position(|drawn| drawn.is_of(index));
            let words = letters::read(item)?.into_iter();
            seen.extend(words.map(|word| Seen { figure, ..word }));
        }
        let words = seen.get(first..).unwrap_or_default();
        drawings::check(room, &drawn, words)?;
    }
    words::check(&seen, &mut numbers, &other_eye(data))
}

/// The eye that is not operated, in every language of the program.
fn other_eye(data: &SheetData) -> Vec<String> {
    // As seen facing the patient: a right eye is at the left.
    let other = match data.identity.at {
        "left" => Side::Left,
        _ => Side::Right,
    };
    let words = Language::ALL.map(|language| Words {
        language,
        ..Words::ENGLISH
    });
    let eyes = words.map(|words| eye_capitals(words, other).to_owned());
    eyes.into()
}
