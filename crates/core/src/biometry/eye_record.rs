//! Everything recorded of one eye.

use core::convert::Infallible;

use super::{
    AxialLength, ChamberDepth, CornealDiameter, CornealThickness, EndothelialDensity, EyeState,
    Keratometry, LensThickness, Measured, PosteriorAstigmatism, PosteriorRadius, PupilDiameter,
};
use crate::iol_power::Formula;
use crate::quantity::{HundredthDiopters, Micrometers};

/// The measurements and the state of one eye.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct EyeRecord {
    /// Axial length.
    pub axial_length: Option<Measured<AxialLength>>,
    /// Keratometry; its spread is of the mean power.
    pub keratometry: Option<Measured<Keratometry, HundredthDiopters>>,
    /// Keratometry by another method, to compare; no formula takes it.
    pub second_keratometry: Option<Measured<Keratometry, HundredthDiopters>>,
    /// Anterior chamber depth with the surface it starts from.
    pub chamber_depth: Option<Measured<ChamberDepth>>,
    /// Lens thickness.
    pub lens_thickness: Option<Measured<LensThickness>>,
    /// Corneal thickness.
    pub corneal_thickness: Option<Measured<CornealThickness>>,
    /// Corneal diameter.
    pub corneal_diameter: Option<Measured<CornealDiameter>>,
    /// Dilated pupil.
    pub pupil: Option<Measured<PupilDiameter>>,
    /// Mean radius of the back of the cornea.
    pub posterior_radius: Option<Measured<PosteriorRadius>>,
    /// Astigmatism of the back of the cornea; its spread is of each double-angle component.
    pub posterior_astigmatism: Option<Measured<PosteriorAstigmatism, HundredthDiopters>>,
    /// Endothelial cell density.
    pub endothelium: Option<Measured<EndothelialDensity, Infallible>>,
    /// What was seen.
    pub state: EyeState,
    /// An earlier cataract operation on this eye and its result.
    pub earlier_operation: Option<EarlierOperation>,
}

/// A cataract operation this eye already had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EarlierOperation {
    /// Power of the implanted lens.
    pub lens_power: HundredthDiopters,
    /// Refraction predicted for that lens.
    pub predicted: HundredthDiopters,
    /// Refraction reached.
    pub achieved: HundredthDiopters,
    /// Formula that predicted it.
    pub formula: Option<Formula>,
    /// Whether the operation was complicated, which makes its error no guide.
    pub complicated: Option<bool>,
}

impl EarlierOperation {
    /// Prediction error: achieved less predicted.
    #[must_use]
    pub fn prediction_error(&self) -> HundredthDiopters {
        self.achieved - self.predicted
    }
}

impl EyeRecord {
    /// Corneal thickness without its circumstances.
    #[must_use]
    pub fn thickness(&self) -> Option<CornealThickness> {
        self.corneal_thickness
            .as_ref()
            .map(|measured| measured.value)
    }

    /// Chamber depth from the epithelium, where it is known or follows from the thickness.
    #[must_use]
    pub fn depth_from_epithelium(&self) -> Option<Micrometers> {
        self.chamber_depth
            .as_ref()?
            .value
            .from_epithelium(self.thickness())
    }

    /// Aqueous depth, where it is known or follows from the thickness.
    #[must_use]
    pub fn aqueous_depth(&self) -> Option<Micrometers> {
        self.chamber_depth.as_ref()?.value.aqueous(self.thickness())
    }

    /// Whether anything at all was measured or seen of this eye.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        *self == Self::default()
    }
}
