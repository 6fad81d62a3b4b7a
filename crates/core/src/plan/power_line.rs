//! One power of the planned lens: what every formula predicts of it, and how sure all together are.
//!
//! The ladder holds the powers near the one the eye needs; a lens is made in many more, and each is
//! looked at in the same way.

use super::{HYPEROPIC, Plan, SHOWN_BANDS};
use crate::certainty::Distribution;
use crate::quantity::{Diopters, HundredthDiopters};

/// What is said of one power.
#[derive(Clone, Debug, PartialEq)]
pub struct PowerLine {
    pub power: HundredthDiopters,
    /// Predicted refraction per column of the ladder, in its order; nothing where the formula has no
    /// result.
    pub predicted: Vec<Option<Diopters>>,
    /// All formulas together; nothing where no range is stated.
    pub together: Option<Distribution>,
    /// Chance to end within ±0.50 D of the target, and over +0.50 D whatever the target.
    pub chances: Option<[f64; 2]>,
}

impl Plan {
    /// Every power the planned lens is made in, rising; none without a lens.
    pub fn powers_made(&self) -> Vec<HundredthDiopters> {
        let record = self.draft.lens.record();
        record.map_or_else(Vec::new, |record| record.powers.iter().collect())
    }

    /// What is said of a power, on the ladder or off it; nothing without a ladder.
    pub fn power_line(&self, power: HundredthDiopters) -> Option<PowerLine> {
        let ladder = self.ladder.as_ref().ok()?;
        let certainty = self.certainty.as_ref();
        let together = certainty.and_then(|it| it.ladder.pooled_at(power, &self.limits));
        let [_, band, _] = SHOWN_BANDS;
        let chances = together.as_ref().map(|it| {
            [
                it.chance_within(ladder.target.diopters(), band.diopters()),
                it.chance_over(HYPEROPIC.diopters()),
            ]
        });
        let columns = ladder.columns.iter();
        Some(PowerLine {
            power,
            predicted: columns
                .map(|column| {
                    let eye = column.answer.as_ref().ok()?.eye;
                    eye.refraction_with(power.diopters()).ok()
                })
                .collect(),
            together,
            chances,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limits::Limits;

    const HARD: &str = include_str!("../../../../demo-data/cases/hard-and-shallow.ron");
    const ULTRASOUND: &str =
        include_str!("../../../../demo-data/cases/contact-ultrasound-only.ron");

    fn plan(text: &str) -> Plan {
        Plan::of(&crate::case_file::read(text).unwrap(), Limits::shipped()).unwrap()
    }

    /// Where the ladder speaks too, both say the same to the last bit.
    #[test]
    fn a_line_says_what_the_ladder_says() {
        let plan = plan(HARD);
        let ladder = plan.ladder.as_ref().unwrap();
        let pooled = &plan.certainty.as_ref().unwrap().ladder.pooled;
        assert!(!ladder.rungs.is_empty());
        for (rung, pooled) in ladder.rungs.iter().zip(pooled) {
            let line = plan.power_line(rung.power).unwrap();
            assert_eq!(line.predicted, rung.predicted);
            assert_eq!(&line.together, pooled);
            assert!(line.together.is_some());
        }
    }

    /// The demo's lens is made from +4.50 D by 0.50 D to +28.50 D and by 1.00 D to +35.50 D: 49 and 7.
    /// More power makes an eye more myopic, all the way.
    #[test]
    fn every_power_that_is_made_has_its_line() {
        let plan = plan(HARD);
        let powers = plan.powers_made();
        assert_eq!(powers.len(), 56);
        let lines = powers.into_iter().map(|it| plan.power_line(it).unwrap());
        let lines: Vec<_> = lines.collect();
        for pair in lines.windows(2) {
            let [weaker, stronger] = pair else { continue };
            let means = [weaker, stronger].map(|it| it.together.as_ref().unwrap().mean().d());
            assert!(means[1] < means[0], "{pair:?}");
        }
        let [first, last] = [lines.first(), lines.last()].map(|it| it.unwrap().chances.unwrap());
        // The weakest leaves the eye far hyperopic, the strongest far myopic.
        assert!(0.999 < first[1] && last[1] < 1e-9, "{first:?} {last:?}");
    }

    /// Nobody has said yet what an ultrasound length is to be used as: every formula refuses, and no
    /// chance is made up.
    #[test]
    fn what_is_refused_has_neither_prediction_nor_chance() {
        let mut draft = crate::case_file::read(ULTRASOUND).unwrap();
        draft.lens.ultrasound = None;
        let plan = Plan::of(&draft, Limits::shipped()).unwrap();
        let ladder = plan.ladder.as_ref().unwrap();
        let power = plan.powers_made()[0];
        let line = plan.power_line(power).unwrap();
        assert_eq!(line.predicted.len(), ladder.columns.len());
        for (column, predicted) in ladder.columns.iter().zip(&line.predicted) {
            assert_eq!(column.answer.is_ok(), predicted.is_some());
        }
        assert!(line.predicted.contains(&None), "{line:?}");
        assert_eq!(line.together.is_some(), line.chances.is_some());
    }
}
