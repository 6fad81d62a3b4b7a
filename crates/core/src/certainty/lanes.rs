//! Several drawn eyes side by side, computed in one pass.

use core::ops::{Add, Div, Mul, Neg, Sub};

use crate::quantity::{Number, math};

/// How many eyes are computed side by side.
pub const WIDTH: usize = 8;

/// Plain numbers that go through the same formula together.
///
/// Each lane has the bits that `f64` would have, since the operations are the same in the same order;
/// only the tangent may differ from `libm` in its last two bits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lanes(pub [f64; WIDTH]);

impl Lanes {
    #[inline(always)]
    fn each(self, change: impl Fn(f64) -> f64) -> Self {
        let mut lanes = self.0;
        for lane in &mut lanes {
            *lane = change(*lane);
        }
        Self(lanes)
    }

    #[inline(always)]
    fn zip(self, other: Self, combine: impl Fn(f64, f64) -> f64) -> Self {
        let mut lanes = self.0;
        for (lane, other) in lanes.iter_mut().zip(other.0) {
            *lane = combine(*lane, other);
        }
        Self(lanes)
    }
}

impl Number for Lanes {
    #[inline(always)]
    fn of(value: f64) -> Self {
        Self([value; WIDTH])
    }

    fn plain(self) -> f64 {
        let [first, ..] = self.0;
        first
    }

    #[inline(always)]
    fn sqrt(self) -> Self {
        self.each(f64::sqrt)
    }

    #[inline(always)]
    fn tan_degrees(self) -> Self {
        let radians = self.each(f64::to_radians);
        if radians.all(|radians| radians.abs() <= LARGEST_ANGLE) {
            return tangent(radians);
        }
        self.each(math::tan_degrees)
    }

    #[inline(always)]
    fn all(self, test: impl Fn(f64) -> bool) -> bool {
        // Without an early end the lanes are compared side by side.
        self.0.into_iter().fold(true, |all, lane| all & test(lane))
    }

    #[inline(always)]
    fn pick(self, test: impl Fn(f64) -> bool, passing: Self, failing: Self) -> Self {
        let mut lanes = failing.0;
        for ((lane, this), passing) in lanes.iter_mut().zip(self.0).zip(passing.0) {
            if test(this) {
                *lane = passing;
            }
        }
        Self(lanes)
    }
}

/// Up to here the polynomial gives the tangent, by itself or by the angle's distance from 45°.
const STEEPEST_ANGLE: f64 = 0.67434;
/// A few degrees less than 84°: 45° and as far again as the polynomial reaches.
const LARGEST_ANGLE: f64 = core::f64::consts::FRAC_PI_4 + STEEPEST_ANGLE;

/// Coefficients of x³, x⁵ … x²⁷ of the tangent up to 0.67434 rad.
///
/// Source: `k_tan.c` of FreeBSD's mathematical library, as in the `libm` crate; there the relative
/// error is stated as less than 2^−59.2.
#[expect(clippy::excessive_precision, reason = "as printed in the source")]
const TANGENT: [f64; 13] = [
    3.33333333333334091986e-01,
    1.33333333333201242699e-01,
    5.39682539762260521377e-02,
    2.18694882948595424599e-02,
    8.86323982359930005737e-03,
    3.59207910759131235356e-03,
    1.45620945432529025516e-03,
    5.88041240820264096874e-04,
    2.46463134818469906812e-04,
    7.81794442939557092300e-05,
    7.14072491382608190305e-05,
    -1.85586374855275456654e-05,
    2.59073051863633712884e-05,
];

/// Tangent of angles up to [`LARGEST_ANGLE`], all lanes at once: one function call for each would
/// take as long as a whole formula.
#[inline(always)]
fn tangent(radians: Lanes) -> Lanes {
    let size = radians.each(f64::abs);
    let is_small = |size| size <= STEEPEST_ANGLE;
    let from_45 = -size + core::f64::consts::FRAC_PI_4;
    let near = size.pick(is_small, size, from_45);
    let square = near * near;
    let series = TANGENT
        .iter()
        .rev()
        .fold(Lanes::of(0.0), |sum, coefficient| {
            sum * square + *coefficient
        });
    let near = near + near * square * series;
    let far = (-near + 1.0) / (near + 1.0);
    let tangent = size.pick(is_small, near, far);
    radians.pick(|radians| radians < 0.0, -tangent, tangent)
}

macro_rules! operator {
    ($trait:ident, $method:ident, $operator:tt) => {
        impl $trait for Lanes {
            type Output = Self;

            #[inline(always)]
            fn $method(self, other: Self) -> Self {
                self.zip(other, |one, other| one $operator other)
            }
        }

        impl $trait<f64> for Lanes {
            type Output = Self;

            #[inline(always)]
            fn $method(self, other: f64) -> Self {
                self.each(|one| one $operator other)
            }
        }
    };
}

operator!(Add, add, +);
operator!(Sub, sub, -);
operator!(Mul, mul, *);
operator!(Div, div, /);

impl Neg for Lanes {
    type Output = Self;

    fn neg(self) -> Self {
        self.each(|lane| -lane)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against `libm`, over the angles that corneal powers and Hoffer Q reach, and beyond.
    #[test]
    fn the_tangent_is_that_of_libm() {
        for tenths in -1_200..=1_200 {
            let degrees = f64::from(tenths) / 10.0;
            let expected = math::tan_degrees(degrees);
            let Lanes(tangents) = Lanes::of(degrees).tan_degrees();
            for tangent in tangents {
                let off = (tangent - expected).abs();
                assert!(
                    off <= expected.abs() * 1e-15,
                    "{degrees}: {tangent} {expected}"
                );
            }
        }
    }
}
