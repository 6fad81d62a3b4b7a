//! The anterior chamber of this eye, to scale: cornea, aqueous, pupil, lens, nucleus, the limit of
//! the depth, and the piece that comes nearest, or the whole nucleus, where it is worked on.
//!
//! What nobody measured is not drawn, but for the outline of the lens beside its thickness and the
//! thickness of the iris, which only help the eye; no number is read off them.

mod cuts;
mod geometry;
mod labels;
mod shown;

use egui::accesskit::Role;
use egui::{Painter, Pos2, Rect, Response, Sense, Shape, Stroke, Ui, WidgetInfo, vec2};
use millrace_core::biometry::DepthStart;
use millrace_core::chamber::{
    ChamberSection, DivisionProximity, LENS_DIAMETER, Nucleus, WholeProximity, WorkingPlane,
};
use millrace_core::quantity::{Micrometers, Millimeters};
use millrace_wording::Words;
use millrace_wording::desk::figures as say;

use super::paint::{Scale, dashed};
use crate::theme::{Palette, measures};
use crate::words::in_use;
use geometry::{IRIS_MM, ellipse, mm, sphere};

#[derive(Clone, Copy, Debug)]
pub struct ChamberFigure<'a> {
    pub section: &'a ChamberSection,
    pub nucleus: Option<Nucleus>,
    /// What is shown in front of the lens.
    pub shown: Option<Shown<'a>>,
    /// The clinic's limit of the depth, and the surface it counts from.
    pub limit: (Micrometers, DepthStart),
}

/// What is worked on.
#[derive(Clone, Copy, Debug)]
pub enum Shown<'a> {
    Piece {
        plane: WorkingPlane,
        /// From the endothelium to the middle of the piece.
        middle: Millimeters,
        near: &'a DivisionProximity,
    },
    Whole {
        proximity: &'a WholeProximity,
        /// What irrigation adds to the depth.
        deepening: Millimeters,
    },
}

/// Where a figure is drawn, and with what.
struct Canvas<'a> {
    painter: &'a Painter,
    scale: Scale,
    palette: &'static Palette,
    rect: Rect,
}

/// Room for words beside the drawing, over it and under it, points.
const BESIDE: f32 = 126.0;
const OVER: f32 = 40.0;
const UNDER: f32 = 14.0;
/// Highest picture, points.
const HIGHEST: f32 = 340.0;

impl Canvas<'_> {
    fn filled(&self, places: &[[f32; 2]], fill: egui::Color32, stroke: Stroke) {
        let points = self.scale.line(places);
        self.painter
            .add(Shape::convex_polygon(points, fill, stroke));
    }
}

impl ChamberFigure<'_> {
    /// The same in words.
    pub fn words(&self, words: Words) -> String {
        let section = self.section;
        let (limit, start) = self.limit;
        let mut sentences = vec![say::section(
            words,
            section.endothelium,
            section.pupil_plane,
            section.aqueous_depth,
            limit,
            start,
        )];
        if let Some(pupil) = section.pupil_diameter {
            sentences.push(say::pupil_sentence(words, pupil));
        }
        if let Some(back) = section.lens_back {
            let thickness = back - section.pupil_plane;
            sentences.push(say::lens_sentence(words, thickness));
        }
        if let Some(nucleus) = self.nucleus {
            let (across, along) = (nucleus.diameter(), nucleus.thickness());
            sentences.push(say::nucleus_sentence(words, across, along));
        }
        sentences.extend(self.shown_in_words(words));
        sentences.join(" ")
    }

    /// How high the picture is at a width: as high as the scale makes it, up to a limit.
    pub fn height_for(&self, width: f32) -> f32 {
        let [across_mm, deep_mm] = self.extent_mm();
        let points_per_mm = (width - 2.0 * BESIDE).max(measures::CONTROL) / across_mm;
        (OVER + points_per_mm * deep_mm + UNDER).min(HIGHEST)
    }

    /// Draws it, `height` points high and as wide as there is room.
    pub fn show(&self, ui: &mut Ui, height: f32) -> Response {
        let size = vec2(ui.available_width(), height);
        let (rect, response) = ui.allocate_exact_size(size, Sense::HOVER);
        if ui.is_rect_visible(rect) {
            self.paint(ui, rect);
        }
        let words = self.words(in_use(ui));
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &words));
        response
    }

    fn paint(&self, ui: &Ui, rect: Rect) {
        let inner = Rect::from_min_max(
            rect.min + vec2(BESIDE, OVER),
            rect.max - vec2(BESIDE, UNDER),
        );
        let canvas = Canvas {
            painter: &ui.painter_at(rect),
            scale: Scale::fit(inner, self.extent_mm(), 0.0),
            palette: Palette::current(ui),
            rect,
        };
        let outline = Stroke::new(measures::OUTLINE, canvas.palette.line);
        canvas.painter.rect(
            rect,
            measures::ROUNDING,
            canvas.palette.field,
            outline,
            egui::StrokeKind::Inside,
        );
        self.paint_guides(&canvas);
        self.paint_cornea(&canvas);
        self.paint_lens(&canvas);
        // A piece in the bag lies where the nucleus says its size.
        let in_bag = matches!(
            self.shown,
            Some(Shown::Piece {
                plane: WorkingPlane::Bag,
                ..
            })
        );
        if !in_bag {
            self.label_nucleus(&canvas);
        }
        self.paint_iris(&canvas);
        self.paint_limit(&canvas);
        self.paint_shown(&canvas);
        self.paint_labels(&canvas);
    }

    /// Hairlines that carry the surfaces over to the measures beside the drawing.
    fn paint_guides(&self, canvas: &Canvas<'_>) {
        let line = Stroke::new(measures::OUTLINE, canvas.palette.line);
        let section = self.section;
        let beside = self.beside_mm();
        let start = self.start_mm();
        let plane = mm(section.pupil_plane);
        let mut guides = vec![
            ([-beside, start], [0.0, start]),
            ([-beside, plane], [beside, plane]),
            (
                [0.0, mm(section.endothelium)],
                [beside, mm(section.endothelium)],
            ),
        ];
        if let Some(back) = section.lens_back {
            guides.push(([0.0, mm(back)], [beside, mm(back)]));
        }
        for (from, to) in guides {
            let ends = [from, to].map(|place| canvas.scale.at(place));
            canvas.painter.line_segment(ends, line);
        }
    }

    fn paint_cornea(&self, canvas: &Canvas<'_>) {
        let section = self.section;
        let front = sphere(0.0, mm(section.front_radius), self.half_cornea_mm());
        let inner = self.angle_mm().min(mm(section.back_radius) * 0.98);
        let back = sphere(mm(section.endothelium), mm(section.back_radius), inner);
        // A strip of quadrilaterals: the outline as a whole is not convex.
        for (upper, lower) in front.windows(2).zip(back.windows(2)) {
            if let ([a, b], [c, d]) = (upper, lower) {
                canvas.filled(&[*a, *b, *d, *c], canvas.palette.selected, Stroke::NONE);
            }
        }
        let stroke = Stroke::new(1.5, canvas.palette.ink);
        for surface in [&front, &back] {
            let points = canvas.scale.line(surface);
            canvas.painter.add(Shape::line(points, stroke));
        }
        for (outer, inner) in [(front.first(), back.first()), (front.last(), back.last())] {
            if let (Some(outer), Some(inner)) = (outer, inner) {
                let ends = [canvas.scale.at(*outer), canvas.scale.at(*inner)];
                canvas.painter.line_segment(ends, stroke);
            }
        }
    }

    fn paint_iris(&self, canvas: &Canvas<'_>) {
        // Nobody measured the pupil: no edge is drawn that could be taken for one.
        let Some(pupil) = self.section.pupil_diameter else {
            return;
        };
        let (edge, root) = (mm(pupil) / 2.0, self.angle_mm());
        if root <= edge {
            return;
        }
        let depth = mm(self.section.pupil_plane);
        for side in [-1.0, 1.0] {
            let corners = [
                [side * edge, depth - IRIS_MM / 3.0],
                [side * f32::midpoint(edge, root), depth - IRIS_MM],
                [side * root, depth],
                [side * edge, depth],
            ];
            let stroke = Stroke::new(1.0, canvas.palette.ink);
            canvas.filled(&corners, canvas.palette.outline, stroke);
        }
    }

    fn paint_lens(&self, canvas: &Canvas<'_>) {
        let Some(axes) = self.lens_mm() else { return };
        let palette = canvas.palette;
        let center = [0.0, mm(self.section.pupil_plane) + axes[1]];
        let outline = ellipse(center, axes);
        canvas.filled(&outline, palette.quiet, Stroke::new(1.0, palette.outline));
        if let Some(nucleus) = self.nucleus {
            let axes = [mm(nucleus.equatorial_radius()), mm(nucleus.axial_radius())];
            let stroke = Stroke::new(1.5, palette.review);
            canvas.filled(&ellipse(center, axes), palette.review_wash, stroke);
            self.paint_cuts(canvas, center, axes);
        }
    }

    /// Half the width and half the thickness of the lens, if its thickness was measured.
    fn lens_mm(&self) -> Option<[f32; 2]> {
        let thickness = self.section.lens_back? - self.section.pupil_plane;
        Some([mm(LENS_DIAMETER) / 2.0, mm(thickness) / 2.0])
    }

    fn paint_limit(&self, canvas: &Canvas<'_>) {
        let (beside, depth) = (self.beside_mm(), self.limit_mm());
        let left = canvas.scale.at([-beside, depth]) - vec2(BESIDE, 0.0);
        let left = Pos2::new(left.x.max(canvas.rect.left() + measures::NEAR), left.y);
        let ends = [left, canvas.scale.at([self.half_cornea_mm(), depth])];
        dashed(
            canvas.painter,
            ends,
            Stroke::new(1.5, canvas.palette.accent),
        );
    }

    /// Where the measures stand, beside the drawing.
    fn beside_mm(&self) -> f32 {
        self.extent_mm()[0] / 2.0 + 0.35
    }

    /// Depth of the surface the limit counts from.
    fn start_mm(&self) -> f32 {
        match self.limit.1 {
            DepthStart::Epithelium => 0.0,
            DepthStart::Endothelium => mm(self.section.endothelium),
        }
    }
}
