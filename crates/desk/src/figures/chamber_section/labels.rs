//! Words and measures of the section, each where nothing else is written.

use egui::{Align2, FontId, Rect, Stroke, Vec2, vec2};
use millrace_wording::desk::figures as say;
use millrace_wording::{Show as _, Words};

use super::geometry::mm;
use super::{Canvas, ChamberFigure, OVER};
use crate::figures::paint::{Label, dimension};
use crate::theme::measures;
use crate::widgets::Ink;
use crate::words::in_use;

/// How far down the lower half of the nucleus its words stand.
const LOW: f32 = 0.46;
/// From a measure to its words.
const GAP: f32 = 7.0;

impl Canvas<'_> {
    pub(super) fn words(&self) -> Words {
        in_use(self.painter.ctx())
    }

    /// Writes at a place, or beside it where the words would leave the picture.
    pub(super) fn write(&self, at: egui::Pos2, anchor: Align2, text: &str, ink: egui::Color32) {
        let font = FontId::proportional(measures::SMALL);
        let size = self
            .painter
            .layout_no_wrap(text.to_owned(), font.clone(), ink)
            .size();
        let room = self.rect.shrink(measures::TIGHT);
        let label = Label {
            at: at + inside(anchor.anchor_size(at, size), room),
            anchor,
            ink: Ink::new(font, ink),
            ground: self.palette.field,
        };
        label.write(self.painter, text.to_owned());
    }
}

/// How far a rectangle is moved to lie in another one; its left and upper edges come first.
fn inside(rect: Rect, room: Rect) -> Vec2 {
    let back = (room.max - rect.max).min(Vec2::ZERO);
    back + (room.min - (rect.min + back)).max(Vec2::ZERO)
}

impl ChamberFigure<'_> {
    pub(super) fn paint_labels(&self, canvas: &Canvas<'_>) {
        self.label_depth(canvas);
        self.label_right(canvas);
        self.label_above(canvas);
        self.label_corner(canvas);
    }

    /// On the left: depth and limit, from the same surface.
    fn label_depth(&self, canvas: &Canvas<'_>) {
        let palette = canvas.palette;
        let x = -self.beside_mm();
        let ends = [self.start_mm(), mm(self.section.pupil_plane)]
            .map(|depth| canvas.scale.at([x, depth]));
        dimension(canvas.painter, ends, Stroke::new(1.0, palette.ink));
        let (limit, start) = self.limit;
        // In the middle of the part that lies over the limit, so that the two never meet.
        let limit_y = canvas.scale.at([x, self.limit_mm()]).y;
        let [top, plane] = ends;
        let middle = f32::midpoint(top.y, plane.y.min(limit_y));
        let at = egui::pos2(top.x - GAP, middle);
        let words = canvas.words();
        let text = say::depth(words, self.depth_from_start());
        canvas.write(at, Align2::RIGHT_CENTER, &text, palette.ink);
        let font = FontId::proportional(measures::SMALL);
        let start =
            canvas
                .painter
                .layout_no_wrap(start.show(words).into_owned(), font, palette.muted);
        // Up to the measure, and never over the edge of the picture.
        let left = (top.x + 4.0 - start.size().x).max(canvas.rect.left() + measures::NEAR);
        let at = egui::pos2(left, top.y - GAP - start.size().y);
        canvas.painter.galley(at, start, palette.muted);
        let at = egui::pos2(top.x - GAP, limit_y + 4.0);
        canvas.write(
            at,
            Align2::RIGHT_TOP,
            &say::limit(words, limit),
            palette.accent,
        );
    }

    /// On the right: aqueous and lens.
    fn label_right(&self, canvas: &Canvas<'_>) {
        let section = self.section;
        let ink = canvas.palette.ink;
        let x = self.beside_mm();
        let measure = |from, to, text: String| {
            let ends = [from, to].map(|depth| canvas.scale.at([x, depth]));
            dimension(canvas.painter, ends, Stroke::new(1.0, ink));
            let middle = ends[0].lerp(ends[1], 0.5) + vec2(GAP, 0.0);
            canvas.write(middle, Align2::LEFT_CENTER, &text, ink);
        };
        let plane = mm(section.pupil_plane);
        let words = canvas.words();
        let text = say::aqueous(words, section.aqueous_depth);
        measure(mm(section.endothelium), plane, text);
        if let Some(back) = section.lens_back {
            let text = say::lens(words, back - section.pupil_plane);
            measure(plane, mm(back), text);
        }
    }

    /// Over the drawing, with a line to what is meant: thickness of the cornea, what is left over what is worked on.
    fn label_above(&self, canvas: &Canvas<'_>) {
        let section = self.section;
        let palette = canvas.palette;
        let strip = canvas.rect.top() + OVER * 0.4;
        let axis = canvas.scale.at([0.0, 0.0]).x;
        let call = |side: f32, to: egui::Pos2, text: String, ink| {
            let near = egui::pos2(axis + side * 26.0, strip);
            let line = Stroke::new(1.0, ink);
            canvas.painter.line_segment([near, to], line);
            canvas.painter.circle_filled(to, 2.0, ink);
            let anchor = if side < 0.0 {
                Align2::RIGHT_CENTER
            } else {
                Align2::LEFT_CENTER
            };
            canvas.write(near + vec2(side * 3.0, 0.0), anchor, &text, ink);
        };
        let cornea = canvas.scale.at([-0.5, mm(section.endothelium) / 2.0]);
        let words = canvas.words();
        let text = say::cornea(words, section.endothelium);
        call(-1.0, cornea, text, palette.ink);
        if let Some((target, text, ink)) = self.shown_label(canvas) {
            call(1.0, target, text, ink);
        }
    }

    /// In the lower part of the nucleus, out of the way of the piece; one word in its middle where it is small.
    pub(super) fn label_nucleus(&self, canvas: &Canvas<'_>) {
        let (Some(nucleus), Some([_, half_lens])) = (self.nucleus, self.lens_mm()) else {
            return;
        };
        let palette = canvas.palette;
        let font = FontId::proportional(measures::SMALL);
        let center = mm(self.section.pupil_plane) + half_lens;
        let [across, along] = [mm(nucleus.equatorial_radius()), mm(nucleus.axial_radius())];
        let words = canvas.words();
        let across_text = words.exact(nucleus.diameter().um(), 3, 2);
        let text = say::nucleus_size(words, across_text, nucleus.thickness());
        let size = canvas
            .painter
            .layout_no_wrap(text.clone(), font.clone(), palette.ink)
            .size();
        // Width of the ellipse at the lower edge of the words.
        let lower = along * LOW + size.y / 2.0 / canvas.scale.length(1.0);
        let share = (1.0 - (lower / along) * (lower / along)).max(0.0).sqrt();
        let (text, depth) = if size.x + GAP < canvas.scale.length(2.0 * across * share) {
            (text, center + along * LOW)
        } else {
            (say::nucleus(words).to_owned(), center)
        };
        let label = Label {
            at: canvas.scale.at([0.0, depth]),
            anchor: Align2::CENTER_CENTER,
            ink: Ink::new(font, palette.ink),
            ground: palette.review_wash,
        };
        label.write(canvas.painter, text);
    }

    /// Lower left: pupil and the length of a millimeter.
    fn label_corner(&self, canvas: &Canvas<'_>) {
        let ink = canvas.palette.ink;
        let corner = canvas.rect.left_bottom() + vec2(12.0, -14.0);
        let bar = [corner, corner + vec2(canvas.scale.length(1.0), 0.0)];
        dimension(canvas.painter, bar, Stroke::new(1.0, ink));
        let words = canvas.words();
        let beside = bar[1] + vec2(GAP, 0.0);
        canvas.write(beside, Align2::LEFT_CENTER, say::one_millimeter(words), ink);
        if let Some(pupil) = self.section.pupil_diameter {
            let above = corner + vec2(0.0, -GAP - measures::SMALL);
            let text = say::pupil(words, pupil);
            canvas.write(above, Align2::LEFT_BOTTOM, &text, ink);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a picture of 100 × 50 points.
    #[test]
    fn a_label_that_would_leave_the_picture_stands_beside_its_place() {
        let room = Rect::from_min_size(egui::pos2(0.0, 0.0), vec2(100.0, 50.0));
        let moved = |x, y, wide| {
            let label = Rect::from_min_size(egui::pos2(x, y), vec2(wide, 10.0));
            inside(label, room)
        };
        assert_eq!(moved(20.0, 20.0, 30.0), vec2(0.0, 0.0));
        assert_eq!(moved(80.0, 45.0, 30.0), vec2(-10.0, -5.0));
        assert_eq!(moved(-7.0, -1.0, 30.0), vec2(7.0, 1.0));
        // Wider than the picture: its beginning can be read.
        assert_eq!(moved(-10.0, 0.0, 130.0), vec2(10.0, 0.0));
    }
}
