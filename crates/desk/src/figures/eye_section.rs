//! A section of a whole eye, to scale, as its numbers come: the front of the cornea, the chamber, the lens and the
//! wall that the axial length ends at.
//!
//! What was measured is drawn in full lines, with its name; what only helps the eye, the outlines of eyeball and
//! lens, is dashed and said to be a scheme; what is not known is left out and said.

mod geometry;
mod labels;

use egui::accesskit::Role;
use egui::{Painter, Pos2, Rect, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};
use millrace_core::biometry::{EyeRecord, Side};
use millrace_core::chamber::{LENS_DIAMETER, drawing};

use super::paint::{Scale, dimension};
use crate::theme::{Palette, measures};
use crate::words::in_use;
pub use geometry::{CornealArc, EyePlaces, Missing};
use labels::Label;

/// An eye and what of it has a place.
#[derive(Clone, Debug)]
pub struct EyeFigure<'a> {
    side: Side,
    eye: &'a EyeRecord,
    places: EyePlaces,
}

/// Room for the names of what is measured, beside and over the drawing, points.
const BESIDE: f32 = 38.0;
const OVER: f32 = 30.0;
const UNDER: f32 = 22.0;
/// Highest drawing, points.
const HIGHEST: f32 = 330.0;

/// Where it is drawn, and with what.
struct Canvas<'a> {
    painter: &'a Painter,
    scale: Scale,
    palette: &'static Palette,
}

impl Canvas<'_> {
    /// The length of five millimeters.
    fn paint_bar(&self, rect: Rect) {
        let left = pos2(rect.left() + measures::TIGHT, rect.bottom() - UNDER / 2.0);
        let right: Pos2 = left + vec2(self.scale.length(5.0), 0.0);
        let ink = self.palette.ink;
        dimension(self.painter, [left, right], Stroke::new(1.0, ink));
        self.write_scale(right);
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a picture needs no more than single precision"
)]
const fn single(number: f64) -> f32 {
    number as f32
}

fn places_of(places: Vec<[f64; 2]>) -> Vec<[f32; 2]> {
    places.into_iter().map(|place| place.map(single)).collect()
}

impl<'a> EyeFigure<'a> {
    pub fn of(side: Side, eye: &'a EyeRecord) -> Self {
        Self {
            side,
            eye,
            places: EyePlaces::of(eye),
        }
    }

    /// Shows the drawing and, under it, what is measured with its number; as wide as there is room.
    pub fn show(&self, ui: &mut Ui) {
        let words = in_use(ui);
        let width = ui.available_width();
        if !self.places.is_empty() {
            let height = self.height_for(width);
            let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::HOVER);
            if ui.is_rect_visible(rect) {
                self.paint(ui, rect);
            }
            let text = self.words(words);
            response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &text));
        }
        self.legend(ui);
    }

    /// As high as one scale for both directions makes it, up to a limit.
    fn height_for(&self, width: f32) -> f32 {
        let [across, deep] = self.places.extent().map(single);
        let points_per_mm = (width - 2.0 * BESIDE).max(measures::CONTROL) / across;
        (OVER + points_per_mm * deep + UNDER).min(HIGHEST)
    }

    fn scale(&self, rect: Rect) -> Scale {
        let inner = Rect::from_min_max(
            rect.min + vec2(BESIDE, OVER),
            rect.max - vec2(BESIDE, UNDER),
        );
        Scale::fit(inner, self.places.extent().map(single), 0.0)
    }

    fn paint(&self, ui: &Ui, rect: Rect) {
        let canvas = Canvas {
            painter: &ui.painter_at(rect),
            scale: self.scale(rect),
            palette: Palette::current(ui),
        };
        self.paint_guides(&canvas);
        self.paint_scheme(&canvas);
        self.paint_measured(&canvas);
        for (ends, name) in self.dimensions() {
            let ends = ends.map(|place| canvas.scale.at(place));
            let ink = canvas.palette.ink;
            dimension(canvas.painter, ends, Stroke::new(1.0, ink));
            canvas.name(ends, name);
        }
        canvas.paint_bar(rect);
    }

    /// What nobody measured: the outline of the eyeball between the edge of the cornea and the pole, and that of
    /// the lens beside its thickness.
    fn paint_scheme(&self, canvas: &Canvas<'_>) {
        let palette = canvas.palette;
        let line = Stroke::new(1.0, palette.outline);
        let dash = |places: &[[f32; 2]]| {
            let points = canvas.scale.line(places);
            let dashes = Shape::dashed_line(&points, line, 4.0, 3.0);
            canvas.painter.extend(dashes);
        };
        if let Some(globe) = self.places.globe().map(places_of) {
            dash(&globe);
            let edge = self.places.cornea.and_then(|cornea| cornea.edge);
            if let (Some(edge), Some(first), Some(last)) = (edge, globe.first(), globe.last()) {
                let [half, depth] = edge.map(single);
                dash(&[[half, depth], *first]);
                dash(&[[-half, depth], *last]);
            }
        }
        if let Some([front, back]) = self.places.lens {
            let half = [LENS_DIAMETER.mm() / 2.0, (back - front) / 2.0];
            let outline = drawing::ellipse([0.0, f64::midpoint(front, back)], half);
            let outline = places_of(outline);
            let points = canvas.scale.line(&outline);
            let fill = palette.quiet;
            canvas
                .painter
                .add(Shape::convex_polygon(points, fill, Stroke::NONE));
            dash(&outline);
        }
    }

    fn paint_measured(&self, canvas: &Canvas<'_>) {
        let ink = canvas.palette.ink;
        let bold = Stroke::new(2.0, ink);
        if let Some(cornea) = self.places.cornea {
            let points = canvas.scale.line(&places_of(cornea.front()));
            if cornea.edge.is_some() {
                canvas.painter.add(Shape::line(points, bold));
            } else {
                // How far it reaches is not known.
                canvas
                    .painter
                    .extend(Shape::dashed_line(&points, bold, 5.0, 4.0));
            }
        }
        if let Some(pole) = self.places.pole() {
            let points = canvas.scale.line(&places_of(pole));
            canvas.painter.add(Shape::line(points, bold));
        }
        // On the axis each surface is where it was measured; how it curves is not.
        let surfaces = [self.places.endothelium]
            .into_iter()
            .chain(self.places.lens.map_or([None; 2], |it| it.map(Some)));
        for depth in surfaces.flatten().map(single) {
            let ends = [[-0.9, depth], [0.9, depth]].map(|place| canvas.scale.at(place));
            canvas.painter.line_segment(ends, Stroke::new(1.5, ink));
        }
    }

    /// Where the lengths along the axis stand, left of all that is drawn, mm.
    fn left(&self) -> f32 {
        let [across, _] = self.places.extent().map(single);
        -(across / 2.0 + 0.4)
    }

    /// Hairlines that carry the surfaces on the axis over to their lengths.
    fn paint_guides(&self, canvas: &Canvas<'_>) {
        let line = Stroke::new(measures::OUTLINE, canvas.palette.line);
        let lens = self.places.lens.map_or([None; 2], |it| it.map(Some));
        let chamber = self.places.chamber.map_or([None; 2], |it| it.map(Some));
        for depth in chamber.into_iter().chain(lens).flatten().map(single) {
            let ends = [[self.left(), depth], [0.0, depth]].map(|place| canvas.scale.at(place));
            canvas.painter.line_segment(ends, line);
        }
    }

    /// Each measured length: where it lies, mm, and its short name.
    fn dimensions(&self) -> Vec<([[f32; 2]; 2], Label)> {
        let mut found = Vec::new();
        let left = self.left();
        if let Some([half, depth]) = self.places.cornea.and_then(|it| it.edge) {
            let [half, _] = [half, depth].map(single);
            found.push(([[-half, -0.9], [half, -0.9]], Label::Diameter));
        }
        if let Some(wall) = self.places.wall.map(single) {
            let beside = wall / 2.0 + 0.6;
            found.push(([[beside, 0.0], [beside, wall]], Label::Length));
        }
        if let Some(ends) = self.places.chamber {
            let [start, front] = ends.map(single);
            found.push(([[left, start], [left, front]], Label::Depth));
        }
        if let Some(ends) = self.places.lens {
            let [front, back] = ends.map(single);
            found.push(([[left, front], [left, back]], Label::Lens));
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::case_file;

    use super::*;

    const HARD: &str = include_str!("../../../../demo-data/cases/hard-and-shallow.ron");

    /// 22.84 mm both ways in a rectangle that leaves 228.4 points each way: ten points a millimeter.
    #[test]
    fn a_millimeter_is_as_long_across_as_it_is_deep() {
        let eye = case_file::read(HARD).unwrap().eyes.right;
        let figure = EyeFigure::of(Side::Right, &eye);
        let size = vec2(228.4 + 2.0 * BESIDE, 228.4 + OVER + UNDER);
        let scale = figure.scale(Rect::from_min_size(pos2(0.0, 0.0), size));
        let [vertex, pole, aside] = [[0.0, 0.0], [0.0, 22.84], [11.42, 11.42]];
        let [vertex, pole, aside] = [vertex, pole, aside].map(|place| scale.at(place));
        let middle = BESIDE + 114.2;
        assert!(vertex.distance(pos2(middle, OVER)) < 0.01, "{vertex}");
        assert!(pole.distance(pos2(middle, OVER + 228.4)) < 0.01, "{pole}");
        assert!(aside.distance(pos2(middle + 114.2, OVER + 114.2)) < 0.01);
    }

    /// Each length that has a place is drawn from there to there.
    #[test]
    fn each_measured_length_is_drawn_between_its_ends() {
        let eye = case_file::read(HARD).unwrap().eyes.right;
        let figure = EyeFigure::of(Side::Right, &eye);
        let near = |found: f32, by_hand: f32| (found - by_hand).abs() < 1e-3;
        let lengths = figure.dimensions();
        assert_eq!(lengths.len(), 4);
        for ([from, to], label) in lengths {
            let long = ((to[0] - from[0]).powi(2) + (to[1] - from[1]).powi(2)).sqrt();
            let (begins, by_hand) = match label {
                Label::Diameter => (from[0], [-5.7, 11.4]),
                Label::Length => (from[1], [0.0, 22.84]),
                Label::Depth => (from[1], [0.0, 2.55]),
                Label::Lens => (from[1], [2.55, 5.05]),
            };
            assert!(
                near(begins, by_hand[0]) && near(long, by_hand[1]),
                "{label:?}"
            );
        }
        let nothing = EyeRecord::default();
        assert_eq!(EyeFigure::of(Side::Left, &nothing).dimensions().len(), 0);
    }
}
