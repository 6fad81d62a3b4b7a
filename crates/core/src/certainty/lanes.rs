//! Several drawn eyes side by side, computed in one pass.

use core::ops::{Add, Div, Mul, Neg, Sub};

use crate::quantity::{Number, math};

/// How many eyes are computed side by side.
pub const WIDTH: usize = 8;

/// Plain numbers that go through the same formula together.
///
/// Each lane has the bits that `f64` would have: the operations are the same, in the same order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lanes(pub [f64; WIDTH]);

impl Lanes {
    #[inline]
    fn zip(self, other: Self, combine: impl Fn(f64, f64) -> f64) -> Self {
        let mut lanes = self.0;
        for (lane, other) in lanes.iter_mut().zip(other.0) {
            *lane = combine(*lane, other);
        }
        Self(lanes)
    }
}

impl Number for Lanes {
    #[inline]
    fn of(value: f64) -> Self {
        Self([value; WIDTH])
    }

    fn plain(self) -> f64 {
        let [first, ..] = self.0;
        first
    }

    #[inline]
    fn sqrt(self) -> Self {
        Self(self.0.map(f64::sqrt))
    }

    fn tan_degrees(self) -> Self {
        Self(self.0.map(math::tan_degrees))
    }

    #[inline]
    fn all(self, test: impl Fn(f64) -> bool) -> bool {
        // Without an early end the lanes are compared side by side.
        self.0.into_iter().fold(true, |all, lane| all & test(lane))
    }

    #[inline]
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

macro_rules! operator {
    ($trait:ident, $method:ident, $operator:tt) => {
        impl $trait for Lanes {
            type Output = Self;

            #[inline]
            fn $method(self, other: Self) -> Self {
                self.zip(other, |one, other| one $operator other)
            }
        }

        impl $trait<f64> for Lanes {
            type Output = Self;

            #[inline]
            fn $method(self, other: f64) -> Self {
                Self(self.0.map(|one| one $operator other))
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
        Self(self.0.map(|lane| -lane))
    }
}
