//! How sure each cylinder is by the formula planned by, what a turn leaves, and the other incision.

use serde::{Deserialize, Serialize};

use super::Outcome;
use super::toric::{ResidualResult, VectorResult};
use crate::astigmatism::rotation::added_by_turn;
use crate::astigmatism::{
    Ellipse, OwnScatter, Rotation, ToricCaution, ToricPrediction, ToricRefusal,
};
use crate::plan::{AlternativePlan, SHOWN_CYLINDERS, StepCertainty, ToricPlan};
use crate::quantity::{Diopters, Direction, HundredthDiopters, Meridian};

/// One standard deviation of each component at twice the angle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpreadsResult {
    /// Of keratometry.
    pub keratometry_d: Diopters,
    /// Whether that was measured.
    pub keratometry_measured: bool,
    /// Of the back of the cornea.
    pub posterior_d: Diopters,
    /// Whether that was measured.
    pub posterior_measured: bool,
    /// Of the incision's effect itself, keratometry taken off what was observed.
    pub incision_d: Option<Diopters>,
    /// Of the lens's turn.
    pub rotation_degrees: f64,
}

/// How sure a cylinder is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StepCertaintyResult {
    /// At the lens plane; nothing for the same power without one.
    #[serde(with = "crate::quantity::as_diopters::option")]
    pub cylinder_d: Option<HundredthDiopters>,
    /// Where its marks stand.
    pub axis_degrees: Option<Meridian>,
    /// The same cylinder at the corneal plane.
    pub at_corneal_plane_d: Option<Diopters>,
    /// What it leaves.
    pub residual: ResidualResult,
    /// Where eight of ten residuals lie.
    pub ellipse_80: Option<Ellipse>,
    /// Where nineteen of twenty lie.
    pub ellipse_95: Option<Ellipse>,
    /// Chances of small cylinders.
    pub chances: Vec<ChanceResult>,
    /// Chance that it leaves less than the same power without a cylinder.
    pub chance_of_less_than_without: Option<f64>,
}

/// Chance of at most a cylinder.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChanceResult {
    /// The cylinder.
    #[serde(with = "crate::quantity::as_diopters")]
    pub cylinder_at_most_d: HundredthDiopters,
    /// The chance.
    pub chance: f64,
}

/// What a turn leaves.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RotationResult {
    /// The turn.
    pub turn_degrees: u16,
    /// After a turn counter-clockwise.
    pub counter_clockwise: ResidualResult,
    /// After a turn clockwise.
    pub clockwise: ResidualResult,
    /// Cylinder that the turn adds at the corneal plane.
    pub added_error_d: Option<Diopters>,
}

/// The incision on the steep meridian.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SteepIncision {
    /// Where it would lie.
    pub direction_degrees: Direction,
    /// The cornea with it.
    pub cornea: VectorResult,
    /// What is dubious about it.
    pub cautions: Vec<ToricCaution>,
    /// What is left without a cylinder in the lens, by the formula planned by.
    pub without_cylinder: Outcome<StepCertaintyResult, ToricRefusal>,
}

impl SpreadsResult {
    pub(super) fn of(toric: &ToricPlan) -> Self {
        Self {
            keratometry_d: toric.spreads.keratometry,
            keratometry_measured: toric.measured_spreads.keratometry,
            posterior_d: toric.spreads.posterior,
            posterior_measured: toric.measured_spreads.posterior,
            incision_d: toric.incision_scatter.map(OwnScatter::counted),
            rotation_degrees: toric.spreads.rotation_degrees,
        }
    }
}

impl StepCertaintyResult {
    pub(super) fn of(step: &StepCertainty, planned: Option<&ToricPrediction>) -> Self {
        let at_cornea =
            |cylinder: HundredthDiopters| Some(planned?.at_corneal_plane(cylinder.diopters()));
        let chances = SHOWN_CYLINDERS.iter().zip(step.chances);
        Self {
            cylinder_d: step.cylinder,
            axis_degrees: step.axis,
            at_corneal_plane_d: step.cylinder.and_then(at_cornea),
            residual: ResidualResult::of(&step.residual),
            ellipse_80: step.cloud.ellipse(0.80),
            ellipse_95: step.cloud.ellipse(0.95),
            chances: chances
                .map(|(cylinder, chance)| ChanceResult {
                    cylinder_at_most_d: *cylinder,
                    chance,
                })
                .collect(),
            chance_of_less_than_without: step.chance_of_less,
        }
    }
}

impl RotationResult {
    pub(super) fn of(turn: &Rotation, at_cornea: Option<Diopters>) -> Self {
        Self {
            turn_degrees: turn.degrees,
            counter_clockwise: ResidualResult::of(&turn.counter_clockwise),
            clockwise: ResidualResult::of(&turn.clockwise),
            added_error_d: at_cornea.map(|lens| added_by_turn(lens, turn.degrees)),
        }
    }
}

impl SteepIncision {
    pub(super) fn of(moved: &AlternativePlan) -> Self {
        Self {
            direction_degrees: moved.alternative.direction,
            cornea: VectorResult::of(moved.alternative.terms.total()),
            cautions: moved.cautions.clone(),
            without_cylinder: Outcome::of(&moved.without_cylinder, |step| {
                StepCertaintyResult::of(step, None)
            }),
        }
    }
}
