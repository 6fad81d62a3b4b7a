//! The last of three outcomes: no answer exists, and why.

use serde::{Deserialize, Serialize};

use crate::quantity::{Diopters, Millimeters};

/// Why a formula gives no answer for an eye.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, thiserror::Error)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
#[error("{self:?}")]
pub enum Refusal {
    /// A measurement the formula needs was not made.
    NotMeasured { what: Needed },
    /// A constant the formula needs is not in the lens record.
    NoConstant { what: NeededConstant },
    /// SRK/T's corneal height does not exist for this cornea.
    NoCornealHeight {
        width: Millimeters,
        radius: Millimeters,
    },
    /// The predicted lens position is not between cornea and retina.
    LensOutsideEye {
        lens_position: Millimeters,
        optical_length: Millimeters,
    },
    /// Light comes to a focus where none can be.
    NoRealImage {
        /// The target refraction or lens power asked for.
        at: Diopters,
    },
    /// No equiconvex lens of the stated thickness and index has this power.
    NoSuchLens { power: Diopters },
    /// A formula for normal corneas met one that was operated on.
    CorneaOperated,
    /// A method for operated corneas met one that was not, or was operated on in another way.
    OtherSurgery { to: MadeFor },
    /// An ultrasound length met constants for optical biometry, and nobody chose that.
    UltrasoundLength,
    /// The axial length is recorded with a method that measures none.
    LengthMethod,
    /// The measured length cannot stand as it is.
    UncorrectedSiliconeOil,
}

/// A measurement that a formula needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Needed {
    AxialLength,
    Keratometry,
    ChamberDepth,
    LensThickness,
    /// Corneal thickness, without which a depth from the endothelium is none from the epithelium.
    ThicknessForDepth,
    /// Back surface of a cornea that was operated on.
    BackSurface,
    Correction,
    KeratometryBefore,
}

/// What a formula needs of the lens record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum NeededConstant {
    A,
    PersonalizedAcd,
    SurgeonFactor,
    Haigis,
    /// Index and thickness of the optic.
    Optic,
}

/// Corneal surgery that a method is made for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MadeFor {
    Myopic,
    /// Laser for myopia or hyperopia.
    MyopicOrHyperopic,
}
