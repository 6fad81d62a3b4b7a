//! Ladders of the planned lens and of the backup lenses.

use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

use super::Outcome;
use crate::iol_power::ladder::{Answer, Column, Ladder, Rung};
use crate::iol_power::sulcus::StepwisePower;
use crate::iol_power::{Caution, Formula, Refusal};
use crate::lens::Place;
use crate::plan::{BackupPlan, Plan, SulcusPower};
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

/// A backup lens.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BackupResult {
    /// Where it is meant to sit.
    pub place: Place,
    /// Its ladder; for a lens in the sulcus, in the bag.
    pub ladder: LadderResult,
    /// Its powers in the sulcus, if that is its place.
    pub sulcus: Option<SulcusResults>,
}

/// Powers for the sulcus.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SulcusResults {
    /// How far forward of the bag the lens is taken to sit.
    pub shift_mm: Millimeters,
    /// Per formula.
    pub powers: Vec<SulcusResult>,
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

impl BackupResult {
    pub(super) fn all(plan: &Plan) -> Vec<Self> {
        let lenses = &plan.draft.lens.lenses;
        let result = |(&place, backup): (&Place, &BackupPlan)| {
            // What a power leaves in the bag is no prediction for the sulcus.
            let power = lenses.backup(place).and_then(|lens| lens.power);
            let power = power.filter(|_| backup.sulcus.is_none());
            Self {
                place,
                ladder: LadderResult::of(&backup.ladder, power),
                sulcus: backup.sulcus.as_ref().map(|sulcus| SulcusResults {
                    shift_mm: sulcus.shift.millimeters(),
                    powers: sulcus.powers.iter().map(SulcusResult::of).collect(),
                }),
            }
        };
        plan.backups.iter().map(result).collect()
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
