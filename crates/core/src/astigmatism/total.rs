//! Astigmatism of the cornea after the operation: front, back and incision, each kept.

use super::{
    AnteriorAstigmatism, IncisionTerm, PosteriorChoice, PosteriorTerm, ToricCaution, ToricRefusal,
};
use crate::biometry::{CornealSurgery, EyeRecord, Side};
use crate::case::ApproachPlan;
use crate::iol_power::Formula;
use crate::optics::{DoubleAngle, PowerVector};

/// The terms of the corneal astigmatism.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornealTerms {
    /// The front.
    pub front: AnteriorAstigmatism,
    /// The back.
    pub posterior: PosteriorTerm,
    /// The incision.
    pub incision: IncisionTerm,
    not_recorded: [Option<ToricCaution>; 2],
}

impl CornealTerms {
    /// The terms for an eye and an incision as planned.
    ///
    /// # Errors
    ///
    /// [`ToricRefusal`], naming what is missing or why such a cornea has no answer.
    pub fn of(
        eye: &EyeRecord,
        choice: Option<PosteriorChoice>,
        approach: &ApproachPlan,
        side: Side,
    ) -> Result<Self, ToricRefusal> {
        let keratometry = eye.keratometry.as_ref().ok_or(ToricRefusal::Missing {
            what: "keratometry, which was not measured",
        })?;
        if eye.state.irregular_cornea == Some(true) {
            return Err(ToricRefusal::IrregularCornea);
        }
        if let Some(CornealSurgery::Done { .. }) = eye.state.corneal_surgery {
            return Err(ToricRefusal::OperatedCornea);
        }
        let front = AnteriorAstigmatism::of(&keratometry.value)?;
        let back = eye
            .posterior_astigmatism
            .as_ref()
            .map(|measured| measured.value);
        let regular = eye.state.irregular_cornea.is_some();
        let untouched = eye.state.corneal_surgery.is_some();
        Ok(Self {
            front,
            posterior: PosteriorTerm::of(choice, back, front.at_standard_index())?,
            incision: IncisionTerm::of(approach, side)?,
            not_recorded: [
                (!regular).then_some(ToricCaution::IrregularityNotRecorded),
                (!untouched).then_some(ToricCaution::CornealSurgeryNotRecorded),
            ],
        })
    }

    /// The same cornea with another incision.
    #[must_use]
    pub const fn with_incision(self, incision: IncisionTerm) -> Self {
        Self { incision, ..self }
    }

    /// Front and back at index 1.3375, as before the operation.
    #[must_use]
    pub fn before_incision(&self) -> DoubleAngle {
        self.front.at_standard_index() + self.posterior.astigmatism
    }

    /// The sum at index 1.3375, as shown; each formula has its own index.
    #[must_use]
    pub fn total(&self) -> DoubleAngle {
        self.before_incision() + self.incision.astigmatism
    }

    /// The cornea after the operation as a formula sees it; nothing for formulas that do not
    /// take the power of a single front surface.
    #[must_use]
    pub fn cornea_for(&self, formula: Formula) -> Option<PowerVector> {
        let front = self
            .front
            .cornea(|radius| formula.corneal_power_of(radius))?;
        let added = self.posterior.astigmatism + self.incision.astigmatism;
        Some((front.double_angle() + added).power_vector(front.m))
    }

    /// What is dubious.
    #[must_use]
    pub fn cautions(&self) -> Vec<ToricCaution> {
        let inexact = (!self.front.is_exact()).then_some(ToricCaution::MeridiansNotExact);
        self.not_recorded
            .into_iter()
            .flatten()
            .chain(inexact)
            .chain(self.posterior.caution())
            .chain(self.incision.cautions())
            .collect()
    }
}
