//! The last of three outcomes: no answer exists, and why.

use crate::quantity::{Diopters, Millimeters};

/// Why a formula gives no answer for an eye.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// A measurement the formula needs was not made.
    #[error("needs the {what}, which was not measured")]
    NotMeasured {
        /// The measurement, in the field's standard term.
        what: &'static str,
    },
    /// A constant the formula needs is not in the lens record.
    #[error("needs the {what} of the lens, which its record does not give")]
    NoConstant {
        /// The constant.
        what: &'static str,
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
        to: &'static str,
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
