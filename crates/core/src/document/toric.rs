//! Astigmatism: the terms of the cornea, every cylinder by every formula, and how sure they are.

use serde::{Deserialize, Serialize};

use super::Outcome;
use super::toric_certainty::{RotationResult, SpreadsResult, SteepIncision, StepCertaintyResult};
use crate::astigmatism::rotation::no_better_from;
use crate::astigmatism::{
    ChosenStep, CornealTerms, IncisionBasis, IncisionTerm, KnownTerms, Orientation, PosteriorBasis,
    PosteriorTerm, Residual, StepResult, ToricCaution, ToricPrediction, ToricRefusal,
};
use crate::iol_power::Formula;
use crate::optics::DoubleAngle;
use crate::plan::{Plan, StepCertainty, ToricPlan};
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
    /// Standard deviation of each component at twice the angle, as observed by keratometry.
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
    pub(super) fn of(vector: DoubleAngle) -> Self {
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
    pub(super) fn of(residual: &Residual) -> Self {
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
