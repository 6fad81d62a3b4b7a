//! What of the finished pages is of the fixed part, and what of the arrangement.

use typst::foundations::Label;
use typst::layout::{Abs, Frame, FrameItem, Point, Transform};
use typst_layout::PagedDocument;

use super::Wrong;
use crate::error::Fault;
use crate::inspect::{bounds, extent};

/// How far ink may reach out of a room, points: place the white between the parts, and what of letters
/// reaches below the line.
pub(super) const REACH: f64 = 6.0;
/// Highest of letters over their line and lowest below it, in sizes; what stacks higher is refused.
const ABOVE: f64 = 1.0;
const BELOW: f64 = 0.4;

/// Something that is painted.
pub(super) struct Item<'a> {
    /// The page, counted from 0.
    pub(super) page: usize,
    /// From the item's own place to that on the page.
    pub(super) to_page: Transform,
    pub(super) is: &'a FrameItem,
    /// Whether something cuts it that does not cut all of the room.
    pub(super) cut: bool,
}

/// One of the places of the arrangement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    Middle,
    /// Beside the signature, in one piece; an arrangement may have none.
    Boxes,
    End,
}

impl Place {
    /// The one of a label in the fixed part.
    fn of(label: Label) -> Option<Self> {
        match label.resolve().as_str() {
            "middle-of-the-clinic" => Some(Self::Middle),
            "boxes-of-the-clinic" => Some(Self::Boxes),
            "end-of-the-clinic" => Some(Self::End),
            _ => None,
        }
    }
}

/// A place of the arrangement on one page.
pub(super) struct Room<'a> {
    pub(super) page: usize,
    pub(super) place: Place,
    /// Left, top, right and bottom in points.
    pub(super) bounds: [f64; 4],
    pub(super) height: Abs,
    pub(super) items: Vec<Item<'a>>,
}

/// Everything on the pages, in the order of painting.
#[derive(Default)]
pub(super) struct Parts<'a> {
    pub(super) fixed: Vec<Item<'a>>,
    pub(super) rooms: Vec<Room<'a>>,
}

#[derive(Clone, Copy)]
struct Walk {
    page: usize,
    to_page: Transform,
    room: Option<usize>,
    /// Groups that the fixed part puts around a room: the next one cuts all of it.
    enters: bool,
    cut: bool,
}

impl<'a> Parts<'a> {
    pub(super) fn of(document: &'a PagedDocument) -> Self {
        let mut parts = Self::default();
        for (page, laid_out) in document.pages().iter().enumerate() {
            let walk = Walk {
                page,
                to_page: Transform::identity(),
                room: None,
                enters: false,
                cut: false,
            };
            parts.frame(&laid_out.frame, walk);
        }
        parts
    }

    fn frame(&mut self, frame: &'a Frame, walk: Walk) {
        for (at, is) in frame.items() {
            let to_page = walk.to_page.pre_concat(Transform::translate(at.x, at.y));
            let FrameItem::Group(group) = is else {
                let item = Item {
                    page: walk.page,
                    to_page,
                    is,
                    cut: walk.cut,
                };
                self.items_of(walk.room).push(item);
                continue;
            };
            let to_page = to_page.pre_concat(group.transform);
            let place = group.label.filter(|_| walk.room.is_none());
            let inner = match place.and_then(Place::of) {
                Some(place) => Walk {
                    room: Some(self.enter(place, (walk.page, to_page), &group.frame)),
                    enters: true,
                    cut: walk.cut || group.clip.is_some(),
                    ..walk
                },
                None => Walk {
                    enters: false,
                    cut: walk.cut || (group.clip.is_some() && !walk.enters),
                    ..walk
                },
            };
            self.frame(&group.frame, Walk { to_page, ..inner });
        }
    }

    fn enter(&mut self, place: Place, (page, to_page): (usize, Transform), frame: &Frame) -> usize {
        self.rooms.push(Room {
            page,
            place,
            bounds: bounds(to_page, [Abs::zero(); 2], [frame.width(), frame.height()]),
            height: frame.height(),
            items: Vec::new(),
        });
        self.rooms.len() - 1
    }

    fn items_of(&mut self, room: Option<usize>) -> &mut Vec<Item<'a>> {
        match room.and_then(|room| self.rooms.get_mut(room)) {
            Some(room) => &mut room.items,
            None => &mut self.fixed,
        }
    }
}

impl Item<'_> {
    /// Left, top, right and bottom of what may be inked, in points.
    pub(super) fn bounds(&self) -> [f64; 4] {
        match self.is {
            FrameItem::Text(text) => {
                let [above, below] = [ABOVE, BELOW].map(|sizes| text.size * sizes);
                let corner = [Abs::zero(), -above];
                bounds(self.to_page, corner, [text.width(), above + below])
            }
            FrameItem::Shape(shape, _) => {
                let (corner, size) = extent(shape.bbox(true));
                bounds(self.to_page, corner, size)
            }
            FrameItem::Image(_, size, _) | FrameItem::Link(_, size) => {
                bounds(self.to_page, [Abs::zero(); 2], [size.x, size.y])
            }
            FrameItem::Group(_) | FrameItem::Tag(_) => {
                let at = Point::zero().transform(self.to_page);
                let [x, y] = [at.x.to_pt(), at.y.to_pt()];
                [x, y, x, y]
            }
        }
    }

    /// What of it is text.
    pub(super) fn text(&self) -> String {
        match self.is {
            FrameItem::Text(text) => text.text.to_string(),
            _ => String::new(),
        }
    }

    /// Whether it leaves something on the page.
    fn is_painted(&self) -> bool {
        match self.is {
            FrameItem::Text(text) => !text.text.trim().is_empty(),
            FrameItem::Shape(shape, _) => shape.fill.is_some() || shape.stroke.is_some(),
            FrameItem::Image(..) | FrameItem::Link(..) => true,
            FrameItem::Group(_) | FrameItem::Tag(_) => false,
        }
    }
}

/// Refuses what reaches out of a room, or is cut off.
pub(super) fn nothing_leaves(room: &Room<'_>) -> Result<(), Wrong> {
    let [left, top, right, bottom] = room.bounds;
    if room.height < Abs::zero() {
        return Err(Wrong {
            fault: Fault::Leaves,
            page: room.page,
            at: [left, top],
            text: String::new(),
        });
    }
    for item in room.items.iter().filter(|item| item.is_painted()) {
        if item.cut {
            return Err(Wrong::with(item, Fault::Cut));
        }
        let [item_left, item_top, item_right, item_bottom] = item.bounds();
        let inside = left - REACH <= item_left
            && top - REACH <= item_top
            && item_right <= right + REACH
            && item_bottom <= bottom + REACH;
        if !inside {
            return Err(Wrong::with(item, Fault::Leaves));
        }
    }
    Ok(())
}
