//! Ladders of the planned lens and of the backup lenses.

use serde::{Deserialize, Serialize};

use super::Outcome;
use crate::iol_power::ladder::{Answer, Column, Ladder, Rung};
use crate::iol_power::sulcus::StepwisePower;
use crate::iol_power::{Caution, Formula, Refusal};
use crate::plan::{SparePlan, SulcusPower};
use crate::quantity::{Diopters, HundredthDiopters, Millimeters};

/// Powers × formulas for one lens.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LadderResult {
    /// Target refraction.
    #[serde(with = "crate::quantity::as_diopters")]
    pub target_d: HundredthDiopters,
    /// Every formula shown.
    pub formulas: Vec<FormulaResult>,
    /// Powers, rising, with predictions in the order of the formulas.
    pub rungs: Vec<Rung>,
}

/// One formula.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FormulaResult {
    /// The formula.
    pub formula: Formula,
    /// What it says.
    pub outcome: Outcome<FormulaAnswer, Refusal>,
}

/// A formula's answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FormulaAnswer {
    /// What is dubious about it.
    pub cautions: Vec<Caution>,
    /// Lens position.
    pub lens_position_mm: Millimeters,
    /// Power that would meet the target exactly.
    pub exact_power_d: Diopters,
    /// Power the convention proposes.
    #[serde(with = "crate::quantity::as_diopters::option")]
    pub proposed_power_d: Option<HundredthDiopters>,
    /// Predicted for the chosen power, at the spectacle plane.
    pub predicted_d: Option<Diopters>,
}

/// The backup lens for bag and sulcus.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpareResult {
    /// Its ladder in the bag.
    pub bag: LadderResult,
    /// How far forward of the bag a lens in the sulcus is taken to sit.
    pub sulcus_shift_mm: Millimeters,
    /// Its power in the sulcus, per formula; empty if the maker does not allow it there.
    pub sulcus: Vec<SulcusResult>,
}

/// One formula's power for the sulcus.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SulcusResult {
    /// The formula.
    pub formula: Formula,
    /// Exact power in the bag.
    pub bag_power_d: Diopters,
    /// By the stepwise rule.
    pub stepwise: Option<StepwisePower>,
    /// By the rule of five percent.
    pub five_percent_d: Option<Diopters>,
    /// By vergence, in diopters.
    pub vergence: Outcome<Diopters, Refusal>,
}

impl LadderResult {
    pub(super) fn of(ladder: &Ladder, power: Option<HundredthDiopters>) -> Self {
        let columns = ladder.columns.iter();
        Self {
            target_d: ladder.target,
            formulas: columns
                .map(|column| FormulaResult::of(column, ladder, power))
                .collect(),
            rungs: ladder.rungs.clone(),
        }
    }

    /// What one formula says.
    pub fn formula(&self, formula: Formula) -> Option<&Outcome<FormulaAnswer, Refusal>> {
        let found = self.formulas.iter().find(|one| one.formula == formula);
        found.map(|found| &found.outcome)
    }
}

impl FormulaResult {
    fn of(column: &Column, ladder: &Ladder, power: Option<HundredthDiopters>) -> Self {
        let answer = |answer: &Answer| FormulaAnswer {
            cautions: answer.cautions.iter().collect(),
            lens_position_mm: answer.eye.lens_position(),
            exact_power_d: answer.exact_power,
            proposed_power_d: answer.proposed,
            predicted_d: power.and_then(|power| ladder.predicted(column.formula, power)),
        };
        Self {
            formula: column.formula,
            outcome: Outcome::of(&column.answer, answer),
        }
    }
}

impl SpareResult {
    pub(super) fn of(spare: &SparePlan, power: Option<HundredthDiopters>) -> Self {
        Self {
            bag: LadderResult::of(&spare.bag, power),
            sulcus_shift_mm: spare.sulcus_shift.millimeters(),
            sulcus: spare.sulcus.iter().map(SulcusResult::of).collect(),
        }
    }
}

impl SulcusResult {
    fn of(power: &SulcusPower) -> Self {
        Self {
            formula: power.formula,
            bag_power_d: power.bag,
            stepwise: power.stepwise.map(|change| change.power(power.bag)),
            five_percent_d: power.five_percent,
            vergence: Outcome::of(&power.vergence, |power| *power),
        }
    }
}
