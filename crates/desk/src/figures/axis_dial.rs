//! Where the marks of a toric lens and the incision stand, facing the patient (ISO 8429): 0° on the
//! observer's right, counted counter-clockwise, for both eyes alike.

use egui::accesskit::Role;
use egui::{Align2, FontId, Painter, Pos2, Response, Sense, Stroke, Ui, Vec2, WidgetInfo, vec2};
use millrace_core::biometry::Side;
use millrace_core::quantity::{Direction, Meridian};
use millrace_wording::desk::figures as say;
use millrace_wording::{Show as _, Words, terms};

use super::paint::dashed;
use crate::theme::{Palette, bold, measures};
use crate::widgets::{low_row, small};
use crate::words::in_use;

#[derive(Clone, Copy, Debug)]
pub struct AxisDial {
    pub side: Side,
    /// Steep meridian of the cornea after the operation.
    pub steep: Option<Meridian>,
    /// Where the marks are suggested.
    pub suggested: Option<Meridian>,
    /// Where the marks were chosen.
    pub chosen: Option<Meridian>,
    pub incision: Option<Direction>,
}

/// How a line of the legend is drawn.
#[derive(Clone, Copy)]
enum Key {
    Marks,
    Dashed,
    Bar,
}

/// Room around the circle for its words; how much less of it is wanted above and below.
const MARGIN: f32 = 62.0;
const LOWER: f32 = 22.0;

fn steep_stroke(palette: &Palette) -> Stroke {
    Stroke::new(1.5, palette.note)
}

fn suggested_stroke(palette: &Palette) -> Stroke {
    Stroke::new(1.5, palette.accent)
}

fn chosen_stroke(palette: &Palette) -> Stroke {
    Stroke::new(3.0, palette.ink)
}

fn incision_stroke(palette: &Palette) -> Stroke {
    Stroke::new(5.0, palette.review)
}

/// Where the dial stands.
#[derive(Clone, Copy)]
struct Circle {
    center: Pos2,
    radius: f32,
}

/// The way from the center, one long.
fn toward(degrees: f32) -> Vec2 {
    let angle = degrees.to_radians();
    // The screen counts down.
    vec2(angle.cos(), -angle.sin())
}

impl AxisDial {
    /// The same in words.
    pub fn words(&self, words: Words) -> String {
        let none = || say::none(words).to_owned();
        let angle =
            |axis: Option<Meridian>| axis.map_or_else(none, |axis| axis.show(words).into_owned());
        let incision = self.incision.map_or_else(none, |direction| {
            say::place_at(words, self.side.sector(direction), direction)
        });
        say::dial(
            words,
            terms::eye_head(words, self.side),
            angle(self.steep),
            angle(self.suggested),
            angle(self.chosen),
            incision,
        )
    }

    /// Draws it, as wide as `side`.
    pub fn show(&self, ui: &mut Ui, side: f32) -> Response {
        let (rect, response) = ui.allocate_exact_size(vec2(side, side - 2.0 * LOWER), Sense::HOVER);
        if ui.is_rect_visible(rect) {
            let radius = side / 2.0 - MARGIN;
            let painter = ui.painter_at(rect);
            let circle = Circle {
                center: rect.center(),
                radius,
            };
            self.paint(&painter, Palette::current(ui), circle);
        }
        let words = self.words(in_use(ui));
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &words));
        response
    }

    /// What each line is, with its angle; only of those that are drawn.
    pub fn legend(&self, ui: &mut Ui) {
        let palette = Palette::current(ui);
        let words = in_use(ui);
        let angle = |axis: Option<Meridian>| axis.map(|axis| axis.show(words).into_owned());
        let incision = self.incision.map(|it| it.show(words).into_owned());
        for (text, angle, stroke, style) in [
            (
                say::marks_chosen(words),
                angle(self.chosen),
                chosen_stroke(palette),
                Key::Marks,
            ),
            (
                say::marks_suggested(words),
                angle(self.suggested),
                suggested_stroke(palette),
                Key::Marks,
            ),
            (
                say::steep_meridian(words),
                angle(self.steep),
                steep_stroke(palette),
                Key::Dashed,
            ),
            (
                say::incision(words),
                incision,
                incision_stroke(palette),
                Key::Bar,
            ),
        ] {
            let Some(angle) = angle else { continue };
            low_row(ui, |ui| {
                let (rect, _) = ui.allocate_exact_size(vec2(30.0, 14.0), Sense::HOVER);
                let [left, right] = [
                    rect.left_center() + vec2(3.0, 0.0),
                    rect.right_center() - vec2(3.0, 0.0),
                ];
                match style {
                    Key::Dashed => dashed(ui.painter(), [left, right], stroke),
                    Key::Bar => {
                        ui.painter()
                            .line_segment([left + vec2(5.0, 0.0), right - vec2(5.0, 0.0)], stroke);
                    }
                    Key::Marks => {
                        ui.painter().line_segment([left, right], stroke);
                        for end in [left, right] {
                            ui.painter()
                                .circle_filled(end, stroke.width + 1.5, stroke.color);
                        }
                    }
                }
                small(ui, say::with_angle(words, text, angle));
            });
        }
    }

    fn paint(&self, painter: &Painter, palette: &Palette, circle: Circle) {
        let Circle { center, radius } = circle;
        painter.circle(
            center,
            radius,
            palette.field,
            Stroke::new(1.5, palette.outline),
        );
        paint_scale(painter, palette, circle);
        self.paint_sides(painter, palette, circle);
        if let Some(steep) = self.steep {
            let reach = toward(f32::from(steep.degrees())) * radius;
            dashed(
                painter,
                [center - reach, center + reach],
                steep_stroke(palette),
            );
        }
        if let Some(suggested) = self.suggested {
            paint_marks(painter, circle, suggested, suggested_stroke(palette));
        }
        // The chosen number stands at one end and the suggested one at the other, however close they
        // are; the same angle is written once.
        if let Some(suggested) = self.suggested
            && self.chosen != Some(suggested)
        {
            let stroke = suggested_stroke(palette);
            let other_end = Circle {
                radius: -radius,
                ..circle
            };
            write_angle(painter, other_end, suggested, stroke.color);
        }
        if let Some(chosen) = self.chosen {
            let stroke = chosen_stroke(palette);
            paint_marks(painter, circle, chosen, stroke);
            write_angle(painter, circle, chosen, stroke.color);
        }
        if let Some(direction) = self.incision {
            let out = toward(f32::from(direction.degrees()));
            let across = out.rot90() * (radius * 0.16);
            let at = center + out * (radius * 0.94);
            painter.line_segment([at - across, at + across], incision_stroke(palette));
        }
    }

    /// Nasal and temporal by the eye, superior and inferior for both.
    fn paint_sides(&self, painter: &Painter, palette: &Palette, circle: Circle) {
        let Circle { center, radius } = circle;
        let words = in_use(painter.ctx());
        let (right, left) = match self.side {
            Side::Right => (say::nasal(words), say::temporal(words)),
            Side::Left => (say::temporal(words), say::nasal(words)),
        };
        let font = || FontId::proportional(measures::SMALL);
        let out = radius + 18.0;
        for (text, place, anchor) in [
            (
                say::superior(words),
                vec2(0.0, -out - 4.0),
                Align2::CENTER_BOTTOM,
            ),
            (
                say::inferior(words),
                vec2(0.0, out - 8.0),
                Align2::CENTER_TOP,
            ),
            (right, vec2(radius + 4.0, 14.0), Align2::LEFT_TOP),
            (left, vec2(-radius - 4.0, 14.0), Align2::RIGHT_TOP),
        ] {
            painter.text(center + place, anchor, text, font(), palette.muted);
        }
    }
}

/// Ticks every ten degrees, numbers every thirty: the upper half names the meridians.
fn paint_scale(painter: &Painter, palette: &Palette, circle: Circle) {
    let Circle { center, radius } = circle;
    for tens in 0_u8..36 {
        let out = toward(f32::from(tens) * 10.0);
        let inner = if tens % 3 == 0 { 0.88 } else { 0.93 };
        let ends = [center + out * (radius * inner), center + out * radius];
        painter.line_segment(ends, Stroke::new(1.0, palette.outline));
        if tens % 3 == 0 && tens <= 18 {
            let text = format!("{}°", u16::from(tens) * 10);
            let at = center + out * (radius + 13.0);
            let font = FontId::proportional(measures::SMALL);
            painter.text(at, Align2::CENTER_CENTER, text, font, palette.ink);
        }
    }
}

/// The meridian of the marks: a line with a dot at each end, as on the lens.
fn paint_marks(painter: &Painter, circle: Circle, axis: Meridian, stroke: Stroke) {
    let Circle { center, radius } = circle;
    let reach = toward(f32::from(axis.degrees())) * (radius * 0.78);
    painter.line_segment([center - reach, center + reach], stroke);
    for end in [center - reach, center + reach] {
        painter.circle_filled(end, stroke.width + 2.0, stroke.color);
    }
}

/// The angle beside its line; at the other end of it for a radius below zero.
fn write_angle(painter: &Painter, circle: Circle, axis: Meridian, ink: egui::Color32) {
    let Circle { center, radius } = circle;
    let font = FontId::new(measures::BODY, bold());
    let reach = toward(f32::from(axis.degrees())) * (radius * 0.78);
    let at = center + reach * 0.45 + reach.normalized().rot90() * 17.0;
    painter.text(at, Align2::CENTER_CENTER, axis.to_string(), font, ink);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 8429: 0 on the observer's right, 90 up, counter-clockwise.
    #[test]
    fn angles_run_counter_clockwise_from_the_observers_right() {
        for (degrees, expected) in [
            (0.0, vec2(1.0, 0.0)),
            (90.0, vec2(0.0, -1.0)),
            (180.0, vec2(-1.0, 0.0)),
            (270.0, vec2(0.0, 1.0)),
        ] {
            assert!((toward(degrees) - expected).length() < 1e-6, "{degrees}");
        }
    }

    #[test]
    fn words_name_every_angle() {
        let dial = AxisDial {
            side: Side::Right,
            steep: Meridian::new(82).ok(),
            suggested: Meridian::new(82).ok(),
            chosen: Meridian::new(85).ok(),
            incision: Direction::new(180).ok(),
        };
        let words = dial.words(Words::ENGLISH);
        for part in ["Right eye", "82°", "Chosen axis: 85°", "temporal at 180°"] {
            assert!(words.contains(part), "{part}: {words}");
        }
    }
}
