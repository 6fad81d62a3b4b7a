//! What lies where on the finished pages: whether every part that must be there is there, black, in
//! one piece and under nothing.

use typst::layout::{Abs, Em, Frame, FrameItem, Point, Ratio, Rect, Transform};
use typst::visualize::{Color, Paint};
use typst_layout::PagedDocument;

use crate::{Block, SheetError};

/// A run of text on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedText {
    /// The page, counted from 0.
    pub page: usize,
    pub text: String,
    /// Left, top, right and bottom in points, of what is inked of capitals.
    pub bounds: [f64; 4],
    /// Size of the letters in points.
    pub size: f64,
    black: bool,
    order: usize,
}

/// Something that hides what was painted before it.
struct Cover {
    page: usize,
    bounds: [f64; 4],
    order: usize,
}

/// Everything on the pages, in the order of painting.
pub(crate) struct Inspection {
    pub(crate) texts: Vec<PlacedText>,
    covers: Vec<Cover>,
    sizes: Vec<[f64; 2]>,
}

/// A text that must be there.
pub(crate) struct Required {
    pub(crate) block: Block,
    pub(crate) text: String,
    /// Smallest letters, points.
    pub(crate) size: f64,
    pub(crate) on: On,
}

/// Where a text must be.
#[derive(Clone, Copy)]
pub(crate) enum On {
    /// The first page.
    First,
    Every,
    Any,
}

/// Letters larger than this are what stands across the page: DRAFT, or why a sheet is outdated; points.
const ACROSS: f64 = 100.0;
/// Overlap that no eye sees, points.
pub(crate) const TOUCH: f64 = 0.6;

#[derive(Clone, Copy)]
struct Walk {
    page: usize,
    transform: Transform,
    clip: [f64; 4],
}

impl Inspection {
    pub(crate) fn of(document: &PagedDocument) -> Self {
        let mut found = Self {
            texts: Vec::new(),
            covers: Vec::new(),
            sizes: Vec::new(),
        };
        let mut order = 0;
        for (page, laid_out) in document.pages().iter().enumerate() {
            let size = laid_out.frame.size();
            let (width, height) = (size.x.to_pt(), size.y.to_pt());
            found.sizes.push([width, height]);
            let walk = Walk {
                page,
                transform: Transform::identity(),
                clip: [0.0, 0.0, width, height],
            };
            found.frame(&laid_out.frame, walk, &mut order);
        }
        found
    }

    fn frame(&mut self, frame: &Frame, walk: Walk, order: &mut usize) {
        for (at, item) in frame.items() {
            *order += 1;
            match item {
                FrameItem::Group(group) => {
                    let transform = walk
                        .transform
                        .pre_concat(Transform::translate(at.x, at.y))
                        .pre_concat(group.transform);
                    let mut inner = Walk { transform, ..walk };
                    if let Some(clip) = &group.clip {
                        let (at, size) = extent(clip.bbox(None));
                        let bounds = bounds(transform, at, size);
                        inner.clip = intersection(walk.clip, bounds);
                    }
                    self.frame(&group.frame, inner, order);
                }
                FrameItem::Text(text) => self.text(*at, text, walk, *order),
                FrameItem::Shape(shape, _) if shape.fill.is_some() => {
                    let ([x, y], size) = extent(shape.bbox(true));
                    let at = Point::new(at.x + x, at.y + y);
                    self.cover(at, size, walk, *order);
                }
                FrameItem::Image(_, size, _) => {
                    self.cover(*at, [size.x, size.y], walk, *order);
                }
                FrameItem::Shape(..) | FrameItem::Link(..) | FrameItem::Tag(_) => {}
            }
        }
    }

    fn text(&mut self, at: Point, text: &typst::text::TextItem, walk: Walk, order: usize) {
        let before = self.texts.last().filter(|it| it.page == walk.page);
        let own = letters_of_its_own(text, before.map_or("", |it| &it.text));
        if own.trim().is_empty() {
            return;
        }
        // Turned letters are as large as they were before.
        let [across, down] = [walk.transform.kx, walk.transform.sy].map(Ratio::get);
        let scale = (across * across + down * down).sqrt();
        let (above, below) = (text.size * 0.7, text.size * 0.12);
        let bounds = bounds(
            walk.transform,
            [at.x, at.y - above],
            [text.width(), above + below],
        );
        let [left, top, right, bottom] = bounds;
        let [clip_left, clip_top, clip_right, clip_bottom] = walk.clip;
        let clipped = left < clip_left - TOUCH
            || top < clip_top - TOUCH
            || clip_right + TOUCH < right
            || clip_bottom + TOUCH < bottom;
        let black = matches!(&text.fill, Paint::Solid(color) if is_black(color));
        self.texts.push(PlacedText {
            page: walk.page,
            text: own.to_owned(),
            bounds,
            size: text.size.to_pt() * scale,
            black: black && !clipped,
            order,
        });
    }

    fn cover(&mut self, at: Point, size: [Abs; 2], walk: Walk, order: usize) {
        self.covers.push(Cover {
            page: walk.page,
            bounds: bounds(walk.transform, [at.x, at.y], size),
            order,
        });
    }

    /// Refuses pages on which a part that must be there is missing, too small, not black, covered,
    /// overlapped, or off the page.
    pub(crate) fn check(&self, required: &[Required]) -> Result<(), SheetError> {
        let clear = self.clear();
        for need in required {
            let shown = match need.on {
                On::First => self.shows(need, &clear, |page| page == 0),
                On::Any => self.shows(need, &clear, |_| true),
                On::Every => (0..self.sizes.len())
                    .all(|wanted| self.shows(need, &clear, |page| page == wanted)),
            };
            if !shown {
                return Err(SheetError::BlockMissing { block: need.block });
            }
        }
        match self.off_the_page() {
            None => Ok(()),
            Some(text) => Err(SheetError::OffThePage {
                page: text.page + 1,
                text: text.text.clone(),
            }),
        }
    }

    fn shows(&self, need: &Required, clear: &[bool], page: impl Fn(usize) -> bool) -> bool {
        let mut seen = String::new();
        for (text, clear) in self.texts.iter().zip(clear) {
            if *clear && text.black && need.size <= text.size + 0.01 && page(text.page) {
                push_without_spaces(&mut seen, &text.text);
            }
        }
        let in_one_piece = !matches!(need.on, On::Any) && !need.text.chars().any(runs_to_the_left);
        if in_one_piece {
            return seen.contains(&without_spaces(&need.text));
        }
        words(&need.text).all(|word| seen.contains(&without_spaces(word)))
    }

    /// For each text, whether nothing lies over it.
    fn clear(&self) -> Vec<bool> {
        let mut clear: Vec<_> = self
            .texts
            .iter()
            .map(|text| !self.covers.iter().any(|cover| cover.hides(text)))
            .collect();
        for index in self.collisions().into_iter().flatten() {
            if let Some(clear) = clear.get_mut(index) {
                *clear = false;
            }
        }
        clear
    }

    /// Pairs of texts that overlap.
    pub(crate) fn overlaps(&self) -> Vec<[&PlacedText; 2]> {
        self.collisions()
            .into_iter()
            .filter_map(|[one, other]| Some([self.texts.get(one)?, self.texts.get(other)?]))
            .collect()
    }

    /// Places in the order of painting of each two texts that overlap. From the top of each page down,
    /// a text is compared with those that begin above its lower edge: no other reaches it.
    fn collisions(&self) -> Vec<[usize; 2]> {
        let mut down: Vec<_> = self.texts.iter().enumerate().collect();
        down.sort_by(|(_, one), (_, other)| {
            let by_page = one.page.cmp(&other.page);
            by_page.then(one.bounds[1].total_cmp(&other.bounds[1]))
        });
        let mut found = Vec::new();
        let mut rest = down.as_slice();
        while let [(index, one), below @ ..] = rest {
            let [_, _, _, bottom] = one.bounds;
            let reached = below.iter().take_while(|(_, other)| {
                other.page == one.page && TOUCH < bottom - other.bounds[1]
            });
            for (other_index, other) in reached {
                if collide(one, other) {
                    found.push([*index.min(other_index), *index.max(other_index)]);
                }
            }
            rest = below;
        }
        found.sort_unstable();
        found
    }

    fn off_the_page(&self) -> Option<&PlacedText> {
        self.texts.iter().find(|text| {
            let [left, top, right, bottom] = text.bounds;
            let [width, height] = self.sizes.get(text.page).copied().unwrap_or_default();
            let inside = 0.0 <= left && 0.0 <= top && right <= width && bottom <= height;
            !inside && text.size < ACROSS
        })
    }
}

impl Cover {
    fn hides(&self, text: &PlacedText) -> bool {
        self.page == text.page && text.order < self.order && overlap(self.bounds, text.bounds)
    }
}

fn collide(one: &PlacedText, other: &PlacedText) -> bool {
    one.page == other.page
        && one.order != other.order
        && one.size < ACROSS
        && other.size < ACROSS
        && overlap(one.bounds, other.bounds)
}

pub(crate) fn overlap(one: [f64; 4], other: [f64; 4]) -> bool {
    let [left, top, right, bottom] = intersection(one, other);
    TOUCH < right - left && TOUCH < bottom - top
}

pub(crate) fn intersection(one: [f64; 4], other: [f64; 4]) -> [f64; 4] {
    [
        one[0].max(other[0]),
        one[1].max(other[1]),
        one[2].min(other[2]),
        one[3].min(other[3]),
    ]
}

/// What a run adds to what stands before it. A mark that is set higher than its letter is a run of its own,
/// which repeats the letter that it belongs to and takes no room.
fn letters_of_its_own<'a>(run: &'a typst::text::TextItem, before: &str) -> &'a str {
    let mut own = run.text.as_str();
    for glyph in &run.glyphs {
        let letters = run.text.get(glyph.range()).unwrap_or_default();
        let is_repeated = glyph.x_advance == Em::zero() && before.ends_with(letters);
        match own.strip_prefix(letters) {
            Some(rest) if is_repeated => own = rest,
            _ => break,
        }
    }
    own
}

/// Corner and size of a rectangle.
pub(crate) fn extent(rect: Rect) -> ([Abs; 2], [Abs; 2]) {
    let size = rect.size();
    ([rect.min.x, rect.min.y], [size.x, size.y])
}

/// Bounds of a rectangle after a transformation.
pub(crate) fn bounds(
    transform: Transform,
    [x, y]: [Abs; 2],
    [width, height]: [Abs; 2],
) -> [f64; 4] {
    let corners = [
        [x, y],
        [x + width, y],
        [x, y + height],
        [x + width, y + height],
    ]
    .map(|[x, y]| {
        let at = Point::new(x, y).transform(transform);
        [at.x.to_pt(), at.y.to_pt()]
    });
    let [first, ..] = corners;
    corners.iter().fold(
        [first[0], first[1], first[0], first[1]],
        |[left, top, right, bottom], [x, y]| {
            [left.min(*x), top.min(*y), right.max(*x), bottom.max(*y)]
        },
    )
}

fn is_black(color: &Color) -> bool {
    let color = color.to_rgb();
    color.red + color.green + color.blue < 1e-3 && 1.0 <= color.alpha
}

/// Words, cut where the direction of writing changes: runs of a line stand in the order they are seen.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|letter: char| letter.is_whitespace() || letter == '\u{200b}')
        .flat_map(|word| {
            let mut parts = Vec::new();
            let mut start = 0;
            let mut last = None;
            for (index, letter) in word.char_indices() {
                let kind = runs_to_the_left(letter);
                if last.is_some_and(|last| last != kind) {
                    parts.extend(word.get(start..index));
                    start = index;
                }
                last = Some(kind);
            }
            parts.extend(word.get(start..));
            parts
        })
        .filter(|word| !word.is_empty())
}

const fn runs_to_the_left(letter: char) -> bool {
    matches!(letter, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{feff}')
}

fn without_spaces(text: &str) -> String {
    let mut without = String::new();
    push_without_spaces(&mut without, text);
    without
}

fn push_without_spaces(to: &mut String, text: &str) {
    to.extend(
        text.chars()
            .filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}'),
    );
}

#[cfg(test)]
mod tests;
