//! The last of three outcomes: no answer exists, and why.

use core::fmt;

use serde::{Deserialize, Serialize};

use crate::quantity::{Diopters, Millimeters};

/// Why a formula gives no answer for an eye.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, thiserror::Error)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Refusal {
    /// A measurement the formula needs was not made.
    #[error("{what} is missing")]
    NotMeasured {
        /// The measurement.
        what: Needed,
    },
    /// A constant the formula needs is not in the lens record.
    #[error("{what} is missing in the lens record")]
    NoConstant {
        /// The constant.
        what: NeededConstant,
    },
    /// SRK/T's corneal height does not exist for this cornea.
    #[error(
        "computed corneal width {width:.2} exceeds twice the corneal radius {radius:.2}: \
         the corneal height has no real value"
    )]
    NoCornealHeight {
        /// Computed corneal width.
        width: Millimeters,
        /// Corneal radius.
        radius: Millimeters,
    },
    /// The predicted lens position is not between cornea and retina.
    #[error("predicted lens position {lens_position} is not inside the eye of {optical_length}")]
    LensOutsideEye {
        /// Predicted lens position.
        lens_position: Millimeters,
        /// Optical length.
        optical_length: Millimeters,
    },
    /// Light comes to a focus where none can be.
    #[error("no real image for {at}")]
    NoRealImage {
        /// The target refraction or lens power asked for.
        at: Diopters,
    },
    /// No equiconvex lens of the stated thickness and index has this power.
    #[error("no lens of the assumed shape has {power}")]
    NoSuchLens {
        /// The power asked for.
        power: Diopters,
    },
    /// A formula for normal corneas met one that was operated on.
    #[error("made for corneas without refractive surgery; this one had it")]
    CorneaOperated,
    /// A method for operated corneas met one that was not, or was operated on in another way.
    #[error("applies only after {to} corneal surgery")]
    OtherSurgery {
        /// What it applies to.
        to: MadeFor,
    },
    /// An ultrasound length met constants for optical biometry, and nobody chose that.
    #[error(
        "axial length is ultrasound's, the lens constants are for optical biometry: \
         how to combine them is not chosen"
    )]
    UltrasoundLength,
    /// The axial length is recorded with a method that measures none.
    #[error("axial length is recorded with a method that measures none")]
    LengthMethod,
    /// The measured length cannot stand as it is.
    #[error("axial length through silicone oil was not corrected for it")]
    UncorrectedSiliconeOil,
}

/// A measurement that a formula needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Needed {
    /// Axial length.
    AxialLength,
    /// Keratometry.
    Keratometry,
    /// Anterior chamber depth.
    ChamberDepth,
    /// Lens thickness.
    LensThickness,
    /// Back surface of a cornea that was operated on.
    BackSurface,
    /// Correction made by corneal surgery.
    Correction,
    /// Keratometry before corneal surgery.
    KeratometryBefore,
}

/// What a formula needs of the lens record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum NeededConstant {
    /// A constant.
    A,
    /// Personalized ACD.
    PersonalizedAcd,
    /// Surgeon factor.
    SurgeonFactor,
    /// The three constants of Haigis.
    Haigis,
    /// Index and thickness of the optic.
    Optic,
}

/// Corneal surgery that a method is made for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MadeFor {
    /// Laser for myopia.
    Myopic,
    /// Laser for myopia or hyperopia.
    MyopicOrHyperopic,
}

impl fmt::Display for Needed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::AxialLength => "axial length",
            Self::Keratometry => "keratometry",
            Self::ChamberDepth => "anterior chamber depth",
            Self::LensThickness => "lens thickness",
            Self::BackSurface => "posterior surface of the cornea after refractive surgery",
            Self::Correction => "correction made by the corneal surgery",
            Self::KeratometryBefore => "keratometry before the corneal surgery",
        })
    }
}

impl fmt::Display for NeededConstant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::A => "A constant",
            Self::PersonalizedAcd => "pACD constant",
            Self::SurgeonFactor => "surgeon factor",
            Self::Haigis => "Haigis constant a0, a1 or a2",
            Self::Optic => "index or thickness of the optic",
        })
    }
}

impl fmt::Display for MadeFor {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Myopic => "myopic laser",
            Self::MyopicOrHyperopic => "myopic or hyperopic laser",
        })
    }
}
