//! The kinds of number a formula can be computed in.
//!
//! Every formula is written once, over [`Number`]. With `f64` it gives the plan; with
//! [`Dual`](crate::certainty::Dual) the exact derivatives by its inputs; with
//! [`Lanes`](crate::certainty::Lanes) several drawn eyes at once.

use core::fmt::Debug;
use core::ops::{Add, Div, Mul, Neg, Sub};

/// A number, a number with its derivatives, or several numbers side by side.
pub trait Number:
    Copy
    + Debug
    + PartialEq
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
    + Add<f64, Output = Self>
    + Sub<f64, Output = Self>
    + Mul<f64, Output = Self>
    + Div<f64, Output = Self>
{
    /// A number that depends on no input.
    #[must_use]
    fn of(value: f64) -> Self;

    /// A plain number that stands for this one in a message.
    #[must_use]
    fn plain(self) -> f64;

    /// Square root; NaN below zero.
    #[must_use]
    fn sqrt(self) -> Self;

    /// Tangent of an angle in degrees.
    #[must_use]
    fn tan_degrees(self) -> Self;

    /// Whether every plain number in it passes.
    #[must_use]
    fn all(self, test: impl Fn(f64) -> bool) -> bool;

    /// Whether any plain number in it passes.
    #[must_use]
    fn any(self, test: impl Fn(f64) -> bool) -> bool {
        !self.all(|value| !test(value))
    }

    /// One of two values, for each plain number by its own test.
    #[must_use]
    fn pick(self, test: impl Fn(f64) -> bool, passing: Self, failing: Self) -> Self;
}

impl Number for f64 {
    fn of(value: f64) -> Self {
        value
    }

    fn plain(self) -> f64 {
        self
    }

    fn sqrt(self) -> Self {
        Self::sqrt(self)
    }

    fn tan_degrees(self) -> Self {
        super::math::tan_degrees(self)
    }

    fn all(self, test: impl Fn(Self) -> bool) -> bool {
        test(self)
    }

    fn pick(self, test: impl Fn(Self) -> bool, passing: Self, failing: Self) -> Self {
        if test(self) { passing } else { failing }
    }
}
