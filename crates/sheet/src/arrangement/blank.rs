//! The fixed part around empty rooms: what it is when no arrangement can reach it.

use std::fmt::Write as _;

use typst::layout::{FrameItem, Ratio, Transform};

use super::Wrong;
use super::parts::{Item, Parts, Place};
use crate::data::SheetData;
use crate::error::Fault;
use crate::sheet::lay_out;
use crate::{SheetError, Template};

/// Difference of two places that is none, points.
const SAME: f64 = 1e-3;

/// Refuses pages whose fixed part is not what it is around empty rooms.
pub(super) fn check(
    parts: &Parts<'_>,
    data: &SheetData,
    template: &Template,
) -> Result<(), SheetError> {
    let mut moved_on = [0, 0];
    loop {
        let text = rooms_alone(parts, moved_on);
        let (document, _) = lay_out(data, &template.arranged_by(text))?;
        let blank = Parts::of(&document);
        let Some(place) = is_earlier(&blank, parts) else {
            return compare(parts, &blank);
        };
        // A room that begins on the next page although it would fit on this one.
        let [middle, end] = &mut moved_on;
        let breaks = if place == Place::Middle { middle } else { end };
        *breaks += 1;
        if document.pages().len() < *breaks {
            return compare(parts, &blank);
        }
    }
}

/// An arrangement of rooms as high as they are, with nothing in them.
fn rooms_alone(parts: &Parts<'_>, [middle, end]: [usize; 2]) -> String {
    let mut text = String::new();
    let places = [
        ("middle", Place::Middle, middle),
        ("boxes", Place::Boxes, 0),
        ("end", Place::End, end),
    ];
    for (name, place, breaks) in places {
        let rooms = parts.rooms.iter().filter(|room| room.place == place);
        // Without such a room the arrangement has no such part.
        if place == Place::Boxes && rooms.clone().next().is_none() {
            continue;
        }
        let rooms = rooms.map(|room| {
            let height = room.height.to_pt();
            format!("block(width: 100%, height: {height}pt, breakable: false, spacing: 0pt)")
        });
        let rooms = rooms.collect::<Vec<_>>().join("\ncolbreak()\n");
        let breaks = "colbreak()\n".repeat(breaks);
        // Writing into a text does not fail.
        let _ = writeln!(text, "#let {name}(data) = {{\n{breaks}{rooms}\n}}");
    }
    text
}

/// The first place that begins on an earlier page. That of the boxes has its page by the fixed part.
fn is_earlier(blank: &Parts<'_>, parts: &Parts<'_>) -> Option<Place> {
    let first = |parts: &Parts<'_>, place| {
        let mut rooms = parts.rooms.iter();
        rooms.find(|room| room.place == place).map(|room| room.page)
    };
    [Place::Middle, Place::End].into_iter().find(|place| {
        let [blank, wanted] = [blank, parts].map(|parts| first(parts, *place));
        blank < wanted
    })
}

fn compare(parts: &Parts<'_>, blank: &Parts<'_>) -> Result<(), SheetError> {
    let painted = |item: &&Item<'_>| !matches!(item.is, FrameItem::Tag(_));
    let mut fixed = parts.fixed.iter().filter(painted);
    let mut wanted = blank.fixed.iter().filter(painted);
    loop {
        match (fixed.next(), wanted.next()) {
            (None, None) => return Ok(()),
            (Some(item), Some(same)) if is_same(item, same) => {}
            (Some(item), _) | (None, Some(item)) => {
                return Err(Wrong::with(item, Fault::Changed).into());
            }
        }
    }
}

fn is_same(one: &Item<'_>, other: &Item<'_>) -> bool {
    one.page == other.page
        && one.cut == other.cut
        && is_there(one.to_page, other.to_page)
        && match (one.is, other.is) {
            (FrameItem::Text(one), FrameItem::Text(other)) => one == other,
            (FrameItem::Shape(one, _), FrameItem::Shape(other, _)) => one == other,
            (FrameItem::Image(one, size, _), FrameItem::Image(other, same, _)) => {
                one == other && size == same
            }
            _ => false,
        }
}

fn is_there(one: Transform, other: Transform) -> bool {
    let turn = |it: Transform| [it.sx, it.kx, it.ky, it.sy].map(Ratio::get);
    let place = |it: Transform| [it.tx.to_pt(), it.ty.to_pt()];
    let near = |(one, other): (f64, f64)| (one - other).abs() < SAME;
    turn(one).into_iter().zip(turn(other)).all(near)
        && place(one).into_iter().zip(place(other)).all(near)
}
