//! Astigmatism: the terms of the cornea, every cylinder by every formula, and how sure they are.

use serde::{Deserialize, Serialize};

use super::Outcome;
use crate::astigmatism::rotation::{added_by_turn, no_better_from};
use crate::astigmatism::{
    ChosenStep, CornealTerms, Ellipse, IncisionBasis, IncisionTerm, KnownTerms, Orientation,
    PosteriorBasis, PosteriorTerm, Residual, Rotation, StepResult, ToricCaution, ToricPrediction,
    ToricRefusal,
};
use crate::iol_power::Formula;
use crate::optics::DoubleAngle;
use crate::plan::{AlternativePlan, Plan, SHOWN_CYLINDERS, StepCertainty, ToricPlan};
use crate::quantity::{Diopters, Direction, HundredthDiopters, Meridian};

/// Everything about astigmatism.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ToricResult {
    /// The cornea.
    pub cornea: CorneaResult,
    /// Spreads behind every chance.
    pub spreads: SpreadsResult,
    /// Every formula of the ladder with the chosen power, the one planned by first.
    pub formulas: Vec<ToricFormula>,
    /// How sure each cylinder is, by the formula planned by.
    pub steps: Vec<StepCertaintyResult>,
    /// How sure the chosen cylinder at the chosen axis is.
    pub chosen: Option<StepCertaintyResult>,
    /// What the chosen cylinder leaves when it turns.
    pub rotations: Vec<RotationResult>,
    /// From this turn on the chosen cylinder is no better than none.
    pub no_better_than_none_from_degrees: Option<f64>,
    /// The incision on the steep meridian, with a lens without a cylinder.
    pub steep_incision: Outcome<SteepIncision, ToricRefusal>,
}

/// The terms of the corneal astigmatism.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CorneaResult {
    /// What is dubious about it.
    pub cautions: Vec<ToricCaution>,
    /// By keratometry, at index 1.3375.
    pub front: Outcome<VectorResult, ToricRefusal>,
    /// The back.
    pub posterior: Outcome<PosteriorResult, ToricRefusal>,
    /// The incision.
    pub incision: Outcome<IncisionResult, ToricRefusal>,
    /// All three together.
    pub total: Outcome<VectorResult, ToricRefusal>,
    /// Where the sum is steep.
    pub orientation: Option<Orientation>,
}

/// A size and its steep meridian, nothing where the size is nothing.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VectorResult {
    /// Size.
    pub cylinder_d: Diopters,
    /// Steep meridian.
    pub steep_degrees: Option<f64>,
}

/// What the back of the cornea adds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PosteriorResult {
    /// What it rests on.
    pub basis: PosteriorBasis,
    /// What it adds to the front.
    pub adds: VectorResult,
    /// Largest lens cylinder it may be used with.
    #[serde(with = "crate::quantity::as_diopters::option")]
    pub largest_lens_cylinder_d: Option<HundredthDiopters>,
}

/// What the incision adds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IncisionResult {
    /// What it rests on.
    pub basis: Basis,
    /// Where it lies.
    pub direction_degrees: Direction,
    /// What it adds.
    pub adds: VectorResult,
    /// Standard deviation of each component at twice the angle.
    pub scatter_d: Diopters,
}

/// What an incision's effect rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Basis {
    /// The surgeon's own results.
    Surgeon {
        /// Number of eyes.
        eyes: u32,
    },
    /// The published temporal incision.
    Published,
}

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
    /// Of the incision's effect.
    pub incision_d: Option<Diopters>,
    /// Of the lens's turn.
    pub rotation_degrees: f64,
}

/// One formula.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ToricFormula {
    /// The formula.
    pub formula: Formula,
    /// What it says.
    pub outcome: Outcome<ToricAnswer, ToricRefusal>,
}

/// A formula's answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ToricAnswer {
    /// Cornea after the operation, at the formula's index.
    pub cornea: VectorResult,
    /// Best axis.
    pub best_axis_degrees: Option<f64>,
    /// The same to the nearest whole degree.
    pub suggested_axis_degrees: Option<Meridian>,
    /// Cylinder at the lens plane that would leave none.
    pub exact_cylinder_d: Diopters,
    /// Cylinder at the lens plane for one diopter at the corneal plane.
    pub plane_ratio: f64,
    /// No cylinder first, then every cylinder the lens is made in.
    pub steps: Vec<ToricStep>,
    /// The chosen cylinder at the chosen axis.
    pub chosen: Option<ToricStep>,
    /// How far the chosen axis lies from the best one, counter-clockwise positive.
    pub chosen_off_axis_degrees: Option<f64>,
}

/// One cylinder.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ToricStep {
    /// At the lens plane; nothing for the same power without one.
    #[serde(with = "crate::quantity::as_diopters::option")]
    pub cylinder_d: Option<HundredthDiopters>,
    /// Where its marks stand.
    pub axis_degrees: Option<Meridian>,
    /// Whether it corrects more than there is.
    pub overcorrects: bool,
    /// What it leaves.
    pub residual: Outcome<ResidualResult, ToricRefusal>,
}

/// A refraction that is left, at the spectacle plane, with a cylinder that is zero or negative.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ResidualResult {
    /// Sphere.
    pub sphere_d: Diopters,
    /// Cylinder.
    pub cylinder_d: Diopters,
    /// Axis; nothing where there is no cylinder.
    pub axis_degrees: Option<f64>,
    /// Spherical equivalent.
    pub spherical_equivalent_d: Diopters,
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

impl ToricResult {
    pub(super) fn of(plan: &Plan) -> Self {
        let toric = &plan.toric;
        let planned = toric.planned(plan.draft.lens.formula).ok();
        let at_cornea = planned.and_then(|planned| {
            Some(planned.at_corneal_plane(planned.chosen?.choice.cylinder.diopters()))
        });
        let formulas = toric.formulas.iter();
        let certainty = |step: &StepCertainty| StepCertaintyResult::of(step, planned);
        let rotations = toric.rotations.iter();
        Self {
            cornea: CorneaResult::of(&toric.terms, toric),
            spreads: SpreadsResult::of(toric),
            formulas: formulas
                .map(|column| ToricFormula {
                    formula: column.formula,
                    outcome: Outcome::of(&column.answer, ToricAnswer::of),
                })
                .collect(),
            steps: toric.steps.iter().map(certainty).collect(),
            chosen: toric.chosen.as_ref().map(certainty),
            rotations: rotations
                .map(|turn| RotationResult::of(turn, at_cornea))
                .collect(),
            no_better_than_none_from_degrees: planned
                .zip(at_cornea)
                .and_then(|(planned, lens)| no_better_from(planned.net.cylinder(), lens)),
            steep_incision: Outcome::of(&toric.alternative, SteepIncision::of),
        }
    }

    /// What a formula says.
    #[must_use]
    pub fn formula(&self, formula: Formula) -> Option<&Outcome<ToricAnswer, ToricRefusal>> {
        let found = self.formulas.iter().find(|one| one.formula == formula);
        found.map(|found| &found.outcome)
    }
}

impl CorneaResult {
    fn of(terms: &KnownTerms, toric: &ToricPlan) -> Self {
        let total = toric.cornea.as_ref().ok().map(CornealTerms::total);
        Self {
            cautions: toric.cautions.clone(),
            front: Outcome::of(&terms.front, |front| {
                VectorResult::of(front.at_standard_index())
            }),
            posterior: Outcome::of(&terms.posterior, PosteriorResult::of),
            incision: Outcome::of(&terms.incision, IncisionResult::of),
            total: Outcome::of(&toric.cornea, |terms| VectorResult::of(terms.total())),
            orientation: total.and_then(|total| Some(Orientation::of(total.steep_degrees()?))),
        }
    }
}

impl VectorResult {
    fn of(vector: DoubleAngle) -> Self {
        Self {
            cylinder_d: vector.cylinder(),
            steep_degrees: vector.steep_degrees(),
        }
    }
}

impl PosteriorResult {
    fn of(term: &PosteriorTerm) -> Self {
        Self {
            basis: term.basis,
            adds: VectorResult::of(term.astigmatism),
            largest_lens_cylinder_d: term.largest_lens_cylinder,
        }
    }
}

impl IncisionResult {
    fn of(term: &IncisionTerm) -> Self {
        Self {
            basis: match term.basis {
                IncisionBasis::Surgeon(own) => Basis::Surgeon { eyes: own.eyes() },
                IncisionBasis::Published => Basis::Published,
            },
            direction_degrees: term.direction,
            adds: VectorResult::of(term.astigmatism),
            scatter_d: term.scatter,
        }
    }
}

impl SpreadsResult {
    fn of(toric: &ToricPlan) -> Self {
        let incision = toric.terms.incision.as_ref().ok();
        Self {
            keratometry_d: toric.spreads.keratometry,
            keratometry_measured: toric.measured_spreads.keratometry,
            posterior_d: toric.spreads.posterior,
            posterior_measured: toric.measured_spreads.posterior,
            incision_d: incision.map(|term| term.scatter),
            rotation_degrees: toric.spreads.rotation_degrees,
        }
    }
}

impl ToricAnswer {
    fn of(answer: &ToricPrediction) -> Self {
        let chosen = answer.chosen.as_ref();
        Self {
            cornea: VectorResult::of(answer.net),
            best_axis_degrees: answer.best_axis_degrees,
            suggested_axis_degrees: answer.suggested_axis,
            exact_cylinder_d: answer.exact.cylinder,
            plane_ratio: answer.exact.ratio,
            steps: answer.steps.iter().map(ToricStep::of).collect(),
            chosen: chosen.map(ToricStep::of_chosen),
            chosen_off_axis_degrees: chosen.and_then(|step| step.off_axis_degrees),
        }
    }
}

impl ToricStep {
    fn of(step: &StepResult) -> Self {
        Self {
            cylinder_d: step.cylinder,
            axis_degrees: step.axis,
            overcorrects: step.overcorrects,
            residual: Outcome::of(&step.outcome, ResidualResult::of),
        }
    }

    fn of_chosen(step: &ChosenStep) -> Self {
        Self {
            cylinder_d: Some(step.choice.cylinder),
            axis_degrees: Some(step.choice.axis),
            overcorrects: step.overcorrects,
            residual: Outcome::of(&step.outcome, ResidualResult::of),
        }
    }
}

impl ResidualResult {
    fn of(residual: &Residual) -> Self {
        let written = residual.spectacles();
        Self {
            sphere_d: written.sphere,
            cylinder_d: written.cylinder,
            axis_degrees: residual
                .left()
                .steep_degrees()
                .map(|_| written.axis_degrees),
            spherical_equivalent_d: residual.spherical_equivalent(),
        }
    }
}

impl StepCertaintyResult {
    fn of(step: &StepCertainty, planned: Option<&ToricPrediction>) -> Self {
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
    fn of(turn: &Rotation, at_cornea: Option<Diopters>) -> Self {
        Self {
            turn_degrees: turn.degrees,
            counter_clockwise: ResidualResult::of(&turn.counter_clockwise),
            clockwise: ResidualResult::of(&turn.clockwise),
            added_error_d: at_cornea.map(|lens| added_by_turn(lens, turn.degrees)),
        }
    }
}

impl SteepIncision {
    fn of(moved: &AlternativePlan) -> Self {
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
