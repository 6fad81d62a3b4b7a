//! Figures as lines and words at their places, in points from the upper left corner. The template
//! draws them; nothing is computed there.

mod chamber;
mod view;

use serde::Serialize;

use crate::content::Subject;

/// A figure with the same in words.
#[derive(Serialize)]
pub(crate) struct Figure {
    pub(crate) title: String,
    /// The same in words, for a reader that does not see it.
    pub(crate) alt: String,
    pub(crate) width: f64,
    pub(crate) height: f64,
    pub(crate) shapes: Vec<Shape>,
    pub(crate) words: Vec<Words>,
    pub(crate) caption: String,
}

/// A line or an area.
#[derive(Serialize)]
pub(crate) struct Shape {
    pub(crate) points: Vec<[f64; 2]>,
    pub(crate) closed: bool,
    /// Width of the line; none for an area without an outline.
    pub(crate) line: f64,
    pub(crate) dashed: bool,
    /// Gray of the area, 0 black to 255 white; nothing for no area.
    pub(crate) fill: Option<u8>,
}

/// Words at a place.
#[derive(Serialize)]
pub(crate) struct Words {
    pub(crate) at: [f64; 2],
    /// "left", "center" or "right": the end of the words that is at the place.
    pub(crate) anchor: &'static str,
    pub(crate) size: f64,
    pub(crate) strong: bool,
    pub(crate) text: String,
}

impl Shape {
    fn line(points: Vec<[f64; 2]>, line: f64) -> Self {
        Self {
            points,
            closed: false,
            line,
            dashed: false,
            fill: None,
        }
    }

    fn area(points: Vec<[f64; 2]>, line: f64, fill: u8) -> Self {
        Self {
            closed: true,
            fill: Some(fill),
            ..Self::line(points, line)
        }
    }

    fn dashed(self) -> Self {
        Self {
            dashed: true,
            ..self
        }
    }
}

impl Words {
    fn new(at: [f64; 2], anchor: &'static str, text: impl Into<String>) -> Self {
        Self {
            at,
            anchor,
            size: 7.0,
            strong: false,
            text: text.into(),
        }
    }

    fn strong(self, size: f64) -> Self {
        Self {
            size,
            strong: true,
            ..self
        }
    }
}

/// The surgeon's view always; the view of ISO 8429 for a toric lens; the section for a hard nucleus
/// or a chamber with a finding on its depth.
pub(crate) fn all(subject: Subject<'_>) -> Vec<Figure> {
    let mut figures = vec![view::from_the_seat(subject)];
    if subject.is_toric() {
        figures.insert(0, view::facing_the_patient(subject));
    }
    figures.extend(chamber::section(subject));
    figures
}

impl Subject<'_> {
    fn is_toric(self) -> bool {
        let lens = &self.draft.lens;
        lens.toric().is_some() || lens.record().is_some_and(|record| record.toric.is_some())
    }
}
