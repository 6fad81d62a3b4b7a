//! The clinic's own results with a lens, as stored.

use serde::{Deserialize, Serialize};

use super::lens_plan::Formula;
use crate::calendar::Day;
use crate::case_file::error::ContentError;
use crate::lens;
use crate::quantity::{Diopters, OutOfRange};

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ClinicResult {
    formula: Formula,
    eyes: u32,
    deviation_d: f64,
    on: Day,
}

impl ClinicResult {
    pub(super) fn from_domain(result: &lens::ClinicResult) -> Self {
        Self {
            formula: result.formula.into(),
            eyes: result.eyes,
            deviation_d: result.deviation.d(),
            on: Day(result.on),
        }
    }

    fn into_domain(self) -> Result<lens::ClinicResult, OutOfRange> {
        lens::ClinicResult {
            formula: self.formula.into(),
            eyes: self.eyes,
            deviation: Diopters::new(self.deviation_d),
            on: self.on.0,
        }
        .checked()
    }

    /// The results of one record; two of one formula would leave open which counts.
    pub(super) fn all_into_domain(
        stored: Vec<Self>,
    ) -> Result<Vec<lens::ClinicResult>, ContentError> {
        let mut results: Vec<lens::ClinicResult> = Vec::new();
        for result in stored {
            let result = result.into_domain()?;
            if results.iter().any(|known| known.formula == result.formula) {
                return Err(ContentError::ResultTwice {
                    formula: result.formula.name(),
                });
            }
            results.push(result);
        }
        Ok(results)
    }
}
