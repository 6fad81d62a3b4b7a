//! The back of the cornea, as stored.

use serde::{Deserialize, Serialize};

use super::eye::Method;
use super::text::Text;
use crate::biometry::{self, Measured};
use crate::calendar::Day;
use crate::case_file::error::ContentError;
use crate::quantity::{HundredthDiopters, Meridian, OutOfRange};

/// Astigmatism of the back of the cornea with its circumstances.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PosteriorAstigmatism {
    magnitude: Text<HundredthDiopters>,
    steep_meridian: u16,
    method: Method,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    spread: Option<Text<HundredthDiopters>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    on: Option<Day>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    by: Option<String>,
}

impl PosteriorAstigmatism {
    pub(super) fn from_domain(
        measured: &Measured<biometry::PosteriorAstigmatism, HundredthDiopters>,
    ) -> Self {
        Self {
            magnitude: Text(measured.value.magnitude()),
            steep_meridian: measured.value.steep().degrees(),
            method: measured.method.into(),
            spread: measured.spread.map(Text),
            on: measured.on.map(Day),
            by: measured.by.clone(),
        }
    }

    pub(super) fn into_domain(
        self,
    ) -> Result<Measured<biometry::PosteriorAstigmatism, HundredthDiopters>, ContentError> {
        let steep = Meridian::new(self.steep_meridian)?;
        if let Some(Text(spread)) = self.spread {
            let limits = [HundredthDiopters::new(1), HundredthDiopters::new(300)];
            if spread < limits[0] || limits[1] < spread {
                let quantity = "spread of the posterior corneal astigmatism";
                return Err(OutOfRange::new(quantity, spread, limits).into());
            }
        }
        Ok(Measured {
            value: biometry::PosteriorAstigmatism::new(self.magnitude.0, steep)?,
            method: self.method.into(),
            spread: self.spread.map(|spread| spread.0),
            on: self.on.map(|day| day.0),
            by: self.by,
        })
    }
}
