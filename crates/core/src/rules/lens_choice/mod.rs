//! Does this lens fit?

pub mod ac_01;
pub mod ac_02;
pub mod ac_05;
pub mod an_01;
pub mod chamber_seat;
pub mod constants;
pub mod ct_01;
pub mod ct_02;
pub mod fd_01;
pub mod fd_02;
pub mod ha_01;
mod in_place;
pub mod pw_01;
pub mod pw_02;
pub mod pw_03;
pub mod pw_04;
pub mod pw_05;
pub mod pw_06;
pub mod pw_07;
pub mod su_01;
pub mod su_02;
pub mod tg_02;
pub mod tg_03;
pub mod to_01;
pub mod to_03;
pub mod to_04;
pub mod to_05;
pub mod to_06;
pub mod to_07;
pub mod to_08;
pub mod to_09;
pub mod to_10;
pub mod to_11;
pub mod to_12;
pub mod to_13;

use super::look::NoLook;
use super::{Because, Facts, Missing};
use crate::astigmatism::{ChosenStep, ToricPrediction};
use crate::iol_power::ladder::Answer;
use crate::iol_power::{Formula, NeededConstant};
use crate::lens::{LensRecord, Obtained, ToricSteps};
use crate::quantity::HundredthDiopters;

/// The record of the lens that the rule looks at.
fn chosen_record<'a>(facts: &Facts<'a>) -> Result<&'a LensRecord, Missing> {
    facts.lens().map(|lens| &lens.record).ok_or(Missing::Lens)
}

/// The power chosen of it; a lens that lies ready may do without.
fn chosen_power(facts: &Facts<'_>) -> Result<HundredthDiopters, NoLook> {
    let power = facts.lens().ok_or(Missing::Lens)?.power;
    match (power, facts.backup()) {
        (Some(power), _) => Ok(power),
        (None, None) => Err(Missing::Power.into()),
        (None, Some(_)) => Err(Because::NoPowerOfBackup.into()),
    }
}

fn planned_formula(facts: &Facts<'_>) -> Result<Formula, Missing> {
    facts.draft.lens.formula.ok_or(Missing::Formula)
}

/// The cylinders of the chosen lens; the rule does not concern a lens without one.
pub(super) fn toric_steps<'a>(facts: &'a Facts<'_>) -> Result<&'a ToricSteps, NoLook> {
    let steps = chosen_record(facts)?.toric.as_ref();
    Ok(steps.ok_or(Because::NotToric)?)
}

/// What the formula planned by makes of the toric lens.
fn toric_answer<'a>(facts: &'a Facts<'_>) -> Result<&'a ToricPrediction, Missing> {
    let answer = facts.toric().answer(planned_formula(facts)?);
    answer.ok_or(Missing::ToricAnswer)
}

/// The chosen cylinder of a toric lens, by the formula planned by.
fn chosen_step<'a>(facts: &'a Facts<'_>) -> Result<&'a ChosenStep, NoLook> {
    toric_steps(facts)?;
    facts.draft.lens.toric().ok_or(Missing::CylinderAndAxis)?;
    let chosen = toric_answer(facts)?.chosen.as_ref();
    Ok(chosen.ok_or(Missing::CylinderAndAxis)?)
}

/// What the formula planned by makes of the eye and the chosen lens.
fn planned_answer<'a>(facts: &'a Facts<'_>) -> Result<&'a Answer, Missing> {
    let ladder = facts.ladder().ok_or(Missing::LensAndTarget)?;
    let column = ladder.column(planned_formula(facts)?);
    let answer = column.and_then(|column| column.answer.as_ref().ok());
    answer.ok_or(Missing::Answer)
}

/// Where the constant comes from that the formula planned by takes from the chosen lens.
fn constant_origin(facts: &Facts<'_>) -> Result<Obtained, NoLook> {
    origin_for(planned_formula(facts)?, chosen_record(facts)?)
}

/// Where the constant comes from that a formula takes from a lens.
fn origin_for(formula: Formula, record: &LensRecord) -> Result<Obtained, NoLook> {
    let constants = record.constants;
    let obtained = match formula.constant() {
        NeededConstant::A => constants.a_constant.map(|a| a.obtained),
        NeededConstant::SurgeonFactor => constants.surgeon_factor.map(|factor| factor.obtained),
        NeededConstant::PersonalizedAcd => constants.personalized_acd.map(|depth| depth.obtained),
        NeededConstant::Haigis => constants.haigis.map(|haigis| haigis.obtained),
        NeededConstant::Optic => return Err(Because::NoConstantTaken.into()),
    };
    Ok(obtained.ok_or(Missing::LensConstant)?)
}
