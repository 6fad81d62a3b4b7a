//! What the chosen power of a lens leaves in this eye, the lens being where it is meant to sit.

use super::{chosen_power, chosen_record, planned_formula};
use crate::iol_power::ladder::Ladder;
use crate::iol_power::{EyeModel, Formula};
use crate::lens::{Place, PowerLabel};
use crate::quantity::{Diopters, HundredthDiopters};
use crate::rules::look::NoLook;
use crate::rules::{Because, Detail, Fact, Facts, Missing};

/// A formula with the eye as it sees it, the lens in its place.
#[derive(Clone, Copy)]
pub(super) struct InPlace {
    pub(super) formula: Formula,
    eye: EyeModel,
}

/// The refraction that a chosen power leaves, beside the target.
pub(super) struct Predicted {
    formula: Formula,
    pub(super) power: HundredthDiopters,
    pub(super) target: HundredthDiopters,
    /// Refraction predicted for the power.
    refraction: HundredthDiopters,
    /// Power that the eye needs for the target, the lens in this place.
    pub(super) needed: HundredthDiopters,
    forward: Option<Detail>,
}

impl Predicted {
    /// How far from the target, without a sign.
    pub(super) fn off(&self) -> HundredthDiopters {
        (self.refraction - self.target).abs()
    }

    pub(super) const fn fact(&self) -> Fact {
        Fact::PredictedBy {
            formula: self.formula,
            power: self.power,
            refraction: self.refraction,
        }
    }

    pub(super) fn details(self) -> impl Iterator<Item = Detail> {
        let needed = Detail::NeededPower(self.needed);
        [needed].into_iter().chain(self.forward)
    }
}

/// What the chosen power of the lens leaves, by the formula that stands behind it.
pub(super) fn predicted(facts: &Facts<'_>) -> Result<Predicted, NoLook> {
    let power = chosen_power(facts)?;
    planned_formula(facts)?;
    let ladder = facts.ladder().ok_or(Missing::LensAndTarget)?;
    let in_place = behind(facts, ladder, power)?.ok_or(Because::NoResult)?;
    let whole = mean_power(facts, power)?;
    let usable = |number: Result<Diopters, _>| {
        let number = number.map_err(|_| Missing::UsablePower)?;
        number.nearest_hundredth().ok_or(Missing::UsablePower)
    };
    Ok(Predicted {
        formula: in_place.formula,
        power,
        target: ladder.target,
        refraction: usable(in_place.eye.refraction_with(whole))?,
        needed: usable(in_place.eye.power_for(ladder.target.diopters()))?,
        forward: (facts.backup() == Some(Place::Sulcus))
            .then_some(Detail::TakenForward(facts.limits.sulcus_shift)),
    })
}

/// The formula that a lens is judged by: the one planned by, or for a lens that lies ready the one that
/// predicts for its power.
pub(super) fn formula_behind(facts: &Facts<'_>) -> Result<Formula, NoLook> {
    let planned = planned_formula(facts)?;
    if facts.backup().is_none() {
        return Ok(planned);
    }
    let power = chosen_power(facts)?;
    let ladder = facts.ladder().ok_or(Missing::LensAndTarget)?;
    let in_place = behind(facts, ladder, power)?.ok_or(Because::NoResult)?;
    Ok(in_place.formula)
}

/// Who predicts: the formula planned by. Where it has no result for a lens that lies ready, as for one
/// whose record lacks its constant, it is the formula with a result that ends farthest from the target:
/// none of them may.
pub(super) fn behind(
    facts: &Facts<'_>,
    ladder: &Ladder,
    power: HundredthDiopters,
) -> Result<Option<InPlace>, NoLook> {
    let planned = facts.draft.lens.formula;
    let whole = mean_power(facts, power)?;
    let answers: Vec<_> = ladder
        .columns
        .iter()
        .filter_map(|column| {
            let eye = column.answer.as_ref().ok()?.eye;
            let formula = column.formula;
            let forward = facts.limits.sulcus_shift.millimeters();
            let eye = match facts.backup() {
                Some(Place::Sulcus) => eye.with_lens_forward(forward),
                Some(Place::Bag | Place::AnteriorChamber) | None => eye,
            };
            Some(InPlace { formula, eye })
        })
        .collect();
    let by_plan = answers
        .iter()
        .find(|in_place| Some(in_place.formula) == planned);
    if by_plan.is_some() || facts.backup().is_none() {
        return Ok(by_plan.copied());
    }
    let off = |in_place: &InPlace| {
        let refraction = in_place.eye.refraction_with(whole).ok()?;
        Some((refraction - ladder.target.diopters()).d().abs())
    };
    Ok(answers
        .into_iter()
        .filter(|in_place| in_place.formula.has_fitted_constant())
        .filter_map(|in_place| Some((off(&in_place)?, in_place)))
        .max_by(|(off, _), (other, _)| off.total_cmp(other))
        .map(|(_, in_place)| in_place))
}

/// The mean of both meridians that a labeled power stands for.
fn mean_power(facts: &Facts<'_>, labeled: HundredthDiopters) -> Result<Diopters, NoLook> {
    let weakest = chosen_record(facts)?
        .toric
        .as_ref()
        .is_some_and(|steps| steps.label() == PowerLabel::WeakestMeridian);
    if !weakest {
        return Ok(labeled.diopters());
    }
    let choice = facts.lens().and_then(|lens| lens.toric);
    let cylinder = choice.ok_or(Missing::CylinderAndAxis)?.cylinder;
    Ok(labeled.diopters() + cylinder.diopters() * 0.5)
}
