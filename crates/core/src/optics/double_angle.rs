//! Astigmatism as a vector at twice its angle, so that astigmatisms add.
//!
//! # Equation
//!
//! ```text
//! x = C·cos 2β     y = C·sin 2β     C: cylinder in D, β: steep meridian
//! ```
//!
//! β is the meridian of most power, so an astigmatism of −C at β is one of +C at right angles to it.
//! The components are whole cylinders; those of a [`PowerVector`] are halves: x = 2·J0, y = 2·J45.
//! A vector of this kind carries no mean power: a difference of two meridians has none.
//!
//! Source: Thibos, Wheeler, Horner, Optom Vis Sci 1997;74:367 (printed), the doubling derived.

use core::ops::{Add, Mul, Neg, Sub};

use super::PowerVector;
use crate::quantity::{Diopters, Meridian, math};

/// An astigmatism without its mean power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DoubleAngle {
    /// Component with the steep meridian at 180 (positive) or 90 (negative).
    pub x: Diopters,
    /// Component with the steep meridian at 45 (positive) or 135 (negative).
    pub y: Diopters,
}

/// Below this an astigmatism is rounding, and has no meridian: a billionth of a diopter.
const ROUNDING_D: f64 = 1e-9;

impl DoubleAngle {
    /// No astigmatism.
    pub const ZERO: Self = Self {
        x: Diopters::new(0.0),
        y: Diopters::new(0.0),
    };

    /// An astigmatism of `cylinder`, steepest at `degrees`.
    pub fn of(cylinder: Diopters, degrees: f64) -> Self {
        let doubled = (2.0 * degrees).to_radians();
        Self {
            x: cylinder * math::cos(doubled),
            y: cylinder * math::sin(doubled),
        }
    }

    /// The cylinder, never negative.
    pub fn cylinder(self) -> Diopters {
        let (x, y) = (self.x.d(), self.y.d());
        Diopters::new((x * x + y * y).sqrt())
    }

    /// The steep meridian in degrees, more than 0 to 180; nothing where there is no astigmatism.
    pub fn steep_degrees(self) -> Option<f64> {
        if self.cylinder().d() <= ROUNDING_D {
            return None;
        }
        let degrees = math::atan2(self.y.d(), self.x.d()).to_degrees() / 2.0;
        Some(if 0.0 < degrees {
            degrees
        } else {
            degrees + 180.0
        })
    }

    /// The steep meridian to the nearest whole degree; nothing where there is no astigmatism.
    pub fn steep_meridian(self) -> Option<Meridian> {
        Meridian::nearest(self.steep_degrees()?)
    }

    /// With a mean power.
    pub fn power_vector(self, m: Diopters) -> PowerVector {
        PowerVector {
            m,
            j0: self.x * 0.5,
            j45: self.y * 0.5,
        }
    }

    /// How much of this astigmatism lies along `other`; nothing where `other` has no direction.
    pub fn along(self, other: Self) -> Option<Diopters> {
        let length_d = other.cylinder().d();
        if length_d <= ROUNDING_D {
            return None;
        }
        let product = self.x.d() * other.x.d() + self.y.d() * other.y.d();
        Some(Diopters::new(product / length_d))
    }
}

impl PowerVector {
    /// Its astigmatism, without the mean power.
    pub fn double_angle(self) -> DoubleAngle {
        DoubleAngle {
            x: self.j0 * 2.0,
            y: self.j45 * 2.0,
        }
    }
}

impl Add for DoubleAngle {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            x: self.x + other.x,
            y: self.y + other.y,
        }
    }
}

impl Sub for DoubleAngle {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl Neg for DoubleAngle {
    type Output = Self;

    fn neg(self) -> Self {
        self * -1.0
    }
}

impl Mul<f64> for DoubleAngle {
    type Output = Self;

    fn mul(self, factor: f64) -> Self {
        Self {
            x: self.x * factor,
            y: self.y * factor,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 1 D at 90 less 1 D at 90 is nothing; 1 D at 90 and 1 D at 180 cancel; 1 D at 90 and
    /// 1 D at 45 add as sides of a right angle, √2 D halfway between, at 67.5.
    #[test]
    fn astigmatisms_add_at_twice_the_angle() {
        let of = |cylinder, degrees| DoubleAngle::of(Diopters::new(cylinder), degrees);
        assert_eq!((of(1.0, 90.0) - of(1.0, 90.0)).steep_degrees(), None);
        assert_eq!((of(1.0, 90.0) + of(1.0, 180.0)).steep_degrees(), None);
        let sum = of(1.0, 90.0) + of(1.0, 45.0);
        assert!((sum.cylinder().d() - 2.0_f64.sqrt()).abs() < 1e-12);
        assert!((sum.steep_degrees().unwrap() - 67.5).abs() < 1e-9);
    }

    /// By hand: flattening by 0.3 D at 180 is steepening by 0.3 D at 90.
    #[test]
    fn a_negative_cylinder_is_a_positive_one_at_right_angles() {
        let flattened = DoubleAngle::of(Diopters::new(-0.3), 180.0);
        assert!((flattened.cylinder().d() - 0.3).abs() < 1e-12);
        assert!((flattened.steep_degrees().unwrap() - 90.0).abs() < 1e-9);
    }

    #[test]
    fn the_horizontal_is_written_180() {
        let horizontal = DoubleAngle::of(Diopters::new(1.0), 180.0);
        assert_eq!(horizontal.steep_meridian().unwrap().degrees(), 180);
        let nearly = DoubleAngle::of(Diopters::new(1.0), 0.4);
        assert_eq!(nearly.steep_meridian().unwrap().degrees(), 180);
    }

    /// The power in a meridian is M + J0·cos 2θ + J45·sin 2θ: most at the steep one.
    #[test]
    fn steep_is_where_the_power_is_most() {
        let vector = DoubleAngle::of(Diopters::new(2.0), 30.0).power_vector(Diopters::new(43.0));
        let lens = vector.minus_cylinder();
        assert!((lens.power_in(30.0).d() - 44.0).abs() < 1e-12);
        assert!((lens.power_in(120.0).d() - 42.0).abs() < 1e-12);
        assert_eq!(
            vector.double_angle().along(DoubleAngle::ZERO),
            None,
            "nothing lies along no direction"
        );
    }
}
