//! The groups of the lens power table, from side to side: what belongs to one stands between its rules,
//! heads and lines alike.

use egui::Rangef;
use millrace_core::iol_power::ladder::Column;

use crate::theme::measures;

/// Width of the powers.
pub(super) const POWER: f32 = 80.0;
/// The same where there is room to say in words which is proposed.
const POWER_AND_WORDS: f32 = 180.0;
/// Width from which there is.
const WORDS: f32 = 900.0;
/// Width of the prediction of the formula planned by.
const PLANNED: f32 = 80.0;
/// Width of a chance: "under 1 %".
const CHANCE: f32 = 75.0;
/// Width of the prediction of another formula: "+0.00 D*" in small letters.
const OTHER: f32 = 54.0;
/// Narrowest chart beside the other formulas; without so much room they stand under the table.
const BESIDE: f32 = 140.0;

/// What stands where.
pub(super) struct Groups<'a> {
    pub(super) power: Rangef,
    pub(super) planned: Rangef,
    pub(super) chart: Rangef,
    pub(super) within: Rangef,
    pub(super) over: Rangef,
    /// The other formulas, each with its place in the ladder; none where they stand under the table.
    pub(super) others: Vec<(Rangef, usize, &'a Column)>,
    /// Whether there is room to say in words which power is proposed.
    pub(super) has_words: bool,
}

impl<'a> Groups<'a> {
    /// Lays them out from `left` on, `width` wide.
    pub(super) fn of(left: f32, width: f32, others: &[(usize, &'a Column)]) -> Self {
        let has_words = WORDS <= width;
        let power = if has_words { POWER_AND_WORDS } else { POWER };
        #[expect(clippy::cast_precision_loss, reason = "a handful of formulas")]
        let of_others = OTHER * others.len() as f32;
        let fixed = power + PLANNED + 2.0 * CHANCE;
        let has_room = BESIDE <= width - fixed - of_others;
        let others = if has_room { others } else { &[] };
        let of_others = if has_room { of_others } else { 0.0 };
        let mut at = left;
        let mut next = |width: f32| {
            let range = Rangef::new(at, at + width);
            at += width;
            range
        };
        Self {
            power: next(power),
            planned: next(PLANNED),
            chart: next((width - fixed - of_others).max(0.0)),
            within: next(CHANCE),
            over: next(CHANCE),
            others: others
                .iter()
                .map(|(place, column)| (next(OTHER), *place, *column))
                .collect(),
            has_words,
        }
    }

    /// Where a rule parts one group from the next.
    pub(super) fn rules(&self) -> Vec<f32> {
        let mut rules = vec![
            self.planned.min,
            self.chart.min,
            self.within.min,
            self.over.min,
        ];
        rules.extend(self.others.first().map(|(range, ..)| range.min));
        rules
    }

    /// Where the chart is drawn: clear of the rules.
    pub(super) fn plot(&self) -> Rangef {
        self.chart.shrink(measures::TIGHT)
    }
}
