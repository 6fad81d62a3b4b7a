//! The anterior chamber of this eye, to scale: cornea, aqueous, pupil, lens, nucleus, the limit of
//! the depth, and the longest piece as it turns.
//!
//! What nobody measured is not drawn, but for the outline of the lens beside its thickness and the
//! thickness of the iris, which only help the eye; no number is read off them.

mod geometry;

use core::fmt::Write as _;

use egui::accesskit::Role;
use egui::{Align2, FontId, Painter, Rect, Response, Sense, Shape, Stroke, Ui, WidgetInfo, vec2};
use millrace_core::biometry::DepthStart;
use millrace_core::chamber::{ChamberSection, LENS_DIAMETER, Nucleus, PieceRoom};
use millrace_core::quantity::{Micrometers, Millimeters};

use super::paint::{Scale, dashed, dimension, label};
use crate::theme::{Palette, measures};
use geometry::{AROUND_MM, IRIS_MM, ellipse, mm, sphere};

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct ChamberFigure<'a> {
    /// The section.
    pub section: &'a ChamberSection,
    /// The nucleus as stated.
    pub nucleus: Option<Nucleus>,
    /// The division whose longest piece is shown.
    pub room: Option<&'a PieceRoom>,
    /// The clinic's limit of the depth, and the surface it counts from.
    pub limit: (Micrometers, DepthStart),
}

/// Where a figure is drawn, and with what.
struct Canvas<'a> {
    painter: &'a Painter,
    scale: Scale,
    palette: &'static Palette,
    rect: Rect,
}

impl Canvas<'_> {
    fn filled(&self, places: &[[f32; 2]], fill: egui::Color32, stroke: Stroke) {
        let points = self.scale.line(places);
        self.painter
            .add(Shape::convex_polygon(points, fill, stroke));
    }

    fn write(&self, at: (egui::Pos2, Align2), text: String, ink: egui::Color32) {
        let font = FontId::proportional(measures::SMALL);
        label(self.painter, at, text, (font, ink), self.palette.field);
    }
}

impl ChamberFigure<'_> {
    /// The same in words.
    #[must_use]
    pub fn words(&self) -> String {
        let section = self.section;
        let (limit, start) = self.limit;
        let mut text = format!(
            "Section of the anterior chamber to scale. Cornea {} thick; chamber depth {} from the \
             epithelium, aqueous depth {}; limit {limit} {start}.",
            section.endothelium, section.pupil_plane, section.aqueous_depth
        );
        if let Some(pupil) = section.pupil_diameter {
            let _ = write!(text, " Dilated pupil {pupil}.");
        }
        if let Some(nucleus) = self.nucleus {
            let (across, along) = (nucleus.diameter(), nucleus.thickness());
            let _ = write!(text, " Nucleus {across} × {along}, as stated.");
        }
        if let Some(room) = self.room {
            let _ = write!(
                text,
                " In {} pieces the longest is {}; {}.",
                room.division.pieces(),
                room.largest_dimension,
                room_in_words(room.turning_on_axis)
            );
        }
        text
    }

    /// Draws it, `height` points high and as wide as there is room.
    pub fn show(&self, ui: &mut Ui, height: f32) -> Response {
        let size = vec2(ui.available_width(), height);
        let (rect, response) = ui.allocate_exact_size(size, Sense::HOVER);
        if ui.is_rect_visible(rect) {
            let canvas = Canvas {
                painter: &ui.painter_at(rect),
                scale: Scale::fit(rect, self.extent_mm(), AROUND_MM),
                palette: Palette::current(ui),
                rect,
            };
            canvas
                .painter
                .rect_filled(rect, measures::ROUNDING, canvas.palette.field);
            self.paint_lens(&canvas);
            self.paint_piece(&canvas);
            self.paint_cornea(&canvas);
            self.paint_iris(&canvas);
            self.paint_limit(&canvas);
            self.paint_numbers(&canvas);
        }
        let words = self.words();
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &words));
        response
    }

    fn paint_cornea(&self, canvas: &Canvas<'_>) {
        let section = self.section;
        let half = self.half_cornea_mm();
        let front = sphere(0.0, mm(section.front_radius), half);
        let inner = half.min(mm(section.back_radius) * 0.98);
        let back = sphere(mm(section.endothelium), mm(section.back_radius), inner);
        // A strip of quadrilaterals: the outline as a whole is not convex.
        for (upper, lower) in front.windows(2).zip(back.windows(2)) {
            if let ([a, b], [c, d]) = (upper, lower) {
                canvas.filled(&[*a, *b, *d, *c], canvas.palette.selected, Stroke::NONE);
            }
        }
        for surface in [front, back] {
            let stroke = Stroke::new(1.5, canvas.palette.ink);
            let points = canvas.scale.line(&surface);
            canvas.painter.add(Shape::line(points, stroke));
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
                [side * root, depth - IRIS_MM],
                [side * root, depth],
                [side * edge, depth],
            ];
            let stroke = Stroke::new(1.0, canvas.palette.ink);
            canvas.filled(&corners, canvas.palette.outline, stroke);
        }
    }

    fn paint_lens(&self, canvas: &Canvas<'_>) {
        let Some(back) = self.section.lens_back.map(mm) else {
            return;
        };
        let front = mm(self.section.pupil_plane);
        let palette = canvas.palette;
        let center = [0.0, f32::midpoint(front, back)];
        let outline = ellipse(center, [mm(LENS_DIAMETER) / 2.0, (back - front) / 2.0]);
        canvas.filled(&outline, palette.quiet, Stroke::new(1.0, palette.outline));
        if let Some(nucleus) = self.nucleus {
            let axes = [mm(nucleus.equatorial_radius()), mm(nucleus.axial_radius())];
            let stroke = Stroke::new(1.5, palette.review);
            canvas.filled(&ellipse(center, axes), palette.review_wash, stroke);
            let at = (canvas.scale.at(center), Align2::CENTER_CENTER);
            let font = FontId::proportional(measures::SMALL);
            let text = format!("nucleus {} × {}", nucleus.diameter(), nucleus.thickness());
            label(
                canvas.painter,
                at,
                text,
                (font, palette.ink),
                palette.review_wash,
            );
        }
    }

    /// The circle that the longest piece sweeps as it turns about its middle in the pupil plane, and
    /// the piece on end in it.
    fn paint_piece(&self, canvas: &Canvas<'_>) {
        let Some(room) = self.room else { return };
        let color = piece_color(canvas.palette, room);
        let center = canvas.scale.at([0.0, mm(self.section.pupil_plane)]);
        let half = canvas.scale.length(mm(room.largest_dimension) / 2.0);
        let painter = canvas.painter;
        painter.circle_stroke(center, half, Stroke::new(1.5, color));
        let up = vec2(0.0, half);
        painter.line_segment([center - up, center + up], Stroke::new(4.0, color));
    }

    fn paint_limit(&self, canvas: &Canvas<'_>) {
        let half = self.extent_mm()[0] / 2.0;
        let depth = self.limit_mm();
        let ends = [
            canvas.scale.at([-half, depth]),
            canvas.scale.at([half, depth]),
        ];
        let color = canvas.palette.accent;
        dashed(canvas.painter, ends, Stroke::new(1.5, color));
        let (limit, start) = self.limit;
        let at = (ends[0] + vec2(2.0, 3.0), Align2::LEFT_TOP);
        canvas.write(at, format!("limit {limit}"), color);
        let at = (ends[0] + vec2(2.0, 5.0 + measures::SMALL), Align2::LEFT_TOP);
        canvas.write(at, start.to_string(), color);
    }

    fn paint_numbers(&self, canvas: &Canvas<'_>) {
        let palette = canvas.palette;
        let section = self.section;
        let plain = Stroke::new(1.0, palette.ink);
        // The depth on the axis, set beside it so that the piece stays in sight.
        let x = self.half_cornea_mm() + AROUND_MM / 2.0;
        let at = |depth: Millimeters| canvas.scale.at([x, mm(depth)]);
        let ends = [at(section.endothelium), at(section.pupil_plane)];
        dimension(canvas.painter, ends, plain);
        let beside = (
            ends[0].lerp(ends[1], 0.5) + vec2(7.0, 0.0),
            Align2::LEFT_CENTER,
        );
        let text = format!("aqueous {}", section.aqueous_depth);
        canvas.write(beside, text, palette.ink);

        let corner = canvas.rect.left_bottom() + vec2(10.0, -12.0);
        let bar = [corner, corner + vec2(canvas.scale.length(1.0), 0.0)];
        dimension(canvas.painter, bar, plain);
        let beside = (bar[1] + vec2(8.0, 0.0), Align2::LEFT_CENTER);
        canvas.write(beside, "1 mm".to_owned(), palette.ink);

        if let Some(room) = self.room {
            let corner = canvas.rect.right_bottom() + vec2(-8.0, -6.0);
            let text = room_in_words(room.turning_on_axis);
            let color = piece_color(palette, room);
            canvas.write((corner, Align2::RIGHT_BOTTOM), text, color);
        }
    }
}

const fn piece_color(palette: &Palette, room: &PieceRoom) -> egui::Color32 {
    if room.turning_on_axis.mm() < 0.0 {
        palette.stop
    } else {
        palette.note
    }
}

/// "0.25 mm left over the turning piece", or that it touches.
fn room_in_words(room: Millimeters) -> String {
    if room.mm() < 0.0 {
        format!(
            "turning piece touches the endothelium, {:.2} mm too long",
            -room.mm()
        )
    } else {
        format!("{:.2} mm left over the turning piece", room.mm())
    }
}
