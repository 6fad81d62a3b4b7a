//! What lies ready if the planned lens cannot be used: a spare for bag or sulcus, and a lens for
//! the anterior chamber.

use super::formula_inputs;
use crate::case::{Draft, LensPlan};
use crate::iol_power::ladder::Ladder;
use crate::iol_power::sulcus::{StepwiseChange, by_vergence, five_percent, stepwise};
use crate::iol_power::{Formula, Refusal};
use crate::lens::LensRecord;
use crate::limits::Limits;
use crate::quantity::{Diopters, Micrometers};

/// The spare lens.
#[derive(Clone, Debug)]
pub struct SparePlan {
    /// Its ladder in the bag, with its own constants.
    pub bag: Ladder,
    /// Its power in the sulcus, per formula; empty if the maker does not allow it there.
    pub sulcus: Vec<SulcusPower>,
    /// How far forward of the bag it is taken to sit.
    pub sulcus_shift: Micrometers,
}

/// Power for the sulcus by one formula: two published rules beside the vergence result.
#[derive(Clone, Debug)]
pub struct SulcusPower {
    /// The formula.
    pub formula: Formula,
    /// Exact power in the bag.
    pub bag: Diopters,
    /// Change by the stepwise rule.
    pub stepwise: StepwiseChange,
    /// Power by the rule of five percent.
    pub five_percent: Diopters,
    /// Power by vergence with the lens forward.
    pub vergence: Result<Diopters, Refusal>,
}

pub(super) fn spare_plan(draft: &Draft, limits: &Limits) -> Option<SparePlan> {
    let record = draft.lens.spare.as_ref()?;
    let bag = ladder_for(draft, record)?;
    let target = bag.target.diopters();
    let shift = limits.sulcus_shift;
    let mut sulcus = Vec::new();
    if record.may_sit_in_sulcus {
        for column in &bag.columns {
            let Ok(answer) = &column.answer else { continue };
            // Both published rules speak of positive powers in the bag.
            if answer.exact_power.d() <= 0.0 {
                continue;
            }
            sulcus.push(SulcusPower {
                formula: column.formula,
                bag: answer.exact_power,
                stepwise: stepwise(answer.exact_power),
                five_percent: five_percent(answer.exact_power),
                vergence: by_vergence(answer.eye, shift.millimeters(), target),
            });
        }
    }
    Some(SparePlan {
        bag,
        sulcus,
        sulcus_shift: shift,
    })
}

pub(super) fn chamber_lens_ladder(draft: &Draft) -> Option<Ladder> {
    ladder_for(draft, draft.lens.chamber_lens.as_ref()?)
}

/// The ladder of another lens for the same eye and target.
fn ladder_for(draft: &Draft, record: &LensRecord) -> Option<Ladder> {
    let LensPlan {
        target, convention, ..
    } = draft.lens;
    let (operated, _) = draft.eyes.split(draft.operation.eye?);
    let inputs = formula_inputs(operated.0, &draft.lens, Some(record));
    let formulas = super::shown_formulas(&inputs);
    Some(Ladder::compute(
        &formulas,
        &inputs,
        &record.powers,
        target?,
        convention,
    ))
}
