//! Astigmatism of the cornea after the operation: front, back and incision, each kept.

use super::{
    AnteriorAstigmatism, Incision, IncisionTerm, PosteriorChoice, PosteriorTerm, ToricCaution,
    ToricNeeds, ToricRefusal,
};
use crate::biometry::{CornealSurgery, EyeRecord, Side};
use crate::iol_power::Formula;
use crate::optics::{DoubleAngle, PowerVector};

/// The terms of the corneal astigmatism.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornealTerms {
    pub front: AnteriorAstigmatism,
    pub posterior: PosteriorTerm,
    pub incision: IncisionTerm,
    not_recorded: [Option<ToricCaution>; 2],
}

/// Each term by itself, or why that one is not known: what can be shown where the sum cannot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnownTerms {
    pub front: Result<AnteriorAstigmatism, ToricRefusal>,
    /// The back; not known where the front is not.
    pub posterior: Result<PosteriorTerm, ToricRefusal>,
    pub incision: Result<IncisionTerm, ToricRefusal>,
    not_recorded: [Option<ToricCaution>; 2],
}

impl KnownTerms {
    /// The terms for an eye and an incision as planned.
    pub fn of(
        eye: &EyeRecord,
        choice: Option<PosteriorChoice>,
        incision: Incision,
        side: Side,
    ) -> Self {
        let front = front(eye);
        let back = eye
            .posterior_astigmatism
            .as_ref()
            .map(|measured| measured.value);
        Self {
            front,
            posterior: front
                .and_then(|front| PosteriorTerm::of(choice, back, front.at_standard_index())),
            incision: IncisionTerm::of(incision, side),
            not_recorded: not_recorded(eye),
        }
    }

    /// What is dubious about those that are known; nothing where the front is not.
    pub fn cautions(&self) -> Vec<ToricCaution> {
        let Ok(front) = &self.front else {
            return Vec::new();
        };
        let inexact = (!front.is_exact()).then_some(ToricCaution::MeridiansNotExact);
        let posterior = self.posterior.iter().filter_map(PosteriorTerm::caution);
        let incision = self.incision.iter().flat_map(IncisionTerm::cautions);
        self.not_recorded
            .into_iter()
            .flatten()
            .chain(inexact)
            .chain(posterior)
            .chain(incision)
            .collect()
    }
}

fn not_recorded(eye: &EyeRecord) -> [Option<ToricCaution>; 2] {
    let regular = eye.state.irregular_cornea.is_some();
    let untouched = eye.state.corneal_surgery.is_some();
    [
        (!regular).then_some(ToricCaution::IrregularityNotRecorded),
        (!untouched).then_some(ToricCaution::CornealSurgeryNotRecorded),
    ]
}

/// The front of a regular, untouched cornea.
fn front(eye: &EyeRecord) -> Result<AnteriorAstigmatism, ToricRefusal> {
    let keratometry = eye.keratometry.as_ref().ok_or(ToricRefusal::Missing {
        what: ToricNeeds::Keratometry,
    })?;
    if eye.state.irregular_cornea == Some(true) {
        return Err(ToricRefusal::IrregularCornea);
    }
    if let Some(CornealSurgery::Done { .. }) = eye.state.corneal_surgery {
        return Err(ToricRefusal::OperatedCornea);
    }
    AnteriorAstigmatism::of(&keratometry.value)
}

impl CornealTerms {
    /// The terms for an eye and an incision as planned.
    pub fn of(
        eye: &EyeRecord,
        choice: Option<PosteriorChoice>,
        incision: Incision,
        side: Side,
    ) -> Result<Self, ToricRefusal> {
        let known = KnownTerms::of(eye, choice, incision, side);
        Ok(Self {
            front: known.front?,
            posterior: known.posterior?,
            incision: known.incision?,
            not_recorded: known.not_recorded,
        })
    }

    /// The same cornea with another incision.
    #[must_use]
    pub const fn with_incision(self, incision: IncisionTerm) -> Self {
        Self { incision, ..self }
    }

    /// Front and back at index 1.3375, as before the operation.
    pub fn before_incision(&self) -> DoubleAngle {
        self.front.at_standard_index() + self.posterior.astigmatism
    }

    /// The sum at index 1.3375, as shown; each formula has its own index.
    pub fn total(&self) -> DoubleAngle {
        self.before_incision() + self.incision.astigmatism
    }

    /// The cornea after the operation as a formula sees it; nothing for formulas that do not
    /// take the power of a single front surface.
    pub fn cornea_for(&self, formula: Formula) -> Option<PowerVector> {
        let front = self
            .front
            .cornea(|radius| formula.corneal_power_of(radius))?;
        let added = self.posterior.astigmatism + self.incision.astigmatism;
        Some((front.double_angle() + added).power_vector(front.m))
    }

    pub fn cautions(&self) -> Vec<ToricCaution> {
        let known = KnownTerms {
            front: Ok(self.front),
            posterior: Ok(self.posterior),
            incision: Ok(self.incision),
            not_recorded: self.not_recorded,
        };
        known.cautions()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_state_of_the_cornea_that_was_not_recorded_is_dubious() {
        let irregularity = ToricCaution::IrregularityNotRecorded;
        let surgery = ToricCaution::CornealSurgeryNotRecorded;
        for (irregular_cornea, corneal_surgery, expected) in [
            (None, None, [Some(irregularity), Some(surgery)]),
            (Some(false), None, [None, Some(surgery)]),
            (
                None,
                Some(CornealSurgery::Absent),
                [Some(irregularity), None],
            ),
            (Some(false), Some(CornealSurgery::Absent), [None, None]),
        ] {
            let mut eye = EyeRecord::default();
            eye.state.irregular_cornea = irregular_cornea;
            eye.state.corneal_surgery = corneal_surgery;
            assert_eq!(not_recorded(&eye), expected);
        }
    }
}
