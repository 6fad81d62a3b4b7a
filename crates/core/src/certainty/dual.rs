//! A number with its exact derivatives by every source of error (forward differentiation).

use core::ops::{Add, Div, Mul, Neg, Sub};

use super::SOURCES;
use crate::quantity::{Number, math};

/// A value and its partial derivatives, one per source of error.
///
/// Every operation applies the chain rule, so a formula computed in this kind of number gives its
/// exact derivatives, not differences of rounded values. At a join of two branches it gives the
/// derivative of the branch the value lies on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dual {
    value: f64,
    gradient: [f64; SOURCES],
}

impl Dual {
    /// Zero, with derivative 1 by one source: the error of that source itself.
    pub fn error_of(source: usize) -> Self {
        let gradient = core::array::from_fn(|index| if index == source { 1.0 } else { 0.0 });
        Self {
            value: 0.0,
            gradient,
        }
    }

    pub const fn value(&self) -> f64 {
        self.value
    }

    /// The derivatives, in the order of [`ErrorSource::ALL`](super::ErrorSource::ALL).
    pub const fn gradient(&self) -> &[f64; SOURCES] {
        &self.gradient
    }

    /// A function of this number, given its value and its slope here.
    fn chain(self, value: f64, slope: f64) -> Self {
        Self {
            value,
            gradient: self.gradient.map(|partial| partial * slope),
        }
    }

    /// A function of two numbers, given its value and its slope by each.
    fn chain2(self, other: Self, value: f64, [by_self, by_other]: [f64; 2]) -> Self {
        let mut gradient = [0.0; SOURCES];
        let partials = self.gradient.iter().zip(&other.gradient);
        for (slot, (own, others)) in gradient.iter_mut().zip(partials) {
            *slot = own * by_self + others * by_other;
        }
        Self { value, gradient }
    }
}

impl Number for Dual {
    fn of(value: f64) -> Self {
        Self {
            value,
            gradient: [0.0; SOURCES],
        }
    }

    fn plain(self) -> f64 {
        self.value
    }

    fn sqrt(self) -> Self {
        let root = self.value.sqrt();
        self.chain(root, 0.5 / root)
    }

    fn tan_degrees(self) -> Self {
        let tangent = math::tan_degrees(self.value);
        self.chain(tangent, (1.0 + tangent * tangent).to_radians())
    }
}

impl Add for Dual {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        self.chain2(other, self.value + other.value, [1.0, 1.0])
    }
}

impl Sub for Dual {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        self.chain2(other, self.value - other.value, [1.0, -1.0])
    }
}

impl Mul for Dual {
    type Output = Self;

    fn mul(self, other: Self) -> Self {
        let slopes = [other.value, self.value];
        self.chain2(other, self.value * other.value, slopes)
    }
}

impl Div for Dual {
    type Output = Self;

    fn div(self, other: Self) -> Self {
        let quotient = self.value / other.value;
        let slopes = [1.0 / other.value, -quotient / other.value];
        self.chain2(other, quotient, slopes)
    }
}

impl Neg for Dual {
    type Output = Self;

    fn neg(self) -> Self {
        self.chain(-self.value, -1.0)
    }
}

impl Add<f64> for Dual {
    type Output = Self;

    fn add(self, other: f64) -> Self {
        self.chain(self.value + other, 1.0)
    }
}

impl Sub<f64> for Dual {
    type Output = Self;

    fn sub(self, other: f64) -> Self {
        self.chain(self.value - other, 1.0)
    }
}

impl Mul<f64> for Dual {
    type Output = Self;

    fn mul(self, other: f64) -> Self {
        self.chain(self.value * other, other)
    }
}

impl Div<f64> for Dual {
    type Output = Self;

    fn div(self, other: f64) -> Self {
        self.chain(self.value / other, 1.0 / other)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand at x = 2, y = 3: d/dx of (x·y − y/x)·√y is (y + y/x²)·√y = 3.75·√3, and d/dy is
    /// (x − 1/x)·√y + (xy − y/x)/(2√y) = 1.5·√3 + 4.5/(2√3).
    #[test]
    fn the_chain_rule_by_hand() {
        let x = Dual::error_of(0) + 2.0;
        let y = Dual::error_of(1) + 3.0;
        let f = (x * y - y / x) * y.sqrt();
        let root = 3.0_f64.sqrt();
        assert!((f.value() - 4.5 * root).abs() < 1e-12);
        assert!((f.gradient()[0] - 3.75 * root).abs() < 1e-12);
        assert!((f.gradient()[1] - (1.5 * root + 4.5 / (2.0 * root))).abs() < 1e-12);
        assert!(f.gradient()[2].abs() < 1e-15);
    }

    #[test]
    fn the_other_sign_turns_value_and_slope() {
        let negative = -(Dual::error_of(0) + 2.0);
        assert!((negative.value() + 2.0).abs() < 1e-15);
        assert!((negative.gradient()[0] + 1.0).abs() < 1e-15);
    }

    /// tan 45° = 1, with slope (1 + 1)·π/180 per degree.
    #[test]
    fn the_slope_of_the_tangent_is_per_degree() {
        let tangent = (Dual::error_of(0) + 45.0).tan_degrees();
        assert!((tangent.value() - 1.0).abs() < 1e-15);
        assert!((tangent.gradient()[0] - core::f64::consts::PI / 90.0).abs() < 1e-15);
    }
}
