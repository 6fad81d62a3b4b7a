//! The refraction axis that all lanes of a chart share: around the target, and what lies beyond it.

use egui::Rangef;
use egui_plot::GridMark;
use millrace_core::quantity::{Diopters, HundredthDiopters};
use millrace_wording::{Words, quantity};

/// Room at both ends, so that marks there stay whole.
pub(super) const ENDS: f32 = 6.0;

/// "+0.5 D" with a real minus; zero has no sign, and whole numbers among whole ones no decimals.
///
/// Where a number with its unit has no room it stands without: the target over the axis has the unit.
pub(super) fn number(words: Words, mark: GridMark, d_per_point: f64) -> String {
    let digits = usize::from(mark.step_size < 1.0);
    let sign = match mark.value {
        it if it < 0.0 => "\u{2212}",
        it if it > 0.0 => "+",
        _ => "",
    };
    let number = words.fixed(mark.value.abs(), digits);
    let number = format!("{sign}{number}");
    if mark.step_size < NUMBER * d_per_point {
        return number;
    }
    quantity::diopters(words, number)
}

/// Width of a number, points: "−10.0 D"; without its unit, "−10".
const NUMBER: f64 = 44.0;
const BARE: f64 = 24.0;

/// How far the axis reaches on either side of the target at least, D: twelve lines in steps of half a
/// diopter of power have room on it.
const REACH_D: f64 = 2.0;

/// The refraction axis that all lanes share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RefractionAxis {
    pub(super) from_d: f64,
    pub(super) to_d: f64,
}

/// An end of the axis, and what lies beyond it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beyond {
    Myopic,
    Hyperopic,
}

impl RefractionAxis {
    /// Around a target, in whole half diopters.
    pub fn around(target: HundredthDiopters) -> Self {
        let target_d = target.diopters().d();
        Self {
            from_d: ((target_d - REACH_D) * 2.0).floor() / 2.0,
            to_d: ((target_d + REACH_D) * 2.0).ceil() / 2.0,
        }
    }

    /// The end that a refraction lies beyond; nothing for one on the axis.
    pub fn beyond(self, refraction: Diopters) -> Option<Beyond> {
        let refraction_d = refraction.d();
        if refraction_d < self.from_d {
            Some(Beyond::Myopic)
        } else if self.to_d < refraction_d {
            Some(Beyond::Hyperopic)
        } else {
            None
        }
    }

    pub(super) const fn end_d(self, end: Beyond) -> f64 {
        match end {
            Beyond::Myopic => self.from_d,
            Beyond::Hyperopic => self.to_d,
        }
    }

    /// What of a range lies on the axis; nothing of one that lies beyond it.
    pub(super) fn on_axis(self, [low, high]: [Diopters; 2]) -> Option<[f64; 2]> {
        let [low_d, high_d] = [low.d().max(self.from_d), high.d().min(self.to_d)];
        (low_d < high_d).then_some([low_d, high_d])
    }

    /// Where a refraction stands on the screen, across `range`.
    pub fn place(self, range: Rangef, refraction: Diopters) -> f32 {
        let points = (refraction.d() - self.from_d) / self.d_per_point(range.span());
        #[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
        let points = points as f32;
        range.min + ENDS + points
    }

    /// Diopters that a point of the screen takes, across so many points.
    pub(super) fn d_per_point(&self, across: f32) -> f64 {
        let points = f64::from((across - 2.0 * ENDS).max(1.0));
        (self.to_d - self.from_d) / points
    }

    /// Where numbers stand: as close as they can be read, zero among them.
    pub(super) fn numbers(&self, d_per_point: f64) -> Vec<GridMark> {
        let step_size = if NUMBER * d_per_point <= 0.5 {
            0.5
        } else {
            let mut steps = [1.0, 2.0, 5.0].into_iter();
            let step = steps.find(|step_d| BARE * d_per_point <= *step_d);
            step.unwrap_or(10.0)
        };
        self.halves()
            .filter(|value| (value / step_size).fract() == 0.0)
            .map(|value| GridMark { value, step_size })
            .collect()
    }

    /// Those of the numbers that have room across so many points: one at an end would stand under the
    /// head beside.
    pub(super) fn labels(&self, across: f32) -> Vec<GridMark> {
        let d_per_point = self.d_per_point(across);
        let mut marks = self.numbers(d_per_point);
        let is_bare = marks
            .iter()
            .all(|mark| mark.step_size < NUMBER * d_per_point);
        let width = if is_bare { BARE } else { NUMBER };
        let margin_d = (width / 2.0 - f64::from(ENDS)) * d_per_point;
        marks.retain(|mark| {
            self.from_d + margin_d <= mark.value && mark.value <= self.to_d - margin_d
        });
        marks
    }

    /// Every half diopter from one end to the other.
    fn halves(&self) -> impl Iterator<Item = f64> {
        let from_d = self.from_d;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a few half diopters"
        )]
        let count = ((self.to_d - from_d) * 2.0).round() as u16;
        (0..=count).map(move |step| from_d + f64::from(step) / 2.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn axis(target: i32) -> RefractionAxis {
        RefractionAxis::around(HundredthDiopters::new(target))
    }

    /// By hand: −0.30 − 2 = −2.30 and −0.30 + 2 = +1.70, out to the next halves.
    #[test]
    fn the_axis_ends_at_whole_half_diopters() {
        let axis = axis(-30);
        assert_eq!((axis.from_d, axis.to_d), (-2.5, 2.0));
        let halves: Vec<f64> = axis.halves().collect();
        assert_eq!(halves.len(), 10);
        assert_eq!((halves[0], halves[9]), (-2.5, 2.0));
        let plano = RefractionAxis::around(HundredthDiopters::new(0));
        assert_eq!((plano.from_d, plano.to_d), (-2.0, 2.0));
    }

    /// By hand: four diopters on 400 points, and 12 at the ends.
    #[test]
    fn a_point_takes_its_share_of_the_axis() {
        let axis = axis(0);
        assert!((axis.d_per_point(412.0) - 0.01).abs() < 1e-9);
        let place = axis.place(Rangef::new(100.0, 512.0), Diopters::new(-1.0));
        assert!((place - 206.0).abs() < 1e-3, "{place}");
    }

    /// By hand: where a diopter takes 100 points, whole and half ones have room; where it takes 50,
    /// whole ones only; where it takes 29, whole ones without their unit.
    #[test]
    fn numbers_stand_as_close_as_they_can_be_read() {
        let numbers = |d_per_point| -> Vec<String> {
            let marks = axis(0).numbers(d_per_point).into_iter();
            marks
                .map(|mark| number(Words::ENGLISH, mark, d_per_point))
                .collect()
        };
        let halves = numbers(0.01);
        assert_eq!(halves.len(), 9);
        assert_eq!(halves[3..6], ["\u{2212}0.5 D", "0.0 D", "+0.5 D"]);
        let whole = ["\u{2212}2 D", "\u{2212}1 D", "0 D", "+1 D", "+2 D"];
        assert_eq!(numbers(0.02), whole);
        assert_eq!(
            numbers(1.0 / 29.0),
            ["\u{2212}2", "\u{2212}1", "0", "+1", "+2"]
        );
    }

    /// By hand: −2 D stands 6 points from the edge of 212 and its number reaches 22 to either side; −1 D
    /// stands 56 from it.
    #[test]
    fn a_number_stands_within_the_chart_as_a_whole() {
        let marks = axis(0).labels(212.0);
        let labels: Vec<_> = marks.iter().map(|mark| mark.value).collect();
        assert_eq!(labels, [-1.0, 0.0, 1.0]);
    }
}
