//! One power on one refraction axis: what every formula predicts, how far all together may be off,
//! and the target.

use egui::{Rangef, Rect, Shape, Stroke, Ui, pos2, vec2};
use millrace_core::certainty::{Distribution, Level};
use millrace_core::quantity::{Diopters, HundredthDiopters};

use super::paint::dashed;
use crate::theme::Palette;

/// Height of a strip, points.
pub const HEIGHT: f32 = 26.0;

/// Room at both ends, so that marks there stay whole.
const ENDS: f32 = 6.0;

/// "+0.5 D" with a real minus; zero has no sign.
fn signed(refraction_d: f64, digits: usize) -> String {
    let sign = match refraction_d {
        it if it < 0.0 => "\u{2212}",
        it if it > 0.0 => "+",
        _ => "",
    };
    let size_d = refraction_d.abs();
    format!("{sign}{size_d:.digits$} D")
}

/// The refraction axis that all strips of a ladder share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RefractionAxis {
    from_d: f64,
    to_d: f64,
}

impl RefractionAxis {
    /// Wide enough for the target, every prediction and every 80 % range, in whole half diopters;
    /// nothing if there is nothing to place.
    #[must_use]
    pub fn over(refractions: impl IntoIterator<Item = Diopters>) -> Option<Self> {
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        for refraction in refractions {
            least = least.min(refraction.d());
            most = most.max(refraction.d());
        }
        let (from_d, to_d) = ((least * 2.0).floor() / 2.0, (most * 2.0).ceil() / 2.0);
        (from_d < to_d && (to_d - from_d).is_finite()).then_some(Self { from_d, to_d })
    }

    /// Where a refraction lies, points from the left edge of the screen.
    fn x(&self, refraction: Diopters, across: Rangef) -> f32 {
        let share = (refraction.d() - self.from_d) / (self.to_d - self.from_d);
        #[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
        let share = share as f32;
        across.min + share * across.span()
    }

    /// The numbers over the strips and where they stand: as close as they can be read, the target's
    /// whole diopters among them.
    pub fn numbers(&self, across: Rangef) -> impl Iterator<Item = (f32, String)> {
        let across = across.shrink(ENDS);
        let half = f64::from(across.span()) / ((self.to_d - self.from_d) * 2.0);
        // Wide enough for "−10.0 D".
        let step_d = [0.5, 1.0, 2.0, 5.0]
            .into_iter()
            .find(|step_d| 44.0 <= step_d * 2.0 * half)
            .unwrap_or(10.0);
        let places = self
            .halves()
            .filter(move |it| (it.d() / step_d).fract() == 0.0);
        places.map(move |it| {
            let digits = usize::from(step_d < 1.0);
            (self.x(it, across), signed(it.d(), digits))
        })
    }

    /// Every half diopter from one end to the other.
    fn halves(&self) -> impl Iterator<Item = Diopters> {
        let from_d = self.from_d;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a few half diopters"
        )]
        let count = ((self.to_d - from_d) * 2.0).round() as u16;
        (0..=count).map(move |step| Diopters::new(from_d + f64::from(step) / 2.0))
    }
}

/// What one strip shows.
#[derive(Clone, Debug)]
pub struct Strip<'a> {
    /// The axis.
    pub axis: RefractionAxis,
    /// The target.
    pub target: HundredthDiopters,
    /// All formulas together.
    pub together: Option<&'a Distribution>,
    /// What the formula planned by predicts.
    pub planned: Option<Diopters>,
    /// What the others predict.
    pub others: &'a [Diopters],
}

impl Strip<'_> {
    /// Draws it there. What it shows stands in words where it is part of.
    pub fn paint(&self, ui: &Ui, rect: Rect) {
        let palette = Palette::current(ui);
        let painter = ui.painter_at(rect);
        let across = rect.x_range().shrink(ENDS);
        let middle = rect.center().y;
        let x = |refraction| self.axis.x(refraction, across);
        painter.hline(across, middle, Stroke::new(1.0, palette.outline));
        for half in self.axis.halves() {
            let reach = if half.d().fract() == 0.0 { 5.0 } else { 3.0 };
            let span = Rangef::new(middle - reach, middle + reach);
            painter.vline(x(half), span, Stroke::new(1.0, palette.outline));
        }
        if let Some(together) = self.together {
            for (level, height) in [(Level::Eighty, 5.0), (Level::Half, 9.0)] {
                let [low, high] = together.interval(level).map(x);
                let y = Rangef::point(middle).expand(height / 2.0);
                let bar = Rect::from_x_y_ranges(Rangef::new(low, high), y);
                painter.rect_filled(bar, 2.0, palette.outline.gamma_multiply(0.55));
            }
        }
        let target = x(self.target.diopters());
        let ends = [pos2(target, rect.top()), pos2(target, rect.bottom())];
        dashed(&painter, ends, Stroke::new(1.5, palette.accent));
        for other in self.others {
            let span = Rangef::point(middle).expand(7.0);
            painter.vline(x(*other), span, Stroke::new(1.5, palette.ink));
        }
        if let Some(planned) = self.planned {
            let center = pos2(x(planned), middle);
            let reach = 6.0;
            let corners = [
                vec2(0.0, -reach),
                vec2(reach, 0.0),
                vec2(0.0, reach),
                vec2(-reach, 0.0),
            ];
            let points = corners.map(|corner| center + corner).to_vec();
            let edge = Stroke::new(1.5, palette.surface);
            painter.add(Shape::convex_polygon(points, palette.ink, edge));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn axis(refractions: &[f64]) -> Option<RefractionAxis> {
        RefractionAxis::over(refractions.iter().map(|d| Diopters::new(*d)))
    }

    #[test]
    fn the_axis_ends_at_whole_half_diopters() {
        let axis = axis(&[-1.14, 0.23, -0.30]).unwrap();
        assert_eq!((axis.from_d, axis.to_d), (-1.5, 0.5));
        let halves: Vec<f64> = axis.halves().map(Diopters::d).collect();
        assert_eq!(halves, [-1.5, -1.0, -0.5, 0.0, 0.5]);
    }

    /// By hand: −0.5 lies in the middle between −1.5 and 0.5.
    #[test]
    fn a_refraction_has_its_place() {
        let axis = axis(&[-1.14, 0.23]).unwrap();
        let x = axis.x(Diopters::new(-0.5), Rangef::new(100.0, 300.0));
        assert!((x - 200.0).abs() < 1e-3);
    }

    /// By hand: a diopter takes 100 points, so whole and half ones have room.
    #[test]
    fn numbers_stand_over_their_places() {
        let axis = axis(&[-1.14, 0.23]).unwrap();
        let numbers: Vec<_> = axis.numbers(Rangef::new(94.0, 306.0)).collect();
        let texts: Vec<_> = numbers.iter().map(|(_, text)| text.as_str()).collect();
        let expected = [
            "\u{2212}1.5 D",
            "\u{2212}1.0 D",
            "\u{2212}0.5 D",
            "0.0 D",
            "+0.5 D",
        ];
        assert_eq!(texts, expected);
        assert!((numbers[3].0 - 250.0).abs() < 1e-3);
        let whole: Vec<_> = axis.numbers(Rangef::new(94.0, 206.0)).collect();
        assert_eq!(whole.len(), 2);
        assert_eq!(whole[1].1, "0 D");
    }

    #[test]
    fn nothing_to_place_has_no_axis() {
        assert_eq!(axis(&[]), None);
        assert_eq!(axis(&[f64::NAN]), None);
        assert_eq!(axis(&[0.5]), None);
        assert_eq!(axis(&[f64::INFINITY, 0.0]), None);
    }
}
