//! The quick way: a prediction and its exact derivatives by every source of error.

use super::{Dual, ErrorSource, Errors, NoSpread, SOURCES, Spreads};
use crate::iol_power::{EyeModel, Formula, FormulaInputs, Refusal};
use crate::quantity::Diopters;

/// A prediction as a linear function of the errors.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Linear {
    pub refraction: Diopters,
    /// Its derivatives: D per mm or D per D, in the order of [`ErrorSource::ALL`].
    pub slopes: [f64; SOURCES],
}

fn variables() -> Errors<Dual> {
    Errors(core::array::from_fn(Dual::error_of))
}

/// The eye of a formula with its derivatives, ready for any lens.
pub(super) fn eye(formula: Formula, inputs: &FormulaInputs) -> Result<EyeModel<Dual>, Refusal> {
    let errors = variables();
    errors.eye(formula, &errors.inputs(inputs))
}

impl Linear {
    /// The prediction for a lens of `power`.
    pub fn at(formula: Formula, inputs: &FormulaInputs, power: Diopters) -> Result<Self, Refusal> {
        Self::in_eye(&eye(formula, inputs)?, power)
    }

    pub(super) fn in_eye(eye: &EyeModel<Dual>, power: Diopters) -> Result<Self, Refusal> {
        let refraction = variables().refraction(eye, power)?.d();
        Ok(Self {
            refraction: Diopters::new(refraction.value()),
            slopes: *refraction.gradient(),
        })
    }

    pub fn slope(&self, source: ErrorSource) -> f64 {
        self.slopes.get(source as usize).copied().unwrap_or(0.0)
    }

    /// Variance that one source makes, D². A source that the prediction does not depend on makes
    /// none, whether or not its spread is known.
    pub fn variance_by(&self, source: ErrorSource, spreads: &Spreads) -> Result<f64, NoSpread> {
        let slope = self.slope(source);
        if slope == 0.0 {
            return Ok(0.0);
        }
        let deviation_d = slope * spreads.get(source)?.deviation;
        Ok(deviation_d * deviation_d)
    }

    /// Variance of the prediction, D²: the sources are taken as independent.
    pub fn variance(&self, spreads: &Spreads) -> Result<f64, NoSpread> {
        ErrorSource::ALL
            .into_iter()
            .map(|source| self.variance_by(source, spreads))
            .sum()
    }
}
