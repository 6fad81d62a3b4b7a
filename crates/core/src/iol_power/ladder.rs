//! The ladder: every available power around the target × every formula → predicted refraction.

use super::{Cautions, EyeModel, Formula, FormulaInputs, Refusal};
use crate::lens::Powers;
use crate::quantity::{Diopters, HundredthDiopters};

/// Which available power is proposed. A setting of the case, never a default.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
    /// The formula.
    pub formula: Formula,
    /// Its answer, or why it has none.
    pub answer: Result<Answer, Refusal>,
}

/// A formula's answer for one lens in one eye.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The eye it built.
    pub eye: EyeModel,
    /// What is dubious about it.
    pub cautions: Cautions,
    /// Power that would meet the target exactly.
    pub exact_power: Diopters,
    /// Power proposed by the convention, or nothing if no available power lies on that side.
    pub proposed: Option<HundredthDiopters>,
}

/// One available power.
#[derive(Clone, Debug, PartialEq)]
pub struct Rung {
    /// The power as labelled.
    pub power: HundredthDiopters,
    /// Predicted refraction per column; nothing where the formula has no answer.
    pub predicted: Vec<Option<Diopters>>,
}

/// Powers × formulas for one eye, one lens, one target.
#[derive(Clone, Debug, PartialEq)]
pub struct Ladder {
    /// Target refraction.
    pub target: HundredthDiopters,
    /// Formulas, in the order asked for.
    pub columns: Vec<Column>,
    /// Powers, rising.
    pub rungs: Vec<Rung>,
}

/// How far beyond the formulas' exact powers the ladder reaches on either side.
const REACH: Diopters = Diopters::new(1.0);

impl Ladder {
    /// Computes the ladder.
    #[must_use]
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

    /// The column of a formula.
    #[must_use]
    pub fn column(&self, formula: Formula) -> Option<&Column> {
        self.columns.iter().find(|column| column.formula == formula)
    }

    /// Refraction a formula predicts for any labelled power, on the ladder or off it.
    #[must_use]
    pub fn predicted(&self, formula: Formula, power: HundredthDiopters) -> Option<Diopters> {
        let eye = self.column(formula)?.answer.as_ref().ok()?.eye;
        eye.refraction_with(power.diopters()).ok()
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
    let proposed =
        convention.and_then(|convention| propose(&built.value, powers, target, convention));
    Ok(Answer {
        eye: built.value,
        cautions: built.cautions,
        exact_power,
        proposed,
    })
}

/// The available power that the convention picks.
fn propose(
    eye: &EyeModel,
    powers: &Powers,
    target: HundredthDiopters,
    convention: Convention,
) -> Option<HundredthDiopters> {
    let target_d = target.diopters().d();
    let predicted = powers.iter().filter_map(|power| {
        let refraction = eye.refraction_with(power.diopters()).ok()?;
        Some((power, refraction.d() - target_d))
    });
    // Refraction falls as power rises, so the powers come from the most hyperopic prediction on.
    match convention {
        Convention::FirstMyopic => predicted
            .filter(|(_, off_d)| *off_d <= 0.0)
            .map(|(power, _)| power)
            .next(),
        Convention::FirstHyperopic => predicted
            .filter(|(_, off_d)| 0.0 <= *off_d)
            .map(|(power, _)| power)
            .last(),
        Convention::Nearest => predicted
            .min_by(|(power, off_d), (other, other_off_d)| {
                off_d
                    .abs()
                    .total_cmp(&other_off_d.abs())
                    .then(other.cmp(power))
            })
            .map(|(power, _)| power),
    }
}

/// Available powers from 1 D below the lowest exact power to 1 D above the highest.
fn shown_powers(columns: &[Column], powers: &Powers) -> impl Iterator<Item = HundredthDiopters> {
    let exact = columns
        .iter()
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
