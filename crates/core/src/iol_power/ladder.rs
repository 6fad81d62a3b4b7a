//! The ladder: every available power around the target × every formula → predicted refraction.

use super::{Cautions, EyeModel, Formula, FormulaInputs, Refusal};
use crate::iol_power::Powers;
use crate::quantity::{Diopters, HundredthDiopters};

/// Which available power is proposed. A setting of the case, never a default.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Convention {
    /// The weakest power whose prediction is at or on the myopic side of the target.
    FirstMyopic,
    /// The strongest power whose prediction is at or on the hyperopic side of the target.
    FirstHyperopic,
    /// The power whose prediction lies nearest to the target; the more myopic of two equals.
    Nearest,
}

/// What one formula makes of the eye and the lens.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    pub formula: Formula,
    pub answer: Result<Answer, Refusal>,
}

/// A formula's answer for one lens in one eye.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    pub eye: EyeModel,
    pub cautions: Cautions,
    /// Power that would meet the target exactly.
    pub exact_power: Diopters,
    /// Power proposed by the convention, or nothing if no available power lies on that side and near.
    pub proposed: Option<HundredthDiopters>,
}

#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rung {
    #[serde(rename = "power_d", with = "crate::quantity::as_diopters")]
    pub power: HundredthDiopters,
    /// Predicted refraction per column; nothing where the formula has no answer.
    #[serde(rename = "predicted_d")]
    pub predicted: Vec<Option<Diopters>>,
}

/// Powers × formulas for one eye, one lens, one target.
#[derive(Clone, Debug, PartialEq)]
pub struct Ladder {
    pub target: HundredthDiopters,
    /// Formulas, in the order asked for.
    pub columns: Vec<Column>,
    /// Powers, rising.
    pub rungs: Vec<Rung>,
}

/// How far beyond the formulas' exact powers the ladder reaches on either side.
const REACH: Diopters = Diopters::new(1.0);

impl Ladder {
    pub fn compute(
        formulas: &[Formula],
        inputs: &FormulaInputs,
        powers: &Powers,
        target: HundredthDiopters,
        convention: Option<Convention>,
    ) -> Self {
        let columns: Vec<Column> = formulas
            .iter()
            .map(|&formula| {
                let answer = answer(formula, inputs, powers, target, convention);
                Column { formula, answer }
            })
            .collect();
        let rungs = shown_powers(&columns, powers)
            .map(|power| Rung {
                power,
                predicted: columns
                    .iter()
                    .map(|column| {
                        let eye = column.answer.as_ref().ok()?.eye;
                        eye.refraction_with(power.diopters()).ok()
                    })
                    .collect(),
            })
            .collect();
        Self {
            target,
            columns,
            rungs,
        }
    }

    pub fn column(&self, formula: Formula) -> Option<&Column> {
        self.columns.iter().find(|column| column.formula == formula)
    }

    /// Refraction a formula predicts for any labeled power, on the ladder or off it.
    pub fn predicted(&self, formula: Formula, power: HundredthDiopters) -> Option<Diopters> {
        let eye = self.column(formula)?.answer.as_ref().ok()?.eye;
        eye.refraction_with(power.diopters()).ok()
    }

    /// The power that the convention would propose by a formula if every prediction were off by
    /// `shift`; nothing for a formula that proposes nothing.
    pub fn proposed_with_shift(
        &self,
        formula: Formula,
        powers: &Powers,
        convention: Convention,
        shift: Diopters,
    ) -> Option<HundredthDiopters> {
        let eye = self.column(formula)?.answer.as_ref().ok()?.eye;
        if !formula.has_fitted_constant() {
            return None;
        }
        let exact_power = eye.power_for(self.target.diopters() - shift).ok()?;
        let shifted = |power: HundredthDiopters| {
            let refraction = eye.refraction_with(power.diopters()).ok()?;
            Some(refraction + shift)
        };
        propose_by(shifted, exact_power, powers, self.target, convention)
    }
}

fn answer(
    formula: Formula,
    inputs: &FormulaInputs,
    powers: &Powers,
    target: HundredthDiopters,
    convention: Option<Convention>,
) -> Result<Answer, Refusal> {
    let built = formula.eye(inputs)?;
    let exact_power = built.value.power_for(target.diopters())?;
    // A formula without a fitted constant is a check, not a way to choose a power.
    let convention = convention.filter(|_| formula.has_fitted_constant());
    let proposed = convention
        .and_then(|convention| propose(&built.value, exact_power, powers, target, convention));
    Ok(Answer {
        eye: built.value,
        cautions: built.cautions,
        exact_power,
        proposed,
    })
}

fn propose(
    eye: &EyeModel,
    exact_power: Diopters,
    powers: &Powers,
    target: HundredthDiopters,
    convention: Convention,
) -> Option<HundredthDiopters> {
    let predicted = |power: HundredthDiopters| eye.refraction_with(power.diopters()).ok();
    propose_by(predicted, exact_power, powers, target, convention)
}

/// The available power that the convention picks, if it lies within [`REACH`] of the exact power: a
/// lens that is made in no power near the eye's proposes none.
///
/// Predictions are compared with the target in whole hundredths, as they are shown.
fn propose_by(
    predict: impl Fn(HundredthDiopters) -> Option<Diopters>,
    exact_power: Diopters,
    powers: &Powers,
    target: HundredthDiopters,
    convention: Convention,
) -> Option<HundredthDiopters> {
    let predicted = powers.iter().filter_map(|power| {
        let refraction = predict(power)?.nearest_hundredth()?;
        Some((power, (refraction - target).hundredths()))
    });
    // Refraction falls as power rises, so the powers come from the most hyperopic prediction on.
    let picked = match convention {
        Convention::FirstMyopic => predicted
            .filter(|(_, off)| *off <= 0)
            .map(|(power, _)| power)
            .next(),
        Convention::FirstHyperopic => predicted
            .filter(|(_, off)| 0 <= *off)
            .map(|(power, _)| power)
            .last(),
        Convention::Nearest => predicted
            .min_by(|(power, off), (other, other_off)| {
                off.abs().cmp(&other_off.abs()).then(other.cmp(power))
            })
            .map(|(power, _)| power),
    };
    picked.filter(|power| (power.diopters() - exact_power).d().abs() <= REACH.d())
}

/// Available powers from 1 D below the lowest exact power to 1 D above the highest, of the formulas
/// with a fitted constant.
fn shown_powers(columns: &[Column], powers: &Powers) -> impl Iterator<Item = HundredthDiopters> {
    let exact = columns
        .iter()
        .filter(|column| column.formula.has_fitted_constant())
        .filter_map(|column| Some(column.answer.as_ref().ok()?.exact_power));
    let (mut lowest, mut highest) = (f64::INFINITY, f64::NEG_INFINITY);
    for power in exact {
        lowest = lowest.min((power - REACH).d());
        highest = highest.max((power + REACH).d());
    }
    powers.iter().filter(move |power| {
        let power_d = power.diopters().d();
        lowest <= power_d && power_d <= highest
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::iol_power::{
        AConstant, CornealHistory, CornealRadii, FormulaConstants, HaigisConstants, NeededConstant,
        PowerRange,
    };
    use crate::quantity::Millimeters;

    /// The hand-worked average eye: SRK/T needs +20.574 D for emmetropia, Haigis +20.684 D.
    fn average_eye() -> FormulaInputs {
        let radius = Millimeters::new(7.7);
        FormulaInputs {
            cornea: Some(CornealRadii(radius, radius)),
            acd: Some(Millimeters::new(3.1)),
            history: CornealHistory::Untouched,
            constants: FormulaConstants {
                a_constant: AConstant::new(118.7).ok(),
                haigis: HaigisConstants::new(1.3, 0.4, 0.1).ok(),
                ..FormulaConstants::default()
            },
            ..FormulaInputs::absent()
        }
        .with_length(Millimeters::new(23.5))
    }

    fn powers(from: i32, to: i32, step: i32) -> Powers {
        let [from, to, step] = [from, to, step].map(HundredthDiopters::new);
        Powers::new(vec![PowerRange::new(from, to, step).unwrap()]).unwrap()
    }

    fn proposed(powers: &Powers, convention: Convention) -> Option<i32> {
        let target = HundredthDiopters::new(0);
        let ladder = Ladder::compute(
            &[Formula::SrkT],
            &average_eye(),
            powers,
            target,
            Some(convention),
        );
        let answer = ladder.columns[0].answer.as_ref().unwrap();
        answer.proposed.map(HundredthDiopters::hundredths)
    }

    /// +20.574 D lies between +20.50 (hyperopic) and +21.00 (myopic), nearer to +20.50.
    #[test]
    fn each_convention_picks_its_side() {
        let half_steps = powers(1_000, 3_000, 50);
        assert_eq!(proposed(&half_steps, Convention::FirstMyopic), Some(2_100));
        assert_eq!(
            proposed(&half_steps, Convention::FirstHyperopic),
            Some(2_050)
        );
        assert_eq!(proposed(&half_steps, Convention::Nearest), Some(2_050));
        let whole_steps = powers(1_000, 3_000, 100);
        assert_eq!(proposed(&whole_steps, Convention::Nearest), Some(2_100));
    }

    #[test]
    fn a_side_without_a_power_proposes_none() {
        let weak = powers(1_000, 2_050, 50);
        assert_eq!(proposed(&weak, Convention::FirstMyopic), None);
        assert_eq!(proposed(&weak, Convention::FirstHyperopic), Some(2_050));
        let strong = powers(2_100, 3_000, 50);
        assert_eq!(proposed(&strong, Convention::FirstMyopic), Some(2_100));
        assert_eq!(proposed(&strong, Convention::FirstHyperopic), None);
        // Nor is a power proposed that is nowhere near what the eye needs.
        let far = powers(3_000, 3_400, 100);
        for convention in [Convention::FirstMyopic, Convention::Nearest] {
            assert_eq!(proposed(&far, convention), None);
        }
    }

    /// A power shown as meeting the target is on either side of it; one shown a hundredth off is not.
    #[test]
    fn sides_are_told_in_the_hundredths_that_are_shown() {
        let eye = EyeModel::Thin(crate::iol_power::ThinLensEye {
            optical_length: Millimeters::new(23.5),
            lens_position: Millimeters::new(5.0),
            corneal_power: Diopters::new(43.0),
        });
        let met = HundredthDiopters::new(2_000);
        let shown = eye
            .refraction_with(met.diopters())
            .unwrap()
            .nearest_hundredth()
            .unwrap();
        let all = powers(1_950, 2_050, 50);
        let pick = |off: i32, convention| {
            let target = HundredthDiopters::new(shown.hundredths() + off);
            propose(&eye, met.diopters(), &all, target, convention)
                .map(HundredthDiopters::hundredths)
        };
        for convention in [Convention::FirstMyopic, Convention::FirstHyperopic] {
            assert_eq!(pick(0, convention), Some(2_000));
        }
        assert_eq!(pick(1, Convention::FirstMyopic), Some(2_000));
        assert_eq!(pick(-1, Convention::FirstMyopic), Some(2_050));
        assert_eq!(pick(-1, Convention::FirstHyperopic), Some(2_000));
        assert_eq!(pick(1, Convention::FirstHyperopic), Some(1_950));
    }

    /// From 1 D below the lowest exact power (+20.574) to 1 D above the highest (+20.684).
    #[test]
    fn rungs_reach_a_diopter_beyond_the_exact_powers() {
        let formulas = [Formula::SrkT, Formula::Haigis, Formula::HofferQ];
        let target = HundredthDiopters::new(0);
        let all = powers(1_000, 3_000, 50);
        let ladder = Ladder::compute(&formulas, &average_eye(), &all, target, None);
        let shown: Vec<_> = ladder
            .rungs
            .iter()
            .map(|rung| rung.power.hundredths())
            .collect();
        assert_eq!(shown, [2_000, 2_050, 2_100, 2_150]);

        // Without its constant Hoffer Q has no number anywhere, and nothing is proposed without a
        // convention.
        let refused = ladder.column(Formula::HofferQ).unwrap();
        assert_eq!(
            refused.answer,
            Err(Refusal::NoConstant {
                what: NeededConstant::PersonalizedAcd
            })
        );
        assert!(ladder.rungs.iter().all(|rung| rung.predicted[2].is_none()));
        assert!(ladder.rungs.iter().all(|rung| rung.predicted[0].is_some()));
        assert_eq!(
            ladder.predicted(Formula::HofferQ, HundredthDiopters::new(2_050)),
            None
        );
        let answer = ladder.columns[0].answer.as_ref().unwrap();
        assert_eq!(answer.proposed, None);
    }

    #[test]
    fn without_an_answer_there_is_no_rung() {
        let inputs = FormulaInputs {
            cornea: average_eye().cornea,
            ..FormulaInputs::absent()
        };
        let all = powers(1_000, 3_000, 50);
        let target = HundredthDiopters::new(0);
        let ladder = Ladder::compute(&Formula::ALL, &inputs, &all, target, None);
        assert!(ladder.rungs.is_empty());
        assert!(ladder.columns.iter().all(|column| column.answer.is_err()));
    }
}
