//! An eye of two thin surfaces with an astigmatic cornea, holding a lens at any angle to it.
//!
//! # Equation
//!
//! ```text
//! V' = 1000·n/(L − d) − P        P: the lens as a matrix
//! z  = backwards(V', d) − K      K: the cornea as a matrix
//! R  = z to the spectacle plane  each principal meridian by the equation of the one eye
//! ```
//!
//! One lens position for both meridians: a formula predicts it from the mean of the cornea.
//!
//! Source: plain optics (derived); the equation of the one eye is `iol_power`'s.

use super::propagation::{by_principal_meridians, less};
use crate::evidence::{OPTICS, RECALLED, Source, Standing};
use crate::iol_power::{AQUEOUS_INDEX, Refusal, ThinLensEye};
use crate::lens::PowerLabel;
use crate::optics::{PowerVector, vergence, vertex};
use crate::quantity::{Diopters, Millimeters};

/// How what is left is computed.
pub const SOURCE: Source = Standing::Derived.of(
    OPTICS,
    "meridian by meridian, with the formula's one lens position for both",
);

/// Published ratio of cylinder at the lens plane to cylinder at the corneal plane, smallest and largest.
/// Shown beside the computed one; nothing is computed from it.
pub const PUBLISHED_RATIO: [f64; 2] = [1.3, 2.3];

/// Where that range comes from: which publication was not written down.
pub const PUBLISHED_RATIO_SOURCE: Source = Standing::Memory.of(
    RECALLED,
    "lens-plane to corneal-plane ratio about 1.45, 1.3 to 2.3, rising with axial length and K",
);

/// The eye of a thin-lens formula with both meridians of its cornea.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToricEye {
    /// Optical length L.
    pub optical_length: Millimeters,
    /// Effective lens position d.
    pub lens_position: Millimeters,
    /// The cornea after the operation, at the formula's index.
    pub cornea: PowerVector,
}

/// The cylinder at the lens plane that would leave no astigmatism.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExactCylinder {
    pub cylinder: Diopters,
    /// Cylinder at the lens plane for one diopter at the corneal plane, in this eye with this power.
    pub ratio: f64,
}

/// What an eye is left with, in front of the cornea and at the spectacle plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Refraction {
    /// At the corneal plane.
    pub at_cornea: PowerVector,
    /// At the spectacle plane, 12 mm in front.
    pub at_spectacles: PowerVector,
}

impl ToricEye {
    /// A formula's eye with its cornea replaced.
    pub const fn new(eye: &ThinLensEye, cornea: PowerVector) -> Self {
        Self {
            optical_length: eye.optical_length,
            lens_position: eye.lens_position,
            cornea,
        }
    }

    /// Refraction that a lens leaves.
    pub fn refraction_with(&self, lens: PowerVector) -> Result<Refraction, Refusal> {
        let no_image = |_| Refusal::NoRealImage { at: lens.m };
        let at_lens = less(sphere(self.vergence_to_retina()?), lens);
        let behind_cornea = by_principal_meridians(at_lens, |vergence| {
            vergence::backwards(vergence, self.lens_position, AQUEOUS_INDEX)
        })
        .map_err(no_image)?;
        let at_cornea = less(behind_cornea, self.cornea);
        let at_spectacles =
            by_principal_meridians(at_cornea, vertex::to_spectacle).map_err(no_image)?;
        Ok(Refraction {
            at_cornea,
            at_spectacles,
        })
    }

    /// The lens that leaves a sphere of `refraction` at the spectacle plane and no cylinder.
    pub fn lens_for(&self, refraction: Diopters) -> Result<PowerVector, Refusal> {
        let no_image = |_| Refusal::NoRealImage { at: refraction };
        let at_cornea = vertex::to_cornea(refraction).map_err(no_image)?;
        let behind_cornea = sphere(at_cornea).plus(self.cornea);
        let at_lens = by_principal_meridians(behind_cornea, |vergence| {
            vergence::forwards(vergence, self.lens_position, AQUEOUS_INDEX)
        })
        .map_err(no_image)?;
        Ok(less(sphere(self.vergence_to_retina()?), at_lens))
    }

    /// The cylinder that would leave no astigmatism with a lens labeled `labeled`, in closed form.
    ///
    /// With δ = d/1000n, h = δ·ΔK/2 and S = 2 + 2δ(V − P), V the vergence to the retina, a lens whose
    /// spherical equivalent is P needs C = ΔK·S/2u, u = (1 + √(1 + S²h²))/S (derived). A lens whose
    /// weakest meridian is P is followed from its steep corneal meridian to the flat one.
    pub fn cylinder_for(
        &self,
        labeled: Diopters,
        label: PowerLabel,
    ) -> Result<ExactCylinder, Refusal> {
        let refused = Refusal::NoRealImage { at: labeled };
        let at_lens = self.vergence_to_retina()? - labeled;
        let corneal_d = self.cornea.cylinder_magnitude().d();
        let delta = self.lens_position.mm() / 1000.0 / AQUEOUS_INDEX;
        let shrink = 1.0 + delta * at_lens.d();
        if !(0.0 < shrink && shrink.is_finite()) {
            return Err(refused);
        }
        if label == PowerLabel::WeakestMeridian {
            let behind_steep = Diopters::new(at_lens.d() / shrink);
            let behind_flat = behind_steep - Diopters::new(corneal_d);
            let arriving = vergence::forwards(behind_flat, self.lens_position, AQUEOUS_INDEX)
                .map_err(|_| refused)?;
            let cylinder = at_lens - arriving;
            let ratio = if 0.0 < corneal_d {
                cylinder.d() / corneal_d
            } else {
                shrink * shrink
            };
            return Ok(ExactCylinder { cylinder, ratio });
        }
        let sum = 2.0 * shrink;
        let half = delta * corneal_d / 2.0;
        let u = (1.0 + (1.0 + sum * sum * half * half).sqrt()) / sum;
        let ratio = sum / (2.0 * u);
        Ok(ExactCylinder {
            cylinder: Diopters::new(corneal_d * ratio),
            ratio,
        })
    }

    /// Vergence that must leave the lens: the power that the one eye would need behind a cornea of no
    /// power, for light from afar.
    fn vergence_to_retina(&self) -> Result<Diopters, Refusal> {
        let powerless = ThinLensEye {
            optical_length: self.optical_length,
            lens_position: self.lens_position,
            corneal_power: Diopters::new(0.0),
        };
        powerless.power_for(Diopters::new(0.0))
    }
}

fn sphere(power: Diopters) -> PowerVector {
    let none = Diopters::new(0.0);
    PowerVector {
        m: power,
        j0: none,
        j45: none,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::optics::{DoubleAngle, SpheroCylinder};

    fn eye(corneal_cylinder: f64, steep_degrees: f64) -> ToricEye {
        let astigmatism = DoubleAngle::of(Diopters::new(corneal_cylinder), steep_degrees);
        ToricEye {
            optical_length: Millimeters::new(23.5),
            lens_position: Millimeters::new(5.0),
            cornea: astigmatism.power_vector(Diopters::new(43.5)),
        }
    }

    /// A cornea without astigmatism gives what the one eye gives, to the last bits.
    #[test]
    fn without_astigmatism_it_is_the_one_eye() {
        let plain = ThinLensEye {
            optical_length: Millimeters::new(23.5),
            lens_position: Millimeters::new(5.0),
            corneal_power: Diopters::new(43.5),
        };
        let power = Diopters::new(20.0);
        let left = eye(0.0, 90.0).refraction_with(sphere(power)).unwrap();
        let expected = plain.refraction_with(power).unwrap();
        assert!((left.at_spectacles.m - expected).d().abs() < 1e-12);
        let cylinder = left.at_spectacles.cylinder_magnitude();
        assert_eq!(cylinder, Diopters::new(0.0));
    }

    /// By hand, L 23.5, d 5, emmetropia: for 42.5 D 42.5/(1 − 0.005·42.5/1.336) = 50.53850, so the
    /// lens needs 72.21622 − 50.53850 = 21.67772; for 44.5 D 44.5/(1 − 0.166542) = 53.39201, 18.82421.
    /// The lens is weakest where the cornea is steepest, cylinder 2.85351, ratio 1.42676.
    #[test]
    fn the_lens_is_weakest_where_the_cornea_is_steepest() {
        let eye = eye(2.0, 90.0);
        let lens = eye.lens_for(Diopters::new(0.0)).unwrap();
        let written = lens.minus_cylinder().transposed();
        assert!((written.sphere.d() - 18.824_21).abs() < 5e-6, "{written:?}");
        assert!(
            (written.cylinder.d() - 2.853_51).abs() < 5e-6,
            "{written:?}"
        );
        assert!((written.axis_degrees - 90.0).abs() < 1e-9);
        let exact = eye
            .cylinder_for(lens.m, PowerLabel::SphericalEquivalent)
            .unwrap();
        assert!((exact.cylinder - written.cylinder).d().abs() < 1e-12);
        assert!((exact.ratio - 1.426_76).abs() < 5e-6);
        let exact = eye
            .cylinder_for(written.sphere, PowerLabel::WeakestMeridian)
            .unwrap();
        assert!((exact.cylinder - written.cylinder).d().abs() < 1e-12);
    }

    #[test]
    fn the_exact_cylinder_leaves_none_over_the_whole_range() {
        for tenths in 0..=80 {
            let eye = eye(f64::from(tenths) / 10.0, 37.0);
            for label in [PowerLabel::SphericalEquivalent, PowerLabel::WeakestMeridian] {
                let labeled = Diopters::new(19.0);
                let cylinder = eye.cylinder_for(labeled, label).unwrap().cylinder;
                let sphere = match label {
                    PowerLabel::SphericalEquivalent => labeled - cylinder * 0.5,
                    PowerLabel::WeakestMeridian => labeled,
                };
                let lens = SpheroCylinder {
                    sphere,
                    cylinder,
                    axis_degrees: 37.0,
                };
                let left = eye.refraction_with(lens.power_vector()).unwrap();
                assert!(left.at_spectacles.cylinder_magnitude().d() < 1e-12);
            }
        }
    }

    #[test]
    fn a_lens_outside_the_eye_and_a_focus_on_the_way_are_refused() {
        let mut outside = eye(1.0, 90.0);
        outside.lens_position = Millimeters::new(24.0);
        assert!(matches!(
            outside.refraction_with(sphere(Diopters::new(20.0))),
            Err(Refusal::LensOutsideEye { .. })
        ));
        let at = Diopters::new(400.0);
        let strong = eye(1.0, 90.0);
        assert_eq!(
            strong.refraction_with(sphere(at)),
            Err(Refusal::NoRealImage { at })
        );
        assert_eq!(
            strong.cylinder_for(at, PowerLabel::SphericalEquivalent),
            Err(Refusal::NoRealImage { at })
        );
    }

    /// By hand, as above: a cornea of 42.5 D needs a lens of 21.67772, which gets 1/(1 − 0.1590569) =
    /// 1.1891412 times what leaves the cornea; the ratio of a small cylinder is the square, 1.414057.
    #[test]
    fn a_cornea_without_a_cylinder_has_the_ratio_of_a_small_one() {
        let labeled = Diopters::new(21.677_72);
        for corneal_cylinder in [0.0, 1e-6] {
            let exact = eye(corneal_cylinder, 90.0)
                .cylinder_for(labeled, PowerLabel::WeakestMeridian)
                .unwrap();
            assert!((exact.ratio - 1.414_057).abs() < 5e-6, "{exact:?}");
            assert!(exact.cylinder.d().abs() < 2e-6, "{exact:?}");
        }
    }
}
