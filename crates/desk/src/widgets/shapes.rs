//! Shapes that carry a meaning beside the word: the three strengths of a finding, and which eye.

use egui::accesskit::Role;
use egui::{Color32, Pos2, Response, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};
use millrace_core::biometry::Side;
use millrace_core::rules::Severity;
use millrace_wording::desk::widgets as say;

use crate::theme::{Palette, measures};
use crate::words::in_use;

/// Color of a strength: the third cue, after word and shape.
pub const fn severity_color(palette: &Palette, severity: Severity) -> Color32 {
    match severity {
        Severity::Stop => palette.stop,
        Severity::Review => palette.review,
        Severity::Note => palette.note,
    }
}

/// Draws a square (Stop), a triangle (Review) or a disc (Note), as high as a small letter.
pub fn severity_shape(ui: &mut Ui, severity: Severity) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(12.0, 16.0), Sense::HOVER);
    severity_mark(ui, rect.center(), severity);
    response
}

/// The same shape over what is there already.
pub(super) fn severity_mark(ui: &Ui, center: Pos2, severity: Severity) {
    let color = severity_color(Palette::current(ui), severity);
    ui.painter().add(match severity {
        Severity::Stop => {
            let square = egui::Rect::from_center_size(center, vec2(10.0, 10.0));
            Shape::rect_filled(square, 1.0, color)
        }
        Severity::Review => triangle(center, color),
        Severity::Note => Shape::circle_filled(center, 5.0, color),
    });
}

fn corners(center: Pos2) -> Vec<Pos2> {
    [vec2(0.0, -5.5), vec2(6.0, 5.0), vec2(-6.0, 5.0)]
        .map(|corner| center + corner)
        .to_vec()
}

fn triangle(center: Pos2, color: Color32) -> Shape {
    Shape::convex_polygon(corners(center), color, Stroke::NONE)
}

/// The outline of a strength, without its color: there is nothing of it.
pub fn severity_outline(ui: &mut Ui, severity: Severity) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(12.0, 16.0), Sense::HOVER);
    let stroke = Stroke::new(1.0, Palette::current(ui).muted);
    let center = rect.center();
    ui.painter().add(match severity {
        Severity::Stop => {
            let square = egui::Rect::from_center_size(center, vec2(10.0, 10.0));
            Shape::rect_stroke(square, 1.0, stroke, egui::StrokeKind::Inside)
        }
        Severity::Review => Shape::closed_line(corners(center), stroke),
        Severity::Note => Shape::circle_stroke(center, 4.5, stroke),
    });
    response
}

/// A lozenge: something of the clinic's own, other than what ships.
pub fn changed_shape(ui: &mut Ui) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(12.0, 16.0), Sense::HOVER);
    let center = rect.center();
    let corners = [
        vec2(0.0, -6.0),
        vec2(6.0, 0.0),
        vec2(0.0, 6.0),
        vec2(-6.0, 0.0),
    ];
    let points = corners.map(|corner| center + corner).to_vec();
    let color = Palette::current(ui).accent;
    ui.painter()
        .add(Shape::convex_polygon(points, color, Stroke::NONE));
    response
}

/// An open ring: something that could not be evaluated.
pub fn open_ring(ui: &mut Ui) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(12.0, 16.0), Sense::HOVER);
    let stroke = Stroke::new(1.5, Palette::current(ui).muted);
    ui.painter().circle_stroke(rect.center(), 4.5, stroke);
    response
}

/// Both eyes as seen facing the patient: the patient's right eye is on the viewer's left. The
/// operated one is filled.
pub fn facing_eyes(ui: &mut Ui, operated: Side) -> Response {
    let size = vec2(70.0, 28.0);
    let (rect, response) = ui.allocate_exact_size(size, Sense::HOVER);
    let palette = Palette::current(ui);
    let painter = ui.painter();
    let at = |side: Side| {
        let x = match side {
            Side::Right => rect.left() + 13.0,
            Side::Left => rect.right() - 13.0,
        };
        pos2(x, rect.center().y)
    };
    for side in [Side::Right, Side::Left] {
        let center = at(side);
        let is_operated = side == operated;
        let (color, width) = if is_operated {
            (palette.ink, measures::FOCUS)
        } else {
            (palette.outline, 1.5)
        };
        painter.circle_stroke(center, 10.0, Stroke::new(width, color));
        if is_operated {
            painter.circle_filled(center, 6.0, color);
        }
    }
    // The nose below and between them, so that it is seen to be a face.
    let nose = Stroke::new(1.5, palette.outline);
    let bridge = pos2(rect.center().x, rect.top() + 9.0);
    let (left, right) = (bridge + vec2(-4.5, 16.0), bridge + vec2(4.5, 16.0));
    painter.add(Shape::closed_line(vec![bridge, left, right], nose));
    let name = say::facing(in_use(ui), operated);
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &name));
    response
}
