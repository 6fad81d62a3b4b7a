//! Computed numbers in a unit type: `f64` unless a formula is computed in another [`Number`].

use core::fmt;
use core::ops::{Add, Mul, Neg, Sub};

use super::Number;

macro_rules! computed_unit {
    ($(#[$doc:meta])* $name:ident, $getter:ident, $getter_doc:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
        #[serde(transparent)]
        pub struct $name<N = f64>(N);

        impl<N> $name<N> {
            /// Wraps a number that is already in this unit.
            pub const fn new(value: N) -> Self {
                Self(value)
            }
        }

        impl<N: Copy> $name<N> {
            #[doc = $getter_doc]
            pub const fn $getter(self) -> N {
                self.0
            }
        }

        impl<N: Number> $name<N> {
            /// As a plain number, for messages.
            pub fn plain(self) -> $name {
                $name(self.0.plain())
            }
        }

        impl $name {
            /// The same in another kind of number, depending on no input.
            pub fn lift<N: Number>(self) -> $name<N> {
                $name(N::of(self.0))
            }
        }

        impl<N: Number> Add for $name<N> {
            type Output = Self;

            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl<N: Number> Sub for $name<N> {
            type Output = Self;

            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl<N: Number> Neg for $name<N> {
            type Output = Self;

            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl<N: Number> Mul<f64> for $name<N> {
            type Output = Self;

            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
    };
}

computed_unit!(Diopters, d, "The number of diopters.");

computed_unit!(Millimeters, mm, "The number of millimeters.");

impl Diopters {
    /// The nearest hundredth of a diopter, for comparing a computed power with an exact limit: two
    /// roundings on the way from a radius must not decide on which side of a limit an eye lies.
    ///
    /// Nothing for a number that is not finite or no power.
    pub fn nearest_hundredth(self) -> Option<super::HundredthDiopters> {
        let hundredths = (self.0 * 100.0).round();
        if hundredths.abs() <= 1e8 {
            #[expect(clippy::cast_possible_truncation, reason = "checked to lie within i32")]
            return Some(super::HundredthDiopters::new(hundredths as i32));
        }
        None
    }
}

impl Diopters {
    /// How far two computed powers are apart, in whole hundredths. Nothing for numbers that are no
    /// powers.
    pub fn apart(self, other: Self) -> Option<super::HundredthDiopters> {
        Self((self.0 - other.0).abs()).nearest_hundredth()
    }
}

impl Millimeters {
    /// The nearest micrometer, for comparing a computed length with an exact limit.
    ///
    /// Nothing for a number that is not finite or no length.
    pub fn nearest_micrometer(self) -> Option<super::Micrometers> {
        let um = (self.0 * 1000.0).round();
        if um.abs() <= 1e9 {
            #[expect(clippy::cast_possible_truncation, reason = "checked to lie within i32")]
            return Some(super::Micrometers::new(um as i32));
        }
        None
    }
}

impl fmt::Display for Diopters {
    /// With sign and unit: `+21.37 D`. Two decimals unless the caller asks otherwise; zero has
    /// the sign `+`, also when the number was a tiny negative one.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} D", signed(self.0, f.precision().unwrap_or(2)))
    }
}

impl fmt::Display for Millimeters {
    /// With unit: `4.93 mm`. Two decimals unless the caller asks otherwise.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let digits = f.precision().unwrap_or(2);
        let text = signed(self.0, digits);
        write!(f, "{} mm", text.strip_prefix('+').unwrap_or(&text))
    }
}

/// Rounded text with a sign always, real minus; a number that rounds to zero is `+0.00`.
fn signed(value: f64, digits: usize) -> String {
    let text = format!("{:.digits$}", value.abs());
    let is_zero = text.bytes().all(|byte| byte == b'0' || byte == b'.');
    let sign = if value < 0.0 && !is_zero {
        '\u{2212}'
    } else {
        '+'
    };
    format!("{sign}{text}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_power_has_a_sign_and_a_unit() {
        assert_eq!(Diopters::new(21.374).to_string(), "+21.37 D");
        assert_eq!(Diopters::new(-0.5).to_string(), "\u{2212}0.50 D");
        assert_eq!(Diopters::new(-0.004).to_string(), "+0.00 D");
        assert_eq!(
            format!("{:.3}", Millimeters::new(-0.25)),
            "\u{2212}0.250 mm"
        );
        assert_eq!(Millimeters::new(4.931).to_string(), "4.93 mm");
    }
}
