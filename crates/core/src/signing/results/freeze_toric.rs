//! Astigmatism, frozen.

use super::{ResidualResult, RotationResult, ToricResult, ToricStep};
use crate::astigmatism::{Residual, ToricPrediction};
use crate::case::Draft;
use crate::plan::{StepCertainty, ToricPlan};
use crate::quantity::{HundredthDiopters, Meridian};

impl ToricResult {
    pub(super) fn of(draft: &Draft, plan: &ToricPlan) -> Self {
        let cautions = plan.cautions.iter().map(ToString::to_string).collect();
        let planned = match plan.planned(draft.lens.formula) {
            Ok(planned) => planned,
            Err(refusal) => {
                return Self {
                    refusal: Some(refusal.to_string()),
                    cautions,
                    ..Self::default()
                };
            }
        };
        let rotations = plan.rotations.iter().map(|turn| RotationResult {
            turn_degrees: turn.degrees,
            counter_clockwise: ResidualResult::of(&turn.counter_clockwise),
            clockwise: ResidualResult::of(&turn.clockwise),
        });
        Self {
            refusal: None,
            cautions,
            cornea_d: Some(planned.net.cylinder().d()),
            steep_degrees: planned.best_axis_degrees,
            suggested_axis_degrees: planned.suggested_axis.map(Meridian::degrees),
            exact_cylinder_d: Some(planned.exact.cylinder.d()),
            steps: steps(planned, &plan.steps),
            chosen: planned.chosen.as_ref().map(|chosen| ToricStep {
                cylinder_d: Some(diopters(chosen.choice.cylinder)),
                axis_degrees: Some(chosen.choice.axis.degrees()),
                residual: chosen.outcome.as_ref().ok().map(ResidualResult::of),
                refusal: chosen.outcome.as_ref().err().map(ToString::to_string),
                chances: plan.chosen.as_ref().map(|certainty| certainty.chances),
            }),
            rotations: rotations.collect(),
        }
    }
}

fn steps(planned: &ToricPrediction, certainties: &[StepCertainty]) -> Vec<ToricStep> {
    let steps = planned.steps.iter();
    steps
        .map(|step| ToricStep {
            cylinder_d: step.cylinder.map(diopters),
            axis_degrees: step.axis.map(Meridian::degrees),
            residual: step.outcome.as_ref().ok().map(ResidualResult::of),
            refusal: step.outcome.as_ref().err().map(ToString::to_string),
            chances: certainties
                .iter()
                .find(|certainty| certainty.cylinder == step.cylinder)
                .map(|certainty| certainty.chances),
        })
        .collect()
}

fn diopters(value: HundredthDiopters) -> f64 {
    value.diopters().d()
}

impl ResidualResult {
    fn of(residual: &Residual) -> Self {
        let left = residual.spectacles();
        Self {
            sphere_d: left.sphere.d(),
            cylinder_d: left.cylinder.d(),
            axis_degrees: (left.cylinder.d() != 0.0).then_some(left.axis_degrees),
        }
    }
}
