//! The figures of the plan: where one of them is drawn, it is all there, as it was handed over, with
//! its words in their places and its title over it. An axis that is drawn turned is a wrong axis.

use std::collections::BTreeSet;

use typst::layout::{FrameItem, Point, Transform};
use typst::visualize::{CurveItem, Geometry};

use super::Wrong;
use super::letters::{lightness, upright};
use super::numbers::close;
use super::parts::{Item, Room};
use crate::error::Fault;
use crate::figures::{Figure, Shape, Words};
use crate::inspect::overlap;

/// Difference of two places of a drawing that is none, points.
const SAME: f64 = 0.02;
/// How far words may stand from where they belong, points: they are centered by their typeface.
const WORDS_MOVED: f64 = 2.0;
/// The middle of capitals over their line, in sizes.
const MIDDLE: f64 = 0.357;
/// Where the line of the title may stand, over the drawing and into it, points.
const TITLE: [f64; 2] = [-18.0, 8.0];

/// A figure on a page.
pub(super) struct Drawn {
    /// Left, top, right and bottom in points.
    pub(super) bounds: [f64; 4],
    items: BTreeSet<usize>,
}

impl Drawn {
    /// Whether the item of the room is a part of it.
    pub(super) fn is_of(&self, item: usize) -> bool {
        self.items.contains(&item)
    }
}

/// Where a figure stands, and its scale.
#[derive(Clone, Copy)]
struct Placed {
    origin: [f64; 2],
    scale: f64,
}

impl Placed {
    fn of(self, [x, y]: [f64; 2]) -> [f64; 2] {
        let [left, top] = self.origin;
        [left + x * self.scale, top + y * self.scale]
    }
}

/// The figures in a room.
pub(super) fn find(room: &Room<'_>, figures: &[Figure]) -> Result<Vec<Drawn>, Wrong> {
    let shapes: Vec<_> = room
        .items
        .iter()
        .enumerate()
        .filter(|(_, item)| matches!(item.is, FrameItem::Shape(..)))
        .collect();
    let mut drawn = Vec::new();
    let mut rest = shapes.as_slice();
    while let [(index, first), behind @ ..] = rest {
        rest = behind;
        let found = figures.iter().find_map(|figure| {
            let placed = begins(figure, first)?;
            let count = figure.shapes.len();
            let own = shapes.iter().skip_while(|(it, _)| it < index).take(count);
            let same = own.clone().count() == count
                && own
                    .clone()
                    .zip(&figure.shapes)
                    .all(|((_, item), shape)| is_drawn(item, shape, placed));
            same.then(|| {
                (
                    figure,
                    placed,
                    own.map(|(it, _)| *it).collect::<BTreeSet<_>>(),
                )
            })
        });
        if let Some((figure, placed, items)) = found {
            rest = rest.get(items.len() - 1..).unwrap_or_default();
            let whole = with_words(room, (figure, placed), items);
            drawn.push(whole.ok_or_else(|| Wrong::with(first, Fault::Figure))?);
        }
    }
    alone(room, &drawn)?;
    Ok(drawn)
}

/// Where a figure would stand whose first shape this is.
fn begins(figure: &Figure, item: &Item<'_>) -> Option<Placed> {
    let shape = figure.shapes.first()?;
    let [x, y] = *shape.points.first()?;
    let scale = upright(item.to_page)?;
    let [left, top] = *points(item)?.first()?;
    let placed = Placed {
        origin: [left - x * scale, top - y * scale],
        scale,
    };
    is_drawn(item, shape, placed).then_some(placed)
}

/// The points of a drawing on the page.
fn points(item: &Item<'_>) -> Option<Vec<[f64; 2]>> {
    let FrameItem::Shape(shape, _) = item.is else {
        return None;
    };
    let Geometry::Curve(curve) = &shape.geometry else {
        return None;
    };
    let points = curve.0.iter().filter_map(|step| match step {
        CurveItem::Move(at) | CurveItem::Line(at) | CurveItem::Cubic(_, _, at) => {
            Some(on_page(*at, item.to_page))
        }
        CurveItem::Close => None,
    });
    Some(points.collect())
}

fn on_page(at: Point, to_page: Transform) -> [f64; 2] {
    let at = at.transform(to_page);
    [at.x.to_pt(), at.y.to_pt()]
}

fn is_drawn(item: &Item<'_>, given: &Shape, placed: Placed) -> bool {
    let (FrameItem::Shape(shape, _), Some(points)) = (item.is, points(item)) else {
        return false;
    };
    let near = |one: f64, other: f64| (one - other).abs() < SAME;
    let is_at = |point: &[f64; 2], given: &[f64; 2]| {
        let [x, y] = placed.of(*given);
        near(point[0], x) && near(point[1], y)
    };
    let (Some(first), count) = (given.points.first(), given.points.len()) else {
        return false;
    };
    let outline = count <= points.len()
        && points.iter().zip(&given.points).all(|(at, given)| is_at(at, given))
        // A closed one comes back to its beginning.
        && points.iter().skip(count).all(|at| given.closed && is_at(at, first));
    let line = match &shape.stroke {
        None => given.line == 0.0,
        Some(stroke) => {
            near(stroke.thickness.to_pt(), given.line)
                && lightness(&stroke.paint) == Some(0.0)
                && stroke.dash.is_some() == given.dashed
        }
    };
    let area = match (&shape.fill, given.fill) {
        (None, None) => true,
        (Some(paint), Some(fill)) => lightness(paint)
            .is_some_and(|it| (f64::from(it) - f64::from(fill) / 255.0).abs() < 0.004),
        _ => false,
    };
    upright(item.to_page).is_some_and(|scale| near(scale, placed.scale)) && outline && line && area
}

/// The figure with its words, which are painted after its shapes, and its title, painted before.
fn with_words(
    room: &Room<'_>,
    (figure, placed): (&Figure, Placed),
    mut items: BTreeSet<usize>,
) -> Option<Drawn> {
    let (first, last) = (*items.first()?, *items.last()?);
    let texts = |range: std::ops::Range<usize>| {
        range.filter_map(|index| {
            let item = room.items.get(index)?;
            matches!(item.is, FrameItem::Text(_)).then_some((index, item))
        })
    };
    let mut behind = texts(last + 1..room.items.len());
    for words in &figure.words {
        let mut left = close(&words.text);
        let mut own = Vec::new();
        while !left.is_empty() {
            let (index, item) = behind.next()?;
            left = left.strip_prefix(&close(&item.text()))?.to_owned();
            items.insert(index);
            own.push(item);
        }
        if !stands_at(&own, words, placed) {
            return None;
        }
    }
    let mut title = close(&figure.title);
    for (_, item) in texts(0..first).rev() {
        if title.is_empty() {
            break;
        }
        title = title.strip_suffix(&close(&item.text()))?.to_owned();
        let [_, base] = on_page(Point::zero(), item.to_page);
        let over = base - placed.origin[1];
        if !(TITLE[0] * placed.scale <= over && over <= TITLE[1] * placed.scale) {
            return None;
        }
    }
    let [left, top] = placed.origin;
    let [right, bottom] = placed.of([figure.width, figure.height]);
    title.is_empty().then_some(Drawn {
        bounds: [left, top, right, bottom],
        items,
    })
}

fn stands_at(own: &[&Item<'_>], words: &Words, placed: Placed) -> bool {
    let [x, y] = placed.of(words.at);
    let mut ends = [f64::MAX, f64::MIN];
    for item in own {
        let FrameItem::Text(text) = item.is else {
            return false;
        };
        let Some(scale) = upright(item.to_page) else {
            return false;
        };
        let [left, base] = on_page(Point::zero(), item.to_page);
        let size = text.size.to_pt() * scale;
        let is_level = (base - y - MIDDLE * size).abs() <= WORDS_MOVED;
        let is_sized = (size - words.size * placed.scale).abs() < SAME;
        if !is_level || !is_sized {
            return false;
        }
        ends = [
            ends[0].min(left),
            ends[1].max(left + text.width().to_pt() * scale),
        ];
    }
    let [left, right] = ends;
    let at = match words.anchor {
        "left" => left,
        "right" => right,
        _ => f64::midpoint(left, right),
    };
    own.is_empty() || (at - x).abs() <= WORDS_MOVED
}

/// Refuses anything in a figure that is not of it.
fn alone(room: &Room<'_>, drawn: &[Drawn]) -> Result<(), Wrong> {
    for (index, item) in room.items.iter().enumerate() {
        if matches!(item.is, FrameItem::Tag(_)) {
            continue;
        }
        // The words of one may reach beside another.
        let is_of_one = drawn.iter().any(|drawn| drawn.is_of(index));
        let core = item_core(item);
        let is_in_one = drawn.iter().any(|drawn| overlap(core, drawn.bounds));
        if is_in_one && !is_of_one {
            return Err(Wrong::with(item, Fault::Figure));
        }
    }
    Ok(())
}

/// What is surely inked of an item: its title's and caption's lines may touch a figure.
fn item_core(item: &Item<'_>) -> [f64; 4] {
    let [left, top, right, bottom] = item.bounds();
    match item.is {
        FrameItem::Text(text) => {
            let size = text.size.to_pt();
            [left, top + 0.3 * size, right, bottom - 0.4 * size]
        }
        _ => [left, top, right, bottom],
    }
}
