//! The eye a formula built: thin or thick, it answers both ways.

use super::thick_lens::ThickLensEye;
use super::{Refusal, ThinLensEye};
use crate::quantity::{Diopters, Millimeters, Number};

/// The eye a formula built: it answers both ways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EyeModel<N = f64> {
    Thin(ThinLensEye<N>),
    Thick(ThickLensEye<N>),
}

impl<N: Number> EyeModel<N> {
    /// Lens power that leaves `refraction`.
    pub fn power_for(&self, refraction: Diopters<N>) -> Result<Diopters<N>, Refusal> {
        match self {
            Self::Thin(eye) => eye.power_for(refraction),
            Self::Thick(eye) => eye.power_for(refraction),
        }
    }

    /// Refraction that a lens of `power` leaves.
    pub fn refraction_with(&self, power: Diopters<N>) -> Result<Diopters<N>, Refusal> {
        match self {
            Self::Thin(eye) => eye.refraction_with(power),
            Self::Thick(eye) => eye.refraction_with(power),
        }
    }

    /// Predicted lens position: the thin lens, or the center of the thick one.
    pub const fn lens_position(&self) -> Millimeters<N> {
        match self {
            Self::Thin(eye) => eye.lens_position,
            Self::Thick(eye) => eye.lens_center,
        }
    }

    /// The same eye with the lens `forward` of where it was predicted.
    #[must_use]
    pub fn with_lens_forward(self, forward: Millimeters<N>) -> Self {
        match self {
            Self::Thin(eye) => Self::Thin(ThinLensEye {
                lens_position: eye.lens_position - forward,
                ..eye
            }),
            Self::Thick(eye) => Self::Thick(ThickLensEye {
                lens_center: eye.lens_center - forward,
                ..eye
            }),
        }
    }
}
