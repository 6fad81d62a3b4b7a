//! What formulas and optics say of a case: the ladder and the astigmatism, which rules look at and
//! the plan shows.

mod formula_inputs;
mod toric;

pub use formula_inputs::{OPTICAL_LESS_CONTACT, OPTICAL_LESS_IMMERSION, formula_inputs};
pub use toric::{
    AlternativePlan, MeasuredSpreads, SHOWN_CYLINDERS, StepCertainty, ToricColumn, ToricPlan,
    toric_plan,
};

use crate::case::{Draft, Slot};
use crate::iol_power::ladder::Ladder;
use crate::iol_power::{Formula, FormulaInputs};
use crate::lens::LensSite;
use crate::quantity::{Diopters, HundredthDiopters};

#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LadderMissing {
    Lens,
    Target,
}

/// Formulas shown for an eye: the five and the thick lens always; the methods for operated corneas
/// when there was surgery.
pub(crate) fn shown_formulas(inputs: &FormulaInputs) -> Vec<Formula> {
    let operated = inputs.history.is_operated();
    Formula::ALL
        .into_iter()
        .filter(|formula| operated || !formula.is_for_operated_corneas())
        .collect()
}

/// The ladder of a chosen lens, with what the formulas get of it.
pub(crate) fn ladder_of(
    draft: &Draft,
    slot: Slot,
    inputs: &FormulaInputs,
) -> Result<Ladder, LadderMissing> {
    let lens = draft.lens.lenses.get(slot).ok_or(LadderMissing::Lens)?;
    let record = &lens.record;
    let target = draft.lens.target.ok_or(LadderMissing::Target)?;
    let mut formulas = shown_formulas(inputs);
    if record.site == LensSite::AnteriorChamber {
        // The thick-lens eye knows only where a lens rests in the bag.
        formulas.retain(|formula| formula.has_fitted_constant());
    }
    Ok(Ladder::compute(
        &formulas,
        inputs,
        &record.powers,
        target,
        draft.lens.convention,
    ))
}

/// Power for emmetropia by the formula planned by.
pub(crate) fn emmetropic_power(
    formula: Option<Formula>,
    inputs: &FormulaInputs,
) -> Option<Diopters> {
    let eye = formula?.eye(inputs).ok()?.value;
    eye.power_for(HundredthDiopters::new(0).diopters()).ok()
}
