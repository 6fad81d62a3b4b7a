//! The kinds of number a formula can be computed in.
//!
//! Every formula is written once, over [`Number`]. With `f64` it gives the plan; with
//! [`Dual`](crate::certainty::Dual) the exact derivatives by its inputs.

use core::fmt::Debug;
use core::ops::{Add, Div, Mul, Neg, Sub};

/// A number, or a number with its derivatives.
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
    fn of(value: f64) -> Self;

    fn plain(self) -> f64;

    /// Square root; NaN below zero.
    #[must_use]
    fn sqrt(self) -> Self;

    /// Tangent of an angle in degrees.
    #[must_use]
    fn tan_degrees(self) -> Self;
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
}
