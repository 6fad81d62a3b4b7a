//! Astigmatism of the front of the cornea, from its two measured meridians.
//!
//! The steep meridian is the one of the shorter radius, whichever it was entered as. A keratometer
//! reports meridians at right angles or nearly so; within the tolerance of `KM-06` the steep one is
//! taken midway between the measured steep meridian and the one at right angles to the flat one, so
//! that both measurements count alike (derived). Beyond it the cornea is refused.

use super::ToricRefusal;
use crate::biometry::Keratometry;
use crate::optics::{DoubleAngle, PowerVector};
use crate::quantity::{Diopters, KeratometricIndex, Meridian, Millimeters};

/// How far from a right angle the meridians may be, in degrees (assumption); `KM-06` uses it too.
pub const RIGHT_ANGLE_TOLERANCE: u16 = 10;

/// The front of a cornea with two principal meridians at right angles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AnteriorAstigmatism {
    flat_radius: Millimeters,
    steep_radius: Millimeters,
    steep_degrees: f64,
    exact: bool,
}

impl AnteriorAstigmatism {
    /// From keratometry. Radii that are equal to the nearest micrometer have no astigmatism.
    pub fn of(keratometry: &Keratometry) -> Result<Self, ToricRefusal> {
        let (mut flat, mut steep) = (keratometry.flat, keratometry.steep);
        let radius_of = |at: crate::biometry::MeridianReading| at.reading.radius();
        if radius_of(flat) < radius_of(steep) {
            (flat, steep) = (steep, flat);
        }
        let (flat_radius, steep_radius) = (radius_of(flat), radius_of(steep));
        if flat_radius.nearest_micrometer() == steep_radius.nearest_micrometer() {
            let radius = keratometry.mean_radius();
            return Ok(Self {
                flat_radius: radius,
                steep_radius: radius,
                steep_degrees: f64::from(steep.meridian.degrees()),
                exact: true,
            });
        }
        let apart = flat.meridian.apart(steep.meridian);
        if RIGHT_ANGLE_TOLERANCE < 90 - apart {
            return Err(ToricRefusal::NotAtRightAngles { apart });
        }
        Ok(Self {
            flat_radius,
            steep_radius,
            steep_degrees: midway(steep.meridian, flat.meridian.perpendicular()),
            exact: apart == 90,
        })
    }

    /// The whole front as a power, each meridian by `power_of` its radius.
    ///
    /// The astigmatism is that of the powers, not of the radii: the mean power is the mean of both.
    pub fn cornea(
        &self,
        power_of: impl Fn(Millimeters) -> Option<Diopters>,
    ) -> Option<PowerVector> {
        let (flat, steep) = (power_of(self.flat_radius)?, power_of(self.steep_radius)?);
        let astigmatism = DoubleAngle::of(steep - flat, self.steep_degrees);
        Some(astigmatism.power_vector((flat + steep) * 0.5))
    }

    /// The astigmatism at index 1.3375, as keratometry shows it.
    pub fn at_standard_index(&self) -> DoubleAngle {
        let index = KeratometricIndex::STANDARD;
        let difference = index.power(self.steep_radius) - index.power(self.flat_radius);
        DoubleAngle::of(difference, self.steep_degrees)
    }

    /// Whether the measured meridians are exactly at right angles.
    pub const fn is_exact(&self) -> bool {
        self.exact
    }
}

/// Halfway between two meridians that are less than a right angle apart, in degrees.
fn midway(one: Meridian, other: Meridian) -> f64 {
    let one_degrees = f64::from(one.degrees());
    let turn = (f64::from(other.degrees()) - one_degrees + 90.0).rem_euclid(180.0) - 90.0;
    one_degrees + turn / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::biometry::MeridianReading;

    fn cornea(flat: (&str, u16), steep: (&str, u16)) -> Result<AnteriorAstigmatism, ToricRefusal> {
        let at = |(reading, degrees): (&str, u16)| MeridianReading {
            reading: reading.parse().unwrap(),
            meridian: Meridian::new(degrees).unwrap(),
        };
        AnteriorAstigmatism::of(&Keratometry {
            flat: at(flat),
            steep: at(steep),
            readings: None,
            repeat_difference: None,
        })
    }

    fn shown(cornea: &AnteriorAstigmatism) -> (f64, Option<f64>) {
        let astigmatism = cornea.at_standard_index();
        (astigmatism.cylinder().d(), astigmatism.steep_degrees())
    }

    /// By hand: 44.75 − 42.75 = 2.00 D; at Haigis's index 2.00·331.5/337.5 = 1.9644 D.
    #[test]
    fn the_difference_of_the_powers_at_the_steep_meridian() {
        for (flat, steep) in [
            (("42.75 D at 1.3375", 170), ("44.75 D at 1.3375", 80)),
            (("44.75 D at 1.3375", 80), ("42.75 D at 1.3375", 170)),
        ] {
            let cornea = cornea(flat, steep).unwrap();
            let (cylinder_d, degrees) = shown(&cornea);
            assert!((cylinder_d - 2.0).abs() < 1e-9);
            assert!((degrees.unwrap() - 80.0).abs() < 1e-9);
            assert!(cornea.is_exact());
            assert!(cornea.steep_radius < cornea.flat_radius);
            let haigis = crate::iol_power::Formula::Haigis;
            let power = cornea
                .cornea(|radius| haigis.corneal_power_of(radius))
                .unwrap();
            let by_hand_d = 2.0 * 331.5 / 337.5;
            assert!((power.double_angle().cylinder().d() - by_hand_d).abs() < 1e-9);
            assert!((power.m.d() - 43.75 * 331.5 / 337.5).abs() < 1e-9);
        }
    }

    /// By hand: steep 4, flat 88, so the flat one points to 178: midway is 1, across the horizontal.
    #[test]
    fn meridians_nearly_at_right_angles_meet_midway() {
        let cornea = cornea(("42.00 D at 1.3375", 88), ("44.00 D at 1.3375", 4)).unwrap();
        assert!((shown(&cornea).1.unwrap() - 1.0).abs() < 1e-9);
        assert!(!cornea.is_exact());
    }

    #[test]
    fn at_the_tolerance_and_one_degree_beyond() {
        let flat = ("42.00 D at 1.3375", 180);
        for steep in [80, 100] {
            assert!(cornea(flat, ("44.00 D at 1.3375", steep)).is_ok());
        }
        for steep in [79, 101] {
            assert_eq!(
                cornea(flat, ("44.00 D at 1.3375", steep)),
                Err(ToricRefusal::NotAtRightAngles { apart: 79 })
            );
        }
    }

    #[test]
    fn equal_radii_have_no_astigmatism_at_any_meridians() {
        let cornea = cornea(("7.80 mm", 20), ("7.80 mm", 30)).unwrap();
        assert_eq!(shown(&cornea), (0.0, None));
    }
}
