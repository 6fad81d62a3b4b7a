//! What else is drawn in a room: level lines to write on or to part, boxes to tick or to fill in,
//! ruled tables, pale areas. Nothing of which a digit could be put together, and nothing over a letter.

use std::collections::BTreeSet;

use typst::layout::FrameItem;
use typst::visualize::{CurveItem, FixedStroke, Geometry};

use super::Wrong;
use super::figures::Drawn;
use super::letters::{Seen, lightness, upright};
use super::parts::{Item, Room};
use crate::error::Fault;
use crate::inspect::{TOUCH, intersection, overlap};

/// Widest line, points (house value).
const WIDEST: f64 = 3.6;
/// Shortest level line and lowest box, points (house values).
const SHORTEST: f64 = 20.0;
const LOWEST: f64 = 8.0;
/// Side of the largest box to tick, points; a higher one is at least half as wide again as high.
const TICK: f64 = 15.0;
const BROAD: f64 = 1.5;
/// Lightness of the darkest area, of 1 (house value).
const PALE: f32 = 0.9;
/// Most different left and right ends of lines and boxes in a room (house value).
const ENDS: usize = 16;
/// Difference of two places that is none, points.
const SAME: f64 = 1.0;
/// Least length of lines that an upright line may stand between, points.
const RULED: f64 = 100.0;

/// Something drawn that is of no figure.
struct Mark<'a> {
    item: &'a Item<'a>,
    index: usize,
    is: Kind,
    /// Left, top, right and bottom of its middle line, points.
    bounds: [f64; 4],
    /// Half of the width of its line.
    half: f64,
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Level,
    Upright,
    Box,
    /// Pale, without an outline.
    Area,
}

/// Refuses drawings of any other kind, and any that lies over letters; letters over letters too.
pub(super) fn check(room: &Room<'_>, drawn: &[Drawn], words: &[Seen]) -> Result<(), Wrong> {
    let mut marks = Vec::new();
    for (index, item) in room.items.iter().enumerate() {
        if drawn.iter().any(|drawn| drawn.is_of(index)) {
            continue;
        }
        match item.is {
            FrameItem::Shape(..) => marks.extend(mark(index, item)?),
            FrameItem::Image(..) => return Err(Wrong::with(item, Fault::Drawing)),
            _ => {}
        }
    }
    ruled(&marks)?;
    let ends: BTreeSet<_> = marks
        .iter()
        .filter(|mark| mark.is != Kind::Area)
        .map(|mark| [mark.bounds[0], mark.bounds[2]].map(|end| format!("{end:.0}")))
        .collect();
    if let Some(mark) = marks.first().filter(|_| ENDS < ends.len()) {
        return Err(Wrong::with(mark.item, Fault::Drawing));
    }
    nothing_over_letters(room, &marks, words)?;
    letters_alone(words)
}

/// What a shape is; nothing for one that paints nothing.
fn mark<'a>(index: usize, item: &'a Item<'a>) -> Result<Option<Mark<'a>>, Wrong> {
    let FrameItem::Shape(shape, _) = item.is else {
        return Ok(None);
    };
    let wrong = |fault| Err(Wrong::with(item, fault));
    let Some(scale) = upright(item.to_page) else {
        return wrong(Fault::Turned);
    };
    if shape.fill.is_none() && shape.stroke.is_none() {
        return Ok(None);
    }
    let pale = |paint| lightness(paint).is_some_and(|it| PALE <= it);
    if !shape.fill.as_ref().is_none_or(pale) {
        return wrong(Fault::Drawing);
    }
    let half = match &shape.stroke {
        None => 0.0,
        Some(stroke) if is_plain(stroke, scale) => stroke.thickness.to_pt() * scale / 2.0,
        Some(_) => return wrong(Fault::Drawing),
    };
    let middle = shape.geometry.bbox(None);
    let (corner, size) = crate::inspect::extent(middle);
    let bounds = crate::inspect::bounds(item.to_page, corner, size);
    let [left, top, right, bottom] = bounds;
    let [width, height] = [right - left, bottom - top];
    let is_line = match &shape.geometry {
        Geometry::Line(_) => true,
        Geometry::Rect(_) => false,
        Geometry::Curve(curve) => {
            matches!(curve.0.as_slice(), [CurveItem::Move(_), CurveItem::Line(_)])
        }
    };
    let is = if shape.stroke.is_none() && matches!(shape.geometry, Geometry::Rect(_)) {
        Kind::Area
    } else if is_line && height < 0.01 && SHORTEST <= width {
        Kind::Level
    } else if is_line && width < 0.01 {
        Kind::Upright
    } else if matches!(shape.geometry, Geometry::Rect(_)) && is_box(width, height) {
        Kind::Box
    } else {
        return wrong(Fault::Drawing);
    };
    Ok(Some(Mark {
        item,
        index,
        is,
        bounds,
        half,
    }))
}

/// A line that is whole, or dashed the same from its one end to the other.
fn is_plain(stroke: &FixedStroke, scale: f64) -> bool {
    let dash = stroke.dash.as_ref();
    let even = dash.is_none_or(|dash| dash.array.len() <= 2 && dash.phase.to_pt() == 0.0);
    even && stroke.thickness.to_pt() * scale <= WIDEST && lightness(&stroke.paint).is_some()
}

fn is_box(width: f64, height: f64) -> bool {
    let low = width.min(height);
    LOWEST <= low && (width.max(height) <= TICK || BROAD * height <= width)
}

/// An upright line stands between two level ones that begin and end together: it parts a table.
fn ruled(marks: &[Mark<'_>]) -> Result<(), Wrong> {
    let near = |one: f64, other: f64| (one - other).abs() <= SAME;
    for upright in marks.iter().filter(|mark| mark.is == Kind::Upright) {
        let [x, top, _, bottom] = upright.bounds;
        let across = |y: f64| {
            marks.iter().filter(move |mark| {
                let [left, at, right, _] = mark.bounds;
                let over = left - SAME <= x && x <= right + SAME && RULED <= right - left;
                mark.is == Kind::Level && near(at, y) && over
            })
        };
        let is_between = across(top).any(|over| {
            across(bottom).any(|under| {
                near(over.bounds[0], under.bounds[0]) && near(over.bounds[2], under.bounds[2])
            })
        });
        if !is_between {
            return Err(Wrong::with(upright.item, Fault::Drawing));
        }
    }
    Ok(())
}

impl Mark<'_> {
    /// What it inks.
    fn ink(&self) -> Vec<[f64; 4]> {
        let [left, top, right, bottom] = self.bounds;
        let half = self.half;
        let edge = |[left, top, right, bottom]: [f64; 4]| {
            [left - half, top - half, right + half, bottom + half]
        };
        match self.is {
            Kind::Level | Kind::Upright => vec![edge(self.bounds)],
            Kind::Area => Vec::new(),
            Kind::Box => vec![
                edge([left, top, right, top]),
                edge([left, bottom, right, bottom]),
                edge([left, top, left, bottom]),
                edge([right, top, right, bottom]),
            ],
        }
    }

    fn fills(&self) -> bool {
        matches!(self.item.is, FrameItem::Shape(shape, _) if shape.fill.is_some())
    }
}

fn nothing_over_letters(room: &Room<'_>, marks: &[Mark<'_>], words: &[Seen]) -> Result<(), Wrong> {
    for mark in marks {
        let ink = mark.ink();
        let is_crossed = |word: &&Seen| ink.iter().any(|ink| crosses(*ink, word));
        if let Some(word) = words.iter().find(is_crossed) {
            return Err(over(word));
        }
        let covers = mark.fills().then_some(mark.bounds);
        let mut painted = room.items.iter().take(mark.index);
        let is_covered = |item: &&Item<'_>| {
            let letters = inked(item);
            covers.is_some_and(|area| letters.is_some_and(|letters| overlap(area, letters)))
        };
        if let Some(item) = painted.find(is_covered) {
            return Err(Wrong::with(item, Fault::Over));
        }
    }
    Ok(())
}

fn over(word: &Seen) -> Wrong {
    Wrong {
        fault: Fault::Over,
        page: word.page,
        at: [word.left, word.base - word.size],
        text: word.text.clone(),
    }
}

/// Whether a line, however thin, goes through a word. It may stand under one or begin where one ends.
fn crosses(ink: [f64; 4], word: &Seen) -> bool {
    let [above, below] = [0.68, 0.05].map(|sizes| sizes * word.size);
    let letters = [
        word.left + TOUCH,
        word.base - above,
        word.right - TOUCH,
        word.base - below,
    ];
    let [left, top, right, bottom] = intersection(ink, letters);
    left < right && top < bottom
}

/// What is inked of capitals and digits of a text.
fn inked(item: &Item<'_>) -> Option<[f64; 4]> {
    let FrameItem::Text(text) = item.is else {
        return None;
    };
    if text.text.trim().is_empty() {
        return None;
    }
    let corner = [typst::layout::Abs::zero(), -text.size * 0.7];
    let size = [text.width(), text.size * 0.75];
    Some(crate::inspect::bounds(item.to_page, corner, size))
}

/// Refuses letters over letters. Within a figure of the plan they stand as they were handed over.
fn letters_alone(words: &[Seen]) -> Result<(), Wrong> {
    let ink = |word: &Seen| {
        let [above, below] = [0.7, 0.05].map(|sizes| sizes * word.size);
        [word.left, word.base - above, word.right, word.base + below]
    };
    let mut down: Vec<_> = words.iter().collect();
    down.sort_by(|one, other| ink(one)[1].total_cmp(&ink(other)[1]));
    let mut rest = down.as_slice();
    while let [word, below @ ..] = rest {
        rest = below;
        let bounds = ink(word);
        let other = below
            .iter()
            .take_while(|other| ink(other)[1] < bounds[3])
            .find(|other| {
                let figure = word.figure.is_some() && word.figure == other.figure;
                !figure && overlap(bounds, ink(other))
            });
        if other.is_some() {
            return Err(over(word));
        }
    }
    Ok(())
}
