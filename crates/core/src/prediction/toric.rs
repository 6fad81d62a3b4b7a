//! Astigmatism of the operated eye: the terms of the cornea, what each cylinder leaves by each
//! formula, how sure that is, and the incision on the steep meridian beside it.

use crate::astigmatism::toric::LensOnOffer;
use crate::astigmatism::{
    Alternative, Cloud, CornealTerms, IncisionTerm, KnownTerms, OwnScatter, PosteriorBasis,
    Residual, Rotation, ToricCaution, ToricLens, ToricNeeds, ToricPrediction, ToricRefusal,
    ToricSpreads, incision_on_the_steep_meridian, rotations,
};
use crate::biometry::{EyeRecord, Side};
use crate::case::Draft;
use crate::iol_power::ladder::Ladder;
use crate::iol_power::{Formula, Refusal};
use crate::limits::Limits;
use crate::quantity::{Diopters, HundredthDiopters, Meridian};

/// Cylinders whose chances are shown.
pub const SHOWN_CYLINDERS: [HundredthDiopters; 4] = [
    HundredthDiopters::new(25),
    HundredthDiopters::new(50),
    HundredthDiopters::new(75),
    HundredthDiopters::new(100),
];

#[derive(Clone, Debug)]
pub struct ToricPlan {
    /// Each term by itself, or why that one is not known.
    pub terms: KnownTerms,
    /// Front, back and incision together, or why they are not known.
    pub cornea: Result<CornealTerms, ToricRefusal>,
    pub cautions: Vec<ToricCaution>,
    /// Spreads behind every chance.
    pub spreads: ToricSpreads,
    /// Which of them were measured; the others are the clinic's limits.
    pub measured_spreads: MeasuredSpreads,
    /// What of the observed scatter is the incision's own; nothing without a known incision.
    pub incision_scatter: Option<OwnScatter>,
    /// Every formula of the ladder with the chosen power, the one planned by first.
    pub formulas: Vec<ToricColumn>,
    /// How sure each step is, by the formula planned by; empty where it has no answer.
    pub steps: Vec<StepCertainty>,
    /// How sure the chosen cylinder at the chosen axis is.
    pub chosen: Option<StepCertainty>,
    /// What the chosen cylinder leaves when it turns; empty where that is not known.
    pub rotations: Vec<Rotation>,
    /// The incision on the steep meridian, with a lens without a cylinder.
    pub alternative: Result<AlternativePlan, ToricRefusal>,
}

/// Which spreads come from the measurement of this eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MeasuredSpreads {
    pub keratometry: bool,
    /// Of the posterior cornea.
    pub posterior: bool,
}

#[derive(Clone, Debug)]
pub struct ToricColumn {
    pub formula: Formula,
    pub answer: Result<ToricPrediction, ToricRefusal>,
}

/// How sure a step is.
#[derive(Clone, Debug)]
pub struct StepCertainty {
    /// Its cylinder; nothing for the same power without one.
    pub cylinder: Option<HundredthDiopters>,
    pub axis: Option<Meridian>,
    pub residual: Residual,
    /// The distribution of that.
    pub cloud: Cloud,
    /// Chances of at most [`SHOWN_CYLINDERS`].
    pub chances: [f64; 4],
    /// Chance that it leaves less than the same power without a cylinder.
    pub chance_of_less: Option<f64>,
}

/// The incision on the steep meridian.
#[derive(Clone, Debug)]
pub struct AlternativePlan {
    /// The incision, and the cornea with it.
    pub alternative: Alternative,
    pub cautions: Vec<ToricCaution>,
    /// What is left without a cylinder in the lens, by the formula planned by.
    pub without_cylinder: Result<StepCertainty, ToricRefusal>,
}

impl ToricPlan {
    pub fn answer(&self, formula: Formula) -> Option<&ToricPrediction> {
        let column = self
            .formulas
            .iter()
            .find(|column| column.formula == formula)?;
        column.answer.as_ref().ok()
    }

    /// The answer of the formula planned by.
    pub fn planned(&self, formula: Option<Formula>) -> Result<&ToricPrediction, ToricRefusal> {
        let formula = formula.ok_or(ToricRefusal::Missing {
            what: ToricNeeds::Formula,
        })?;
        let column = self
            .formulas
            .iter()
            .find(|column| column.formula == formula);
        let missing = ToricRefusal::Missing {
            what: ToricNeeds::LensTargetAndFormula,
        };
        column.map_or(Err(missing), |column| {
            column.answer.as_ref().map_err(|refusal| *refusal)
        })
    }
}

pub fn toric_plan(
    draft: &Draft,
    eye: &EyeRecord,
    side: Side,
    ladder: Option<&Ladder>,
    limits: &Limits,
) -> ToricPlan {
    let cornea = CornealTerms::of(eye, draft.lens.posterior, draft.approach.incision(), side);
    let terms = KnownTerms::of(eye, draft.lens.posterior, draft.approach.incision(), side);
    let posterior_basis = cornea.as_ref().ok().map(|terms| terms.posterior.basis);
    let (spreads, measured_spreads) = spreads(eye, posterior_basis, limits);
    // What an incision did was observed by usual keratometry, whatever this eye's own spreads by.
    let usual = limits.toric_keratometry_spread.diopters();
    let own = |term: &IncisionTerm| OwnScatter::of(term.scatter, usual);
    let incision_scatter = terms.incision.as_ref().ok().map(own);
    let columns: Vec<ToricColumn> = planned_first(draft, ladder)
        .into_iter()
        .map(|formula| ToricColumn {
            formula,
            answer: predict(draft, ladder, cornea, formula),
        })
        .collect();
    let planned = draft.lens.formula.and_then(|formula| {
        let column = columns.iter().find(|column| column.formula == formula)?;
        column.answer.as_ref().ok()
    });
    let (mut steps, mut chosen, mut turned) = (Vec::new(), None, Vec::new());
    if let (Some(prediction), Some(scatter), Ok(offer)) = (planned, incision_scatter, offer(draft))
    {
        let judge = Judge {
            prediction,
            offer,
            spreads: &spreads,
            incision_scatter: scatter.counted(),
        };
        steps = judge.steps();
        chosen = judge.chosen();
        turned = judge.rotations(chosen.as_ref());
    }
    let alternative = cornea.and_then(|terms| {
        let alternative = incision_on_the_steep_meridian(&terms, draft.approach.incision(), side)?;
        Ok(AlternativePlan {
            cautions: alternative.terms.cautions(),
            without_cylinder: without_cylinder(
                draft,
                ladder,
                &alternative.terms,
                &spreads,
                own(&alternative.terms.incision).counted(),
            ),
            alternative,
        })
    });
    ToricPlan {
        measured_spreads,
        incision_scatter,
        cautions: cautions(&terms, incision_scatter),
        terms,
        cornea,
        spreads,
        formulas: columns,
        steps,
        chosen,
        rotations: turned,
        alternative,
    }
}

fn cautions(terms: &KnownTerms, incision: Option<OwnScatter>) -> Vec<ToricCaution> {
    let mut cautions = terms.cautions();
    if terms.front.is_ok() && incision == Some(OwnScatter::InKeratometry) {
        cautions.push(ToricCaution::IncisionScatterInKeratometry);
    }
    cautions
}

/// Spreads as measured where they were, else the clinic's. The spread of a measured back says nothing of
/// an estimated one.
fn spreads(
    eye: &EyeRecord,
    posterior_basis: Option<PosteriorBasis>,
    limits: &Limits,
) -> (ToricSpreads, MeasuredSpreads) {
    // A spread of the mean of two meridians is half of that of their difference, if both scatter alike
    // and independently (derived).
    let keratometry = eye
        .keratometry
        .as_ref()
        .and_then(|measured| measured.spread);
    let posterior = eye
        .posterior_astigmatism
        .as_ref()
        .filter(|_| posterior_basis == Some(PosteriorBasis::Measured))
        .and_then(|measured| measured.spread);
    let spreads = ToricSpreads {
        keratometry: keratometry.map_or_else(
            || limits.toric_keratometry_spread.diopters(),
            |mean| mean.diopters() * 2.0,
        ),
        posterior: posterior
            .unwrap_or(limits.toric_posterior_spread)
            .diopters(),
        rotation_degrees: f64::from(limits.toric_rotation_spread),
    };
    let measured = MeasuredSpreads {
        keratometry: keratometry.is_some(),
        posterior: posterior.is_some(),
    };
    (spreads, measured)
}

fn planned_first(draft: &Draft, ladder: Option<&Ladder>) -> Vec<Formula> {
    let on_ladder = ladder.map_or(&[][..], |ladder| &ladder.columns);
    let mut formulas: Vec<_> = on_ladder.iter().map(|column| column.formula).collect();
    // Stable: the others keep the order of every table.
    formulas.sort_by_key(|formula| Some(*formula) != draft.lens.formula);
    formulas
}

fn offer(draft: &Draft) -> Result<LensOnOffer<'_>, ToricRefusal> {
    let missing = |what| ToricRefusal::Missing { what };
    let record = draft.lens.record();
    Ok(LensOnOffer {
        labeled: draft.lens.power().ok_or(missing(ToricNeeds::Power))?,
        steps: record.ok_or(missing(ToricNeeds::Lens))?.toric.as_ref(),
        chosen: draft.lens.toric(),
    })
}

fn predict(
    draft: &Draft,
    ladder: Option<&Ladder>,
    cornea: Result<CornealTerms, ToricRefusal>,
    formula: Formula,
) -> Result<ToricPrediction, ToricRefusal> {
    let column = ladder.and_then(|ladder| ladder.column(formula));
    let answer = column.map(|column| column.answer.as_ref().map_err(|refusal| *refusal));
    let answer = answer.ok_or(ToricRefusal::Missing {
        what: ToricNeeds::FormulaOnLadder,
    })??;
    ToricPrediction::of(formula, &answer.eye, &cornea?, &offer(draft)?)
}

fn without_cylinder(
    draft: &Draft,
    ladder: Option<&Ladder>,
    terms: &CornealTerms,
    spreads: &ToricSpreads,
    incision_scatter: Diopters,
) -> Result<StepCertainty, ToricRefusal> {
    let missing = ToricRefusal::Missing {
        what: ToricNeeds::Formula,
    };
    let formula = draft.lens.formula.ok_or(missing)?;
    let prediction = predict(draft, ladder, Ok(*terms), formula)?;
    let judge = Judge {
        prediction: &prediction,
        offer: offer(draft)?,
        spreads,
        incision_scatter,
    };
    Ok(judge.certainty(None, None)?)
}

/// One prediction with the spreads around it.
struct Judge<'a> {
    prediction: &'a ToricPrediction,
    offer: LensOnOffer<'a>,
    spreads: &'a ToricSpreads,
    incision_scatter: Diopters,
}

impl Judge<'_> {
    fn lens(&self, cylinder: Option<HundredthDiopters>, axis: Option<Meridian>) -> ToricLens {
        let cylinder = cylinder.map_or(Diopters::new(0.0), HundredthDiopters::diopters);
        self.offer.lens(
            cylinder,
            axis.map_or(180.0, |axis| f64::from(axis.degrees())),
        )
    }

    fn cloud(&self, lens: &ToricLens) -> Result<Cloud, Refusal> {
        Cloud::of(
            &self.prediction.eye,
            lens,
            self.spreads,
            self.incision_scatter,
        )
    }

    fn certainty(
        &self,
        cylinder: Option<HundredthDiopters>,
        axis: Option<Meridian>,
    ) -> Result<StepCertainty, Refusal> {
        let lens = self.lens(cylinder, axis);
        let cloud = self.cloud(&lens)?;
        let without = self.cloud(&self.lens(None, None))?;
        let chance_of_less = cylinder.and_then(|_| without.chance_of_less(cloud.mean));
        Ok(StepCertainty {
            cylinder,
            axis,
            residual: Residual {
                refraction: self.prediction.eye.refraction_with(lens.power())?,
            },
            cloud,
            chances: SHOWN_CYLINDERS.map(|limit| cloud.chance_within(limit.diopters())),
            chance_of_less,
        })
    }

    fn steps(&self) -> Vec<StepCertainty> {
        self.prediction
            .steps
            .iter()
            .filter(|step| step.outcome.is_ok())
            .filter_map(|step| self.certainty(step.cylinder, step.axis).ok())
            .collect()
    }

    fn chosen(&self) -> Option<StepCertainty> {
        let chosen = self.prediction.chosen.as_ref()?;
        chosen.outcome.as_ref().ok()?;
        let choice = chosen.choice;
        self.certainty(Some(choice.cylinder), Some(choice.axis))
            .ok()
    }

    fn rotations(&self, chosen: Option<&StepCertainty>) -> Vec<Rotation> {
        let Some(chosen) = chosen else {
            return Vec::new();
        };
        let lens = self.lens(chosen.cylinder, chosen.axis);
        rotations(self.prediction, &lens).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests;
