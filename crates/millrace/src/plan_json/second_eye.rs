//! The refinement by the first eye's error, with its conditions and both predictions.

use millrace_core::case::SecondEyeChoice;
use millrace_core::finding::{Asks, Found, Lacking, Outcome};
use millrace_core::quantity::HundredthDiopters;
use millrace_core::second_eye::{
    Condition, Offer, Pair, Refined, SHARE, SOURCE, SecondEyeRefinement,
};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct SecondEyePart {
    first_eye: &'static str,
    /// Achieved less predicted spherical equivalent of that eye, no number of this one.
    first_eye_error_hundredths_d: i32,
    share: f64,
    source: String,
    conditions: Vec<ConditionPart>,
    offered: bool,
    choice: Option<&'static str>,
    refined: Option<RefinedPart>,
}

#[derive(Serialize)]
struct ConditionPart {
    asks: Asks,
    outcome: &'static str,
    found: Option<Found>,
    missing: Option<Lacking>,
    source: String,
}

#[derive(Serialize)]
struct RefinedPart {
    formula: &'static str,
    shift_d: f64,
    chosen: Option<PairPart>,
    rungs: Vec<PairPart>,
    proposed_unrefined_power_d: Option<f64>,
    proposed_refined_power_d: Option<f64>,
}

#[derive(Serialize)]
#[expect(
    clippy::struct_field_names,
    reason = "every number has its unit in its name"
)]
struct PairPart {
    power_d: f64,
    unrefined_refraction_d: f64,
    refined_refraction_d: f64,
}

impl SecondEyePart {
    pub(super) fn of(second: &SecondEyeRefinement) -> Self {
        Self {
            first_eye: second.first_eye.capitals(),
            first_eye_error_hundredths_d: second.error.hundredths(),
            share: SHARE,
            source: SOURCE.to_string(),
            conditions: second.conditions.iter().map(ConditionPart::of).collect(),
            offered: second.offer == Offer::Offered,
            choice: second.choice.map(|choice| match choice {
                SecondEyeChoice::Refined => "refined",
                SecondEyeChoice::Unrefined => "unrefined",
            }),
            refined: second.refined.as_ref().map(RefinedPart::of),
        }
    }
}

impl ConditionPart {
    fn of(condition: &Condition) -> Self {
        let (outcome, found, missing) = match condition.outcome {
            Outcome::Met(found) => ("met", Some(found), None),
            Outcome::NotMet(found) => ("not_met", Some(found), None),
            Outcome::CannotBeTold(lacking) => ("cannot_be_told", None, Some(lacking)),
        };
        Self {
            asks: condition.asks,
            outcome,
            found,
            missing,
            source: condition.source.to_string(),
        }
    }
}

impl RefinedPart {
    fn of(refined: &Refined) -> Self {
        let number = |power: Option<HundredthDiopters>| power.map(|power| power.diopters().d());
        Self {
            formula: refined.formula.key(),
            shift_d: refined.shift.d(),
            chosen: refined.chosen.as_ref().map(PairPart::of),
            rungs: refined.rungs.iter().map(PairPart::of).collect(),
            proposed_unrefined_power_d: number(refined.proposed_unrefined),
            proposed_refined_power_d: number(refined.proposed_refined),
        }
    }
}

impl PairPart {
    fn of(pair: &Pair) -> Self {
        Self {
            power_d: pair.power.diopters().d(),
            unrefined_refraction_d: pair.unrefined.d(),
            refined_refraction_d: pair.refined.d(),
        }
    }
}
