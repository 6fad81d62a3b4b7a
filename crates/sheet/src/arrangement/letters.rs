//! Every letter of a room: dark, upright, of a size that is read but not taken for what is fixed, and
//! the glyph its typeface has for it.

use std::ops::Range;

use typst::layout::{Em, FrameItem, Point, Ratio, Transform};
use typst::text::{Glyph, TextItem};
use typst::visualize::{Color, Paint};

use super::Wrong;
use super::parts::Item;
use super::pieces::{is_decimal_mark, is_sign};
use crate::error::Fault;

/// Largest letters, points (house value): power, eye, name, number and cylinder stand larger.
const LARGEST: f64 = 12.0;
/// Smallest letters, points (house value): smaller ones are read by a machine alone.
const SMALLEST: f64 = 5.0;
/// Lightness up to which ink counts as dark, of 1 (house value).
const DARK: f32 = 0.45;
/// What of its advance a letter keeps at least: less, and it is written into the next.
const KEPT: f64 = 0.5;
/// The same of a digit or sign, and the most that it is moved from its place, in sizes.
const DIGIT_KEPT: f64 = 0.85;
const DIGIT_MOVED: f64 = 0.1;
/// Most that a mark is moved over or under its letter, in sizes.
const MARK_MOVED: f64 = 1.0;

/// A word, or a part of one, as it is seen.
#[derive(Clone, Debug)]
pub(super) struct Seen {
    pub(super) page: usize,
    pub(super) text: String,
    pub(super) left: f64,
    pub(super) right: f64,
    /// The line it stands on, points from the top.
    pub(super) base: f64,
    /// Size of the letters, points.
    pub(super) size: f64,
    /// The figure it is of.
    pub(super) figure: Option<usize>,
}

/// The words of a run of text.
pub(super) fn read(item: &Item<'_>) -> Result<Vec<Seen>, Wrong> {
    let FrameItem::Text(text) = item.is else {
        return Ok(Vec::new());
    };
    let wrong = |fault| Err(Wrong::with(item, fault));
    if text.text.trim().is_empty() {
        return Ok(Vec::new());
    }
    let Some(scale) = upright(item.to_page) else {
        return wrong(Fault::Turned);
    };
    let size = text.size.to_pt() * scale;
    if LARGEST + 0.01 < size {
        return wrong(Fault::Large);
    }
    if size < SMALLEST - 0.01 {
        return wrong(Fault::Small);
    }
    if text.stroke.is_some() || !is_dark(&text.fill) {
        return wrong(Fault::Pale);
    }
    if !text
        .glyphs
        .iter()
        .all(|glyph| is_of_its_letter(text, glyph))
        || is_turned_around(text)
    {
        return wrong(Fault::Glyph);
    }
    let origin = Point::zero().transform(item.to_page);
    let [x, base] = [origin.x.to_pt(), origin.y.to_pt()];
    let seen = words_of(text)
        .into_iter()
        .map(|(range, [left, right])| Seen {
            page: item.page,
            text: text.text.get(range).unwrap_or_default().to_owned(),
            left: x + left * size,
            right: x + right * size,
            base,
            size,
            figure: None,
        });
    Ok(seen.collect())
}

/// Words of a run with their left and right ends in sizes.
fn words_of(text: &TextItem) -> Vec<(Range<usize>, [f64; 2])> {
    let mut words = Vec::new();
    let mut word: Option<(Range<usize>, [f64; 2])> = None;
    let mut pen = 0.0;
    for glyph in &text.glyphs {
        let left = pen;
        pen += glyph.x_advance.get();
        if is_white(letters_of(text, glyph)) {
            words.extend(word.take());
            continue;
        }
        let range = glyph.range();
        // Glyphs stand as they are seen, so that those from right to left count down.
        word = Some(match word {
            None => (range, [left, pen]),
            Some((known, [first, _])) => (
                known.start.min(range.start)..known.end.max(range.end),
                [first, pen],
            ),
        });
    }
    words.extend(word);
    words
}

/// Whether digits stand from right to left: in every script they run the other way.
fn is_turned_around(text: &TextItem) -> bool {
    let numeric = text.text.chars().any(char::is_numeric);
    let pairs = text.glyphs.iter().zip(text.glyphs.iter().skip(1));
    numeric
        && pairs
            .into_iter()
            .any(|(one, next)| next.range.start < one.range.start)
}

fn letters_of<'a>(text: &'a TextItem, glyph: &Glyph) -> &'a str {
    text.text.get(glyph.range()).unwrap_or_default()
}

fn is_white(letters: &str) -> bool {
    letters
        .chars()
        .all(|letter| letter.is_whitespace() || letter == '\u{200b}')
}

/// Scale of what is neither turned, mirrored nor stretched.
pub(super) fn upright(transform: Transform) -> Option<f64> {
    let Transform { sx, ky, kx, sy, .. } = transform;
    let [sx, ky, kx, sy] = [sx, ky, kx, sy].map(Ratio::get);
    let is_upright =
        ky.abs() < 1e-6 && kx.abs() < 1e-6 && (sx - sy).abs() < 1e-6 && 0.0 < sx && 0.0 < sy;
    is_upright.then_some(sx)
}

/// Lightness of an ink, 0 black to 1 white; nothing for one that is not of one color, lets something
/// through, or is mixed by the printer.
pub(super) fn lightness(paint: &Paint) -> Option<f32> {
    let Paint::Solid(color @ Color::Process(_)) = paint else {
        return None;
    };
    let color = color.to_rgb();
    let opaque = 1.0 - 1e-3 <= color.alpha;
    opaque.then_some(0.2126 * color.red + 0.7152 * color.green + 0.0722 * color.blue)
}

fn is_dark(paint: &Paint) -> bool {
    lightness(paint).is_some_and(|lightness| lightness <= DARK)
}

/// Whether a glyph is what its typeface has for the letter, where it belongs. Letters join and change
/// their shape in many scripts; digits, signs and decimal marks never do.
fn is_of_its_letter(text: &TextItem, glyph: &Glyph) -> bool {
    let letters = letters_of(text, glyph);
    let nominal = text.font.x_advance(glyph.id).map_or(0.0, Em::get);
    let advance = glyph.x_advance.get();
    let up = glyph.y_offset.get().abs();
    if glyph.id == 0 || letters.is_empty() {
        // A letter that the typeface lacks, and one that only shapes what stands beside it.
        return letters.chars().all(char::is_whitespace);
    }
    let counts = |it: char| it.is_numeric() || is_sign(it) || is_decimal_mark(it);
    if is_white(letters) {
        // White at the end of a line is folded up.
        return -1e-6 <= advance;
    }
    if !letters.chars().any(counts) {
        return nominal * KEPT <= advance + 1e-6 && up <= MARK_MOVED;
    }
    let mut letters = letters.chars();
    let (Some(letter), None) = (letters.next(), letters.next()) else {
        return false;
    };
    let own = text.font.ttf().glyph_index(letter);
    own.is_some_and(|own| own.0 == glyph.id)
        && nominal * DIGIT_KEPT <= advance + 1e-6
        && glyph.x_offset.get().abs() <= DIGIT_MOVED
        && up <= DIGIT_MOVED
}
