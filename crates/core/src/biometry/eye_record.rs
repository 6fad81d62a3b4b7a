//! What is recorded of one eye: what follows from it, and an earlier operation.

use serde::{Deserialize, Serialize};
use serde_with::{serde_as, skip_serializing_none};

use super::{CornealThickness, EyeRecord, Refraction};
use crate::iol_power::Formula;
use crate::quantity::{HundredthDiopters, Micrometers, Text, ThousandthDiopters};

/// A cataract operation this eye already had.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EarlierOperation {
    /// Power of the implanted lens.
    #[serde_as(as = "Text")]
    pub lens_power: HundredthDiopters,
    pub predicted: Refraction,
    pub achieved: Refraction,
    pub formula: Option<Formula>,
    /// Model of the implanted lens, as printed on the box.
    pub lens_model: Option<String>,
    /// Whether the operation was complicated, which makes its error no guide.
    pub complicated: Option<bool>,
}

impl EarlierOperation {
    /// Prediction error: achieved less predicted, of the spherical equivalents.
    pub fn prediction_error(&self) -> ThousandthDiopters {
        self.achieved.spherical_equivalent() - self.predicted.spherical_equivalent()
    }
}

impl EyeRecord {
    /// Corneal thickness without its circumstances.
    pub fn thickness(&self) -> Option<CornealThickness> {
        self.corneal_thickness
            .as_ref()
            .map(|measured| measured.value)
    }

    /// Chamber depth from the epithelium, where it is known or follows from the thickness.
    pub fn depth_from_epithelium(&self) -> Option<Micrometers> {
        self.chamber_depth
            .as_ref()?
            .value
            .from_epithelium(self.thickness())
    }

    /// Aqueous depth, where it is known or follows from the thickness.
    pub fn aqueous_depth(&self) -> Option<Micrometers> {
        self.chamber_depth.as_ref()?.value.aqueous(self.thickness())
    }

    /// Whether anything at all was measured or seen of this eye.
    pub fn is_blank(&self) -> bool {
        *self == Self::default()
    }
}
