//! What one formula makes of every cylinder.

use millrace_core::astigmatism::{Residual, ToricPrediction};
use millrace_core::plan::ToricColumn;
use millrace_core::quantity::{HundredthDiopters, Meridian};
use serde::Serialize;

use super::cornea::VectorPart;

#[derive(Serialize)]
pub(super) struct FormulaPart {
    formula: &'static str,
    refusal: Option<String>,
    answer: Option<AnswerPart>,
}

#[derive(Serialize)]
struct AnswerPart {
    /// After the operation, at the formula's index.
    cornea: VectorPart,
    best_axis_degrees: Option<f64>,
    suggested_axis_degrees: Option<u16>,
    exact_cylinder_d: f64,
    /// Cylinder at the lens plane for one diopter at the corneal plane.
    plane_ratio: f64,
    /// No cylinder first.
    steps: Vec<OutcomePart>,
    chosen: Option<OutcomePart>,
    chosen_off_axis_degrees: Option<f64>,
}

#[derive(Serialize)]
struct OutcomePart {
    cylinder_d: Option<f64>,
    axis_degrees: Option<u16>,
    overcorrects: bool,
    residual: Option<ResidualPart>,
    refusal: Option<String>,
}

/// At the spectacle plane, with a cylinder that is zero or negative.
#[derive(Serialize)]
pub(super) struct ResidualPart {
    sphere_d: f64,
    cylinder_d: f64,
    /// Null where there is no cylinder.
    axis_degrees: Option<f64>,
    spherical_equivalent_d: f64,
}

impl FormulaPart {
    pub(super) fn of(column: &ToricColumn) -> Self {
        Self {
            formula: column.formula.key(),
            refusal: column.answer.as_ref().err().map(ToString::to_string),
            answer: column.answer.as_ref().ok().map(AnswerPart::of),
        }
    }
}

impl AnswerPart {
    fn of(answer: &ToricPrediction) -> Self {
        let chosen = answer.chosen.as_ref();
        Self {
            cornea: VectorPart::of(answer.net),
            best_axis_degrees: answer.best_axis_degrees,
            suggested_axis_degrees: answer.suggested_axis.map(Meridian::degrees),
            exact_cylinder_d: answer.exact.cylinder.d(),
            plane_ratio: answer.exact.ratio,
            steps: answer
                .steps
                .iter()
                .map(|step| OutcomePart {
                    cylinder_d: step.cylinder.map(diopters),
                    axis_degrees: step.axis.map(Meridian::degrees),
                    overcorrects: step.overcorrects,
                    residual: step.outcome.as_ref().ok().map(ResidualPart::of),
                    refusal: step.outcome.as_ref().err().map(ToString::to_string),
                })
                .collect(),
            chosen: chosen.map(|step| OutcomePart {
                cylinder_d: Some(diopters(step.choice.cylinder)),
                axis_degrees: Some(step.choice.axis.degrees()),
                overcorrects: step.overcorrects,
                residual: step.outcome.as_ref().ok().map(ResidualPart::of),
                refusal: step.outcome.as_ref().err().map(ToString::to_string),
            }),
            chosen_off_axis_degrees: chosen.and_then(|step| step.off_axis_degrees),
        }
    }
}

impl ResidualPart {
    pub(super) fn of(left: &Residual) -> Self {
        let written = left.spectacles();
        Self {
            sphere_d: written.sphere.d(),
            cylinder_d: written.cylinder.d(),
            axis_degrees: left.left().steep_degrees().map(|_| written.axis_degrees),
            spherical_equivalent_d: left.spherical_equivalent().d(),
        }
    }
}

fn diopters(cylinder: HundredthDiopters) -> f64 {
    cylinder.diopters().d()
}
