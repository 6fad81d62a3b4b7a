//! Everything recorded of one eye.

use serde::{Deserialize, Serialize};
use serde_with::{TryFromInto, serde_as, skip_serializing_none};

use super::flat::{FlatDepth, FlatKeratometry, FlatPosteriorAstigmatism};
use super::{
    AxialLength, ChamberDepth, CornealDiameter, CornealThickness, EndothelialDensity, EyeState,
    Keratometry, LensThickness, Measured, NoSpread, PosteriorAstigmatism, PosteriorRadius,
    PupilDiameter, Refraction,
};
use crate::iol_power::Formula;
use crate::quantity::{HundredthDiopters, Micrometers, Text, ThousandthDiopters};

/// The measurements and the state of one eye.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EyeRecord {
    pub axial_length: Option<Measured<AxialLength>>,
    /// Keratometry; its spread is of the mean power.
    #[serde_as(as = "Option<TryFromInto<FlatKeratometry>>")]
    pub keratometry: Option<Measured<Keratometry, HundredthDiopters>>,
    /// Keratometry by another method, to compare; no formula takes it.
    #[serde_as(as = "Option<TryFromInto<FlatKeratometry>>")]
    pub second_keratometry: Option<Measured<Keratometry, HundredthDiopters>>,
    /// Anterior chamber depth with the surface it starts from.
    #[serde(rename = "anterior_chamber_depth")]
    #[serde_as(as = "Option<TryFromInto<FlatDepth>>")]
    pub chamber_depth: Option<Measured<ChamberDepth>>,
    pub lens_thickness: Option<Measured<LensThickness>>,
    pub corneal_thickness: Option<Measured<CornealThickness>>,
    pub corneal_diameter: Option<Measured<CornealDiameter>>,
    /// Dilated pupil.
    pub pupil: Option<Measured<PupilDiameter>>,
    /// Mean radius of the back of the cornea.
    pub posterior_radius: Option<Measured<PosteriorRadius>>,
    /// Astigmatism of the back of the cornea; its spread is of each double-angle component.
    #[serde_as(as = "Option<TryFromInto<FlatPosteriorAstigmatism>>")]
    pub posterior_astigmatism: Option<Measured<PosteriorAstigmatism, HundredthDiopters>>,
    pub endothelium: Option<Measured<EndothelialDensity, NoSpread>>,
    #[serde(default, skip_serializing_if = "EyeState::is_blank")]
    pub state: EyeState,
    /// An earlier cataract operation on this eye and its result.
    pub earlier_operation: Option<EarlierOperation>,
}

/// A cataract operation this eye already had.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EarlierOperation {
    /// Power of the implanted lens.
    #[serde_as(as = "Text")]
    pub lens_power: HundredthDiopters,
    pub predicted: Refraction,
    pub achieved: Refraction,
    pub formula: Option<Formula>,
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
