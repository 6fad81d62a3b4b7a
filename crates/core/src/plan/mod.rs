//! Everything computed from a draft: the ladder, the backup lenses, the findings, both sides of the
//! approach, how near the pieces come. The desk, the command line and the sheet show this and
//! compute nothing themselves.

mod approach_evidence;
mod backup;
mod certainty;
mod evaluated;
mod power_line;

use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::biometry::Side;
use crate::case::Draft;
use crate::chamber::{ChamberSection, Passage, Proximity, SectionError};
use crate::finding::HardNucleus;
use crate::iol_power::ladder::Ladder;
use crate::iol_power::{EyeModel, Formula, FormulaInputs};
use crate::lens::Place;
use crate::limits::Limits;
use crate::optics::CardinalPoints;
pub use crate::prediction::{
    AlternativePlan, LadderMissing, MeasuredSpreads, OPTICAL_LESS_CONTACT, OPTICAL_LESS_IMMERSION,
    SHOWN_CYLINDERS, StepCertainty, ToricColumn, ToricPlan, formula_inputs, toric_plan,
};
use crate::quantity::Diopters;
use crate::rules::risk::{OddsRatio, RiskPoints, odds_ratios, risk_points};
use crate::rules::{Computed, Facts, Severity, Verdict, proximity_of};
use crate::second_eye::SecondEyeRefinement;
pub use approach_evidence::{Argument, TRIALS, Trial};
pub use backup::{BackupPlan, SulcusPower, SulcusPowers};
pub use certainty::{
    AverageEye, BANDS_SOURCE, Because, DIFFERENCE_SAID, HYPEROPIC, PlanCertainty, PowerCertainty,
    REPEAT_BAND, Repeat, SHOWN_BANDS, STEP_SOURCE, WORTH, plan_certainty,
};
pub use evaluated::{Evaluated, ReasonState};
pub use power_line::PowerLine;

/// The whole plan for one eye.
#[derive(Clone, Debug)]
pub struct Plan {
    pub draft: Draft,
    pub limits: Limits,
    /// The eye that is operated on.
    pub side: Side,
    /// Age on the planned day, whole years.
    pub age: Option<i32>,
    pub inputs: FormulaInputs,
    pub ladder: Result<Ladder, LadderMissing>,
    /// How sure the ladder is; nothing without a ladder.
    pub certainty: Option<PlanCertainty>,
    /// What the first eye's prediction error says, if its operation is recorded.
    pub second_eye: Option<SecondEyeRefinement>,
    /// Cardinal points of the thick-lens eye with the chosen power.
    pub thick_eye: Option<CardinalPoints>,
    /// Astigmatism and toric steps.
    pub toric: ToricPlan,
    /// What is computed of each lens that lies ready.
    pub backups: BTreeMap<Place, BackupPlan>,
    /// Every rule with its verdict, in the order of the registry.
    pub rules: Vec<Evaluated>,
    /// The chamber section, or what is missing for one.
    pub section: Result<ChamberSection, SectionError>,
    /// Filled when a rule or a view first asks.
    proximity: OnceLock<Option<Proximity>>,
    /// What tunnel and capsulorhexis are asked; nothing without a size of the nucleus.
    pub passage: Option<Passage>,
    /// Whether the nucleus counts as hard.
    pub nucleus: HardNucleus,
    /// Risk points of the operation, with what was not recorded for them.
    pub risk: RiskPoints,
    /// Printed odds ratios of capsule rupture, and which of them apply.
    pub odds_ratios: Vec<OddsRatio>,
}

/// Why no plan can be made at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{self:?}")]
pub enum PlanRefused {
    NoEye,
}

impl Plan {
    /// Computes everything from a draft.
    pub fn of(draft: &Draft, limits: &Limits) -> Result<Self, PlanRefused> {
        let side = draft.operation.eye.ok_or(PlanRefused::NoEye)?;
        let facts = Facts::of(draft, side, limits);
        let rules = evaluated::evaluate_all(&facts);
        let nucleus = facts.nucleus();
        let risk = risk_points(&facts);
        let odds_ratios = odds_ratios(&facts);
        let Computed {
            inputs,
            ladder,
            section,
            proximity,
            passage,
            toric,
        } = facts.into_computed();
        let (operated, _) = draft.eyes.split(side);
        let known = ladder.as_ref().ok();
        let second_eye = SecondEyeRefinement::of(draft, side, known, limits);
        let certainty = known
            .and_then(|ladder| plan_certainty(ladder, &inputs, operated.0, &draft.lens, limits));
        let thick_eye = known.and_then(|ladder| thick_eye(draft, ladder));
        let backups = backup::backup_plans(draft, limits);
        Ok(Self {
            side,
            age: draft.age(),
            inputs,
            draft: draft.clone(),
            limits: limits.clone(),
            ladder,
            certainty,
            second_eye,
            thick_eye,
            toric,
            backups,
            rules,
            section,
            proximity,
            passage,
            nucleus,
            risk,
            odds_ratios,
        })
    }

    /// How near pieces and whole nucleus come; nothing without section or size of the nucleus.
    pub fn proximity(&self) -> Option<&Proximity> {
        let found = self.proximity.get_or_init(|| {
            let (operated, _) = self.draft.eyes.split(self.side);
            proximity_of(&self.section, &self.draft, operated.0, &self.limits)
        });
        found.as_ref()
    }

    /// Rules that found something of this severity.
    pub fn findings(&self, severity: Severity) -> impl Iterator<Item = &Evaluated> {
        self.rules.iter().filter(move |evaluated| {
            evaluated.rule.severity == severity && matches!(evaluated.verdict, Verdict::Finding(_))
        })
    }

    /// Rules that could not be evaluated.
    pub fn not_evaluated(&self) -> impl Iterator<Item = &Evaluated> {
        self.rules
            .iter()
            .filter(|evaluated| matches!(evaluated.verdict, Verdict::NotEvaluated(_)))
    }

    /// Whether a finding stands that forbids signing.
    pub fn is_stopped(&self) -> bool {
        self.findings(Severity::Stop).next().is_some()
    }

    /// Whether a published result is about eyes like this one.
    pub fn concerns(&self, argument: &Argument) -> bool {
        let Some(id) = argument.only_when else {
            return true;
        };
        self.rules.iter().any(|evaluated| {
            evaluated.rule.id == id && matches!(evaluated.verdict, Verdict::Finding(_))
        })
    }

    /// Refraction predicted for the chosen power by the formula planned by.
    pub fn predicted_for_chosen(&self) -> Option<Diopters> {
        let lens = &self.draft.lens;
        let ladder = self.ladder.as_ref().ok()?;
        ladder.predicted(lens.formula?, lens.power()?)
    }
}

/// The eye as four surfaces, with the chosen power in it.
fn thick_eye(draft: &Draft, ladder: &Ladder) -> Option<CardinalPoints> {
    let answer = ladder.column(Formula::ThickLens)?.answer.as_ref().ok()?;
    let EyeModel::Thick(eye) = answer.eye else {
        return None;
    };
    let lens = eye.shape.equiconvex(draft.lens.power()?.diopters()).ok()?;
    eye.system_with(&lens).ok()?.cardinal_points().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::biometry::Method;
    use crate::case::SurgeonGrade;
    use crate::chamber::{Nucleus, WorkingPlane};
    use crate::quantity::Micrometers;
    use crate::rules::testing::plan;

    /// A trial of trainees is about eyes that a trainee operates on; one of any eye is about all.
    #[test]
    fn a_trial_concerns_the_eyes_it_is_about() {
        let concerned = |grade| {
            let plan = plan(|draft| draft.0.operation.surgeon = Some(grade));
            TRIALS.map(|argument| (argument.only_when, plan.concerns(&argument)))
        };
        for (only_when, concerns) in concerned(SurgeonGrade::Trainee) {
            // Nothing is recorded of a white or a posterior polar cataract.
            let is_about = only_when.is_none_or(|id| id == "TR-01");
            assert_eq!(concerns, is_about, "{only_when:?}");
        }
        for (only_when, concerns) in concerned(SurgeonGrade::Independent) {
            assert_eq!(concerns, only_when.is_none(), "{only_when:?}");
        }
    }

    /// The model's own example, 8.5 × 4.0 mm at 2.26 mm of aqueous: 8 pieces in the pupil plane have a
    /// margin of −0.03 mm (check value P17). No rule asks for it as shipped.
    #[test]
    fn margins_are_there_when_somebody_asks() {
        let um = Micrometers::new;
        let plan = plan(|draft| {
            draft.set_depth("2.80 mm", Method::Optical);
            draft.set_posterior_radius("6.40 mm");
            draft.0.approach.nucleus = Some(Nucleus::new(um(8_500), um(4_000)).unwrap());
        });
        let at = plan.proximity().unwrap().at(WorkingPlane::Pupil).unwrap();
        let margin = at.of_pieces(8).unwrap().margin.mm();
        assert!((margin + 0.03).abs() < 0.005, "{margin}");
        let without = crate::rules::testing::plan(|draft| draft.0.approach.nucleus = None);
        assert!(without.proximity().is_none());
    }
}
