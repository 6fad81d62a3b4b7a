//! One of many drawn eyes, in a form that the compiler computes several of at once.

use core::ops::{Add, Div, Mul, Neg, Sub};

use super::tally::NO_ANSWER;
use crate::quantity::Number;

/// A plain number of one drawn eye.
///
/// Every operation is a few instructions without a branch or a call, the tangent and the tests too, so
/// that a loop over eyes is compiled into vectors of whatever width the machine has. An eye that fails
/// a test is NaN from there on, and the tally counts it as one without an answer. Every other has the bits that `f64` would have, since the operations
/// are the same in the same order; only the tangent differs from that of `libm`, by up to 8 units in the
/// last place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lane(pub f64);

impl Number for Lane {
    #[inline(always)]
    fn of(value: f64) -> Self {
        Self(value)
    }

    #[inline(always)]
    fn plain(self) -> f64 {
        self.0
    }

    #[inline(always)]
    fn sqrt(self) -> Self {
        Self(self.0.sqrt())
    }

    /// NaN beyond ±83.6°, and the eye has no answer: no cornea and no length in use comes near.
    #[inline(always)]
    fn tan_degrees(self) -> Self {
        Self(tangent(self.0.to_radians()))
    }

    /// Always a number: NaN if the value fails.
    #[inline(always)]
    fn passing(self, test: impl Fn(f64) -> bool) -> Option<Self> {
        let value = if test(self.0) { self.0 } else { NO_ANSWER };
        Some(Self(value))
    }

    /// NaN if this number is NaN, so that a test that failed is not forgotten.
    #[inline(always)]
    fn pick(self, test: impl Fn(f64) -> bool, passing: Self, failing: Self) -> Self {
        let picked = if test(self.0) { passing } else { failing };
        if self.0.is_nan() { self } else { picked }
    }
}

macro_rules! operator {
    ($trait:ident, $method:ident, $operator:tt) => {
        impl $trait for Lane {
            type Output = Self;

            #[inline(always)]
            fn $method(self, other: Self) -> Self {
                Self(self.0 $operator other.0)
            }
        }

        impl $trait<f64> for Lane {
            type Output = Self;

            #[inline(always)]
            fn $method(self, other: f64) -> Self {
                Self(self.0 $operator other)
            }
        }
    };
}

operator!(Add, add, +);
operator!(Sub, sub, -);
operator!(Mul, mul, *);
operator!(Div, div, /);

impl Neg for Lane {
    type Output = Self;

    #[inline(always)]
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

/// Up to here the polynomial gives the tangent, by itself or by the angle's distance from 45°.
const STEEPEST_ANGLE: f64 = 0.67434;
/// 83.6°: 45° and as far again as the polynomial reaches.
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

/// Tangent of angles up to [`LARGEST_ANGLE`]; NaN beyond.
#[inline(always)]
fn tangent(radians: f64) -> f64 {
    let size = radians.abs();
    let is_small = size <= STEEPEST_ANGLE;
    let from_45 = core::f64::consts::FRAC_PI_4 - size;
    let near = if is_small { size } else { from_45 };
    let square = near * near;
    let near = near + near * square * polynomial(square, &TANGENT);
    let far = (1.0 - near) / (1.0 + near);
    let tangent = if is_small { near } else { far }.copysign(radians);
    if size <= LARGEST_ANGLE {
        tangent
    } else {
        NO_ANSWER
    }
}

/// The polynomial whose coefficients rise with the power of `x`, four terms at a time: the processor
/// computes the four while it waits for the sum.
#[inline(always)]
pub(super) fn polynomial<const TERMS: usize>(x: f64, coefficients: &[f64; TERMS]) -> f64 {
    let square = x * x;
    let fourth = square * square;
    let (fours, highest) = coefficients.as_chunks::<4>();
    let mut sum = 0.0;
    for coefficient in highest.iter().rev() {
        sum = sum * x + *coefficient;
    }
    for [one, two, three, four] in fours.iter().rev() {
        let terms = (*one + *two * x) + (*three + *four * x) * square;
        sum = sum * fourth + terms;
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::math;

    /// Against `libm`, whose own error is below one unit in the last place. At 200 digits this
    /// tangent is within 3 units up to 60°, more than the power of any cornea in use, and within 7 up
    /// to its end (by `mpmath`).
    #[test]
    fn the_tangent_is_that_of_libm() {
        for thousandths in -83_630..=83_630 {
            let degrees = f64::from(thousandths) / 1_000.0;
            let expected = math::tan_degrees(degrees);
            let Lane(tangent) = Lane(degrees).tan_degrees();
            let size = expected.abs();
            let unit = f64::from_bits(size.to_bits() + 1) - size;
            let off = (tangent - expected).abs() / unit;
            let bound = if degrees.abs() <= 60.0 { 4.0 } else { 8.0 };
            assert!(off <= bound, "{degrees}: {tangent} {expected}");
        }
    }

    /// 45° and as far again as the polynomial reaches is 83.637°.
    #[test]
    fn there_is_no_tangent_of_steeper_angles() {
        for degrees in [83.64, -83.64, 90.0, 180.0, f64::INFINITY, f64::NAN] {
            assert!(Lane(degrees).tan_degrees().0.is_nan(), "{degrees}");
        }
        assert!(Lane(83.63).tan_degrees().0.is_finite());
    }

    /// By hand, at 3: 1 + 2·3 + 3·9 + 4·27 = 142, with 5·81 + 6·243 = 1863 more 2005; one and two terms.
    #[test]
    fn polynomials_by_hand() {
        assert_eq!(
            polynomial(3.0, &[1.0, 2.0, 3.0, 4.0, 5.0, 6.0]).to_bits(),
            2005.0_f64.to_bits()
        );
        assert_eq!(
            polynomial(3.0, &[1.0, 2.0, 3.0, 4.0]).to_bits(),
            142.0_f64.to_bits()
        );
        assert_eq!(polynomial(3.0, &[7.0]).to_bits(), 7.0_f64.to_bits());
        assert_eq!(polynomial(3.0, &[7.0, -1.0]).to_bits(), 4.0_f64.to_bits());
    }
}
