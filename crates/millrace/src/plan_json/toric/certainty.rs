//! How sure each cylinder is by the formula planned by, and what a turn leaves.

use millrace_core::astigmatism::rotation::added_by_turn;
use millrace_core::astigmatism::{Ellipse, Rotation, ToricPrediction};
use millrace_core::plan::{SHOWN_CYLINDERS, StepCertainty, ToricPlan};
use millrace_core::quantity::{Diopters, HundredthDiopters, Meridian};
use serde::Serialize;

use super::prediction::ResidualPart;

/// One standard deviation of each component at twice the angle.
#[derive(Serialize)]
pub(super) struct SpreadsPart {
    keratometry_d: f64,
    keratometry_measured: bool,
    posterior_d: f64,
    posterior_measured: bool,
    incision_d: Option<f64>,
    rotation_degrees: f64,
}

#[derive(Serialize)]
pub(super) struct StepPart {
    cylinder_d: Option<f64>,
    axis_degrees: Option<u16>,
    at_corneal_plane_d: Option<f64>,
    residual: ResidualPart,
    ellipse_80: Option<EllipsePart>,
    ellipse_95: Option<EllipsePart>,
    chances: Vec<ChancePart>,
    chance_of_less_than_without: Option<f64>,
}

/// About the predicted residual, in the plane of twice the angle.
#[derive(Serialize)]
struct EllipsePart {
    semi_major_d: f64,
    semi_minor_d: f64,
    doubled_angle_degrees: f64,
}

#[derive(Serialize)]
struct ChancePart {
    cylinder_at_most_d: f64,
    chance: f64,
}

#[derive(Serialize)]
pub(super) struct RotationPart {
    turn_degrees: u16,
    counter_clockwise: ResidualPart,
    clockwise: ResidualPart,
    added_error_d: Option<f64>,
}

impl SpreadsPart {
    pub(super) fn of(toric: &ToricPlan) -> Self {
        let incision = toric.terms.incision.as_ref().ok();
        Self {
            keratometry_d: toric.spreads.keratometry.d(),
            keratometry_measured: toric.measured_spreads.keratometry,
            posterior_d: toric.spreads.posterior.d(),
            posterior_measured: toric.measured_spreads.posterior,
            incision_d: incision.map(|term| term.scatter.d()),
            rotation_degrees: toric.spreads.rotation_degrees,
        }
    }
}

impl StepPart {
    pub(super) fn of(step: &StepCertainty, planned: Option<&ToricPrediction>) -> Self {
        let at_cornea =
            |cylinder: HundredthDiopters| Some(planned?.at_corneal_plane(cylinder.diopters()).d());
        Self {
            cylinder_d: step.cylinder.map(|cylinder| cylinder.diopters().d()),
            axis_degrees: step.axis.map(Meridian::degrees),
            at_corneal_plane_d: step.cylinder.and_then(at_cornea),
            residual: ResidualPart::of(&step.residual),
            ellipse_80: step.cloud.ellipse(0.80).map(EllipsePart::of),
            ellipse_95: step.cloud.ellipse(0.95).map(EllipsePart::of),
            chances: SHOWN_CYLINDERS
                .iter()
                .zip(step.chances)
                .map(|(limit, chance)| ChancePart {
                    cylinder_at_most_d: limit.diopters().d(),
                    chance,
                })
                .collect(),
            chance_of_less_than_without: step.chance_of_less,
        }
    }
}

impl EllipsePart {
    fn of(ellipse: Ellipse) -> Self {
        Self {
            semi_major_d: ellipse.semi_major.d(),
            semi_minor_d: ellipse.semi_minor.d(),
            doubled_angle_degrees: ellipse.degrees,
        }
    }
}

impl RotationPart {
    pub(super) fn of(turn: &Rotation, at_cornea: Option<Diopters>) -> Self {
        Self {
            turn_degrees: turn.degrees,
            counter_clockwise: ResidualPart::of(&turn.counter_clockwise),
            clockwise: ResidualPart::of(&turn.clockwise),
            added_error_d: at_cornea.map(|lens| added_by_turn(lens, turn.degrees).d()),
        }
    }
}
