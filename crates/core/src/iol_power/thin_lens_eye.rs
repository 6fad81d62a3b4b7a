#![doc = include_str!("thin_lens_eye.md")]

use super::Refusal;
use crate::optics::{vergence, vertex};
use crate::quantity::{Diopters, Millimeters, Number};

/// The reference text of the one vergence calculation.
pub const REFERENCE: &str = include_str!("thin_lens_eye.md");

/// Refractive index of aqueous and vitreous, 1.336, in every formula here.
pub const AQUEOUS_INDEX: f64 = 1.336;

/// What a thin-lens formula makes of an eye: three numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThinLensEye<N = f64> {
    /// Optical length L: axial length with whatever the formula adds to it.
    pub optical_length: Millimeters<N>,
    /// Effective lens position d, behind the corneal plane.
    pub lens_position: Millimeters<N>,
    /// Corneal power Kc at the index the formula uses.
    pub corneal_power: Diopters<N>,
}

impl<N: Number> ThinLensEye<N> {
    /// Lens power that leaves `refraction` at the spectacle plane.
    ///
    /// # Errors
    ///
    /// [`Refusal::LensOutsideEye`] unless 0 < d < L; [`Refusal::NoRealImage`] if light would come
    /// to a focus before it reaches the lens.
    pub fn power_for(&self, refraction: Diopters<N>) -> Result<Diopters<N>, Refusal> {
        let image_d = self.vergence_to_retina()?;
        let no_image = |_| Refusal::NoRealImage {
            at: refraction.plain(),
        };
        let at_cornea = vertex::to_cornea(refraction).map_err(no_image)?;
        let behind_cornea = at_cornea + self.corneal_power;
        let at_lens = vergence::forwards(behind_cornea, self.lens_position, AQUEOUS_INDEX)
            .map_err(no_image)?;
        Ok(image_d - at_lens)
    }

    /// Refraction at the spectacle plane that a lens of `power` leaves; undoes [`Self::power_for`].
    ///
    /// # Errors
    ///
    /// [`Refusal::LensOutsideEye`] unless 0 < d < L; [`Refusal::NoRealImage`] if the far point
    /// would lie between lens and spectacles.
    pub fn refraction_with(&self, power: Diopters<N>) -> Result<Diopters<N>, Refusal> {
        let image_d = self.vergence_to_retina()?;
        let no_image = |_| Refusal::NoRealImage { at: power.plain() };
        let at_lens = image_d - power;
        let behind_cornea =
            vergence::backwards(at_lens, self.lens_position, AQUEOUS_INDEX).map_err(no_image)?;
        vertex::to_spectacle(behind_cornea - self.corneal_power).map_err(no_image)
    }

    /// Vergence that must leave the lens to focus on the retina: `1000·n/(L − d)`.
    fn vergence_to_retina(&self) -> Result<Diopters<N>, Refusal> {
        let behind_mm = (self.optical_length - self.lens_position).mm();
        let is_behind = 0.0 < behind_mm.plain() && behind_mm.plain() < f64::INFINITY;
        if self.lens_position.mm().plain() > 0.0 && is_behind {
            return Ok(Diopters::new(N::of(1000.0 * AQUEOUS_INDEX) / behind_mm));
        }
        Err(Refusal::LensOutsideEye {
            lens_position: self.lens_position.plain(),
            optical_length: self.optical_length.plain(),
        })
    }
}
