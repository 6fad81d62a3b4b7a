//! What is worked on: the piece that comes nearest at its plane, or the whole nucleus on the pupil.

use egui::{Align2, Color32, Pos2, Shape, Stroke, vec2};
use millrace_core::chamber::{DivisionProximity, WholeProximity};
use millrace_core::quantity::Millimeters;
use millrace_wording::Words;
use millrace_wording::desk::figures as say;
use millrace_wording::text::proximity;

use super::geometry::{ellipse, mm};
use super::{Canvas, ChamberFigure, Shown};
use crate::figures::paint::dimension;
use crate::theme::Palette;

impl ChamberFigure<'_> {
    pub(super) fn shown_in_words(&self, words: Words) -> Option<String> {
        Some(match self.shown? {
            Shown::Piece { plane, near, .. } => say::pieces_sentence(
                words,
                proximity::pieces(words, near.division.pieces()),
                plane,
                proximity::margin(words, near),
                near.reach,
                near.turning_radius,
            ),
            Shown::Whole { proximity, .. } => say::whole_sentence(
                words,
                self.section.pupil_diameter?,
                proximity.clearance_on_pupil?,
                proximity.retreat_on_pupil?,
            ),
        })
    }

    pub(super) fn paint_shown(&self, canvas: &Canvas<'_>) {
        match self.shown {
            Some(Shown::Piece { middle, near, .. }) => self.paint_piece(canvas, middle, near),
            Some(Shown::Whole {
                proximity,
                deepening,
            }) => self.paint_whole(canvas, proximity, deepening),
            None => {}
        }
    }

    /// What stands over the drawing, at its place under the endothelium, in its color.
    pub(super) fn shown_label(&self, canvas: &Canvas<'_>) -> Option<(Pos2, String, Color32)> {
        let endothelium = mm(self.section.endothelium);
        let words = canvas.words();
        let (gap, text) = match self.shown? {
            Shown::Piece { near, .. } => (near.margin, margin(words, near)),
            Shown::Whole { proximity, .. } => {
                let clearance = proximity.clearance_on_pupil?;
                (clearance, say::clearance(words, clearance))
            }
        };
        let target = canvas.scale.at([0.0, endothelium + mm(gap) / 2.0]);
        Some((target, text, color(canvas.palette, gap)))
    }

    /// The piece lying flat in its extents; the dashed circle leaves the margin, the thin one is what
    /// the piece sweeps.
    fn paint_piece(&self, canvas: &Canvas<'_>, middle: Millimeters, near: &DivisionProximity) {
        let ink = color(canvas.palette, near.margin);
        let endothelium = mm(self.section.endothelium);
        let depth = endothelium + mm(middle);
        let center = canvas.scale.at([0.0, depth]);
        let [along, _, thick] = near.extents.map(mm);
        let size = vec2(canvas.scale.length(along), canvas.scale.length(thick));
        let piece = egui::Rect::from_center_size(center, size);
        let painter = canvas.painter;
        painter.rect(
            piece,
            3.0,
            canvas.palette.review_wash,
            Stroke::new(1.5, ink),
            egui::StrokeKind::Inside,
        );
        let reach = canvas.scale.length(mm(near.reach));
        painter.extend(Shape::dashed_line(
            &circle(center, reach),
            Stroke::new(1.5, ink),
            5.0,
            3.0,
        ));
        let swept = canvas.scale.length(mm(near.turning_radius));
        painter.circle_stroke(center, swept, Stroke::new(0.75, ink));
        let top = center - vec2(0.0, reach);
        dimension(
            painter,
            [canvas.scale.at([0.0, endothelium]), top],
            Stroke::new(1.5, ink),
        );
    }

    /// The whole nucleus where it lies on the pupil, its clearance, and how far it must fall back.
    fn paint_whole(&self, canvas: &Canvas<'_>, whole: &WholeProximity, deepening: Millimeters) {
        let (Some(nucleus), Some(lift), Some(clearance), Some(retreat)) = (
            self.nucleus,
            whole.lift_on_pupil,
            whole.clearance_on_pupil,
            whole.retreat_on_pupil,
        ) else {
            return;
        };
        let ink = color(canvas.palette, clearance);
        let endothelium = mm(self.section.endothelium);
        let depth = mm(self.section.pupil_plane) + mm(deepening) - mm(lift);
        let half = [mm(nucleus.equatorial_radius()), mm(nucleus.axial_radius())];
        canvas.filled(
            &ellipse([0.0, depth], half),
            canvas.palette.review_wash.gamma_multiply(0.8),
            Stroke::new(1.5, ink),
        );
        let painter = canvas.painter;
        let gap =
            [endothelium, endothelium + mm(clearance)].map(|depth| canvas.scale.at([0.0, depth]));
        dimension(painter, gap, Stroke::new(1.5, ink));
        if 0.0 < retreat.mm() {
            let beside = half[0] * 0.5;
            let ends = [depth, depth + mm(retreat)].map(|depth| canvas.scale.at([beside, depth]));
            dimension(painter, ends, Stroke::new(1.5, ink));
            let text = say::retreat(canvas.words(), retreat);
            let at = ends[0].lerp(ends[1], 0.5) + vec2(7.0, 0.0);
            canvas.write(at, Align2::LEFT_CENTER, &text, ink);
        }
    }
}

fn margin(words: Words, near: &DivisionProximity) -> String {
    match near.interval() {
        Some([low, high]) => say::margin_with_range(
            words,
            near.margin,
            words.fixed(low.mm(), 2),
            words.fixed(high.mm(), 2),
        ),
        None => say::margin(words, near.margin),
    }
}

fn circle(center: Pos2, radius: f32) -> Vec<Pos2> {
    ellipse([0.0, 0.0], [radius, radius])
        .into_iter()
        .map(|[x, y]| center + vec2(x, y))
        .collect()
}

const fn color(palette: &Palette, margin: Millimeters) -> Color32 {
    if margin.mm() < 0.0 {
        palette.stop
    } else {
        palette.note
    }
}
