//! Does this lens fit?

pub mod ac_01;
pub mod ct_01;
pub mod ct_02;
pub mod fd_01;
pub mod ha_01;
pub mod pw_01;
pub mod pw_02;
pub mod pw_03;
pub mod pw_04;
pub mod su_01;
pub mod tg_02;
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

use super::check::Unsigned;
use super::verdict::{not_applicable, not_evaluated};
use super::{Facts, Verdict};
use crate::astigmatism::{ChosenStep, ToricPrediction};
use crate::iol_power::Formula;
use crate::iol_power::ladder::Answer;
use crate::lens::{LensRecord, Obtained, Powers, ToricSteps};

fn chosen_record<'a>(facts: &Facts<'a>) -> Result<&'a LensRecord, Verdict> {
    let record = facts.draft.lens.record.as_ref();
    record.ok_or(not_evaluated("chosen lens"))
}

fn planned_formula(facts: &Facts<'_>) -> Result<Formula, Verdict> {
    let formula = facts.draft.lens.formula;
    formula.ok_or(not_evaluated("formula the power is chosen by"))
}

/// The cylinders of the chosen lens; the rule does not concern a lens without one.
pub(super) fn toric_steps<'a>(facts: &Facts<'a>) -> Result<&'a ToricSteps, Verdict> {
    let steps = chosen_record(facts)?.toric.as_ref();
    steps.ok_or(not_applicable("the chosen lens is not toric"))
}

/// What the formula planned by makes of the toric lens.
fn toric_answer<'a>(facts: &Facts<'a>) -> Result<&'a ToricPrediction, Verdict> {
    let answer = facts.toric.answer(planned_formula(facts)?);
    answer.ok_or(not_evaluated(
        "an answer about astigmatism of the formula the power is chosen by",
    ))
}

/// The chosen cylinder of a toric lens, by the formula planned by.
fn chosen_step<'a>(facts: &Facts<'a>) -> Result<&'a ChosenStep, Verdict> {
    toric_steps(facts)?;
    if facts.draft.lens.toric.is_none() {
        return Err(not_evaluated("chosen cylinder and axis"));
    }
    let chosen = toric_answer(facts)?.chosen.as_ref();
    chosen.ok_or(not_evaluated("chosen cylinder and axis"))
}

/// What the formula planned by makes of the eye and the chosen lens.
fn planned_answer<'a>(facts: &Facts<'a>) -> Result<&'a Answer, Verdict> {
    let ladder = facts
        .ladder
        .ok_or(not_evaluated("chosen lens and target"))?;
    let formula = planned_formula(facts)?;
    let column = ladder.column(formula);
    column
        .and_then(|column| column.answer.as_ref().ok())
        .ok_or(not_evaluated(
            "an answer of the formula the power is chosen by",
        ))
}

/// Where the constant comes from that the formula planned by takes from the chosen lens.
fn constant_origin(facts: &Facts<'_>) -> Result<Obtained, Verdict> {
    let formula = planned_formula(facts)?;
    let constants = chosen_record(facts)?.constants;
    let obtained = match formula {
        Formula::SrkT
        | Formula::T2
        | Formula::DoubleKNoHistory
        | Formula::DoubleKKnownCorrection => constants.a_constant.map(|a| a.obtained),
        Formula::Holladay1 => constants.surgeon_factor.map(|factor| factor.obtained),
        Formula::HofferQ => constants.personalized_acd.map(|depth| depth.obtained),
        Formula::Haigis | Formula::HaigisModifiedRadius => {
            constants.haigis.map(|haigis| haigis.obtained)
        }
        Formula::ThickLens => {
            return Err(not_applicable("the thick-lens eye takes no lens constant"));
        }
    };
    obtained.ok_or(not_evaluated(
        "constant of the chosen lens for the formula the power is chosen by",
    ))
}

/// The powers a lens is made in, range by range.
fn powers_text(powers: &Powers) -> String {
    let ranges: Vec<_> = powers
        .ranges()
        .iter()
        .map(|range| {
            let step = Unsigned(range.step());
            format!("{} to {} by {step}", range.from(), range.to())
        })
        .collect();
    if ranges.is_empty() {
        return "no power is recorded".to_owned();
    }
    ranges.join(", ")
}
