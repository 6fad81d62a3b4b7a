//! Exact measured numbers.

use core::fmt;
use core::ops::{Add, Sub};

use super::{Diopters, MeasureError, Millimeters, OutOfRange, decimal, number_before_unit};

/// A measured length: a whole number of micrometers.
///
/// ```
/// use millrace_core::quantity::Micrometers;
///
/// assert_eq!(Micrometers::new(23_450).to_string(), "23.45 mm");
/// assert_eq!(Micrometers::new(23_456).to_string(), "23.456 mm");
/// ```
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(transparent)]
pub struct Micrometers(i32);

impl Micrometers {
    pub const fn new(um: i32) -> Self {
        Self(um)
    }

    pub const fn um(self) -> i32 {
        self.0
    }

    /// The same length as a computed number.
    ///
    /// Divides by 1000 instead of multiplying by 0.001, so that 23 450 µm and the literal
    /// `23.45` are the same `f64`.
    pub fn millimeters(self) -> Millimeters {
        Millimeters::new(f64::from(self.0) / 1000.0)
    }

    /// How far two lengths are apart.
    #[must_use]
    pub const fn abs_diff(self, other: Self) -> Self {
        Self((self.0 - other.0).abs())
    }
}

impl Add for Micrometers {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Micrometers {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Micrometers {
    /// Reads "23.45 mm", "23,45 mm" or "540 µm" (also "um") exactly.
    pub fn parse(
        text: &str,
        quantity: &'static str,
        example: &'static str,
    ) -> Result<Self, MeasureError> {
        let number = |text: &str, decimals| {
            decimal::parse(text, decimals)
                .map(Self)
                .map_err(|error| MeasureError::Number { quantity, error })
        };
        if let Some(text) = number_before_unit(text, "mm") {
            return number(text, 3);
        }
        // The micro sign, the Greek letter that looks the same, and the letter on every keyboard.
        for unit in ["µm", "μm", "um"] {
            if let Some(text) = number_before_unit(text, unit) {
                return number(text, 0);
            }
        }
        Err(MeasureError::Unit {
            quantity,
            text: text.trim().to_owned(),
            example,
        })
    }
}

impl fmt::Display for Micrometers {
    /// In millimeters with two decimals, three when needed.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", decimal::write(self.0, 3, 2))
    }
}

/// A labeled or measured power: a whole number of hundredths of a diopter.
///
/// Shown always with its sign, since a lost sign has put the wrong lens into an eye. Corneal
/// power, which is never negative, is shown by its own type.
///
/// ```
/// use millrace_core::quantity::HundredthDiopters;
///
/// assert_eq!(HundredthDiopters::new(2_150).to_string(), "+21.50 D");
/// assert_eq!(HundredthDiopters::new(-25).to_string(), "\u{2212}0.25 D");
/// assert_eq!(HundredthDiopters::new(0).to_string(), "+0.00 D");
/// ```
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(transparent)]
pub struct HundredthDiopters(i32);

impl HundredthDiopters {
    /// A power of so many hundredths of a diopter.
    pub const fn new(hundredths: i32) -> Self {
        Self(hundredths)
    }

    /// The number of hundredths of a diopter.
    pub const fn hundredths(self) -> i32 {
        self.0
    }

    /// Its size without a sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// The same power as a computed number.
    pub fn diopters(self) -> Diopters {
        Diopters::new(f64::from(self.0) / 100.0)
    }
}

impl Add for HundredthDiopters {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for HundredthDiopters {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl HundredthDiopters {
    /// Reads "+21.50 D" or "−0,25 D" exactly.
    pub fn parse(text: &str, quantity: &'static str) -> Result<Self, MeasureError> {
        let number = number_before_unit(text, "D").ok_or_else(|| MeasureError::Unit {
            quantity,
            text: text.trim().to_owned(),
            example: "\"-0.25 D\"",
        })?;
        let hundredths =
            decimal::parse(number, 2).map_err(|error| MeasureError::Number { quantity, error })?;
        Ok(Self(hundredths))
    }
}

impl core::str::FromStr for HundredthDiopters {
    type Err = MeasureError;

    /// Reads a power that an eye or a lens can have, −100 to +100 D.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let power = Self::parse(text, "power")?;
        let limits = [Self(-10_000), Self(10_000)];
        if limits[0] <= power && power <= limits[1] {
            return Ok(power);
        }
        Err(OutOfRange::new("power", power, limits).into())
    }
}

impl core::str::FromStr for Micrometers {
    type Err = MeasureError;

    /// Reads a length that a part of an eye or an instrument can have, 0 to 100 mm.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let length = Self::parse(text, "length", "\"2.80 mm\"")?;
        let limits = [Self(0), Self(100_000)];
        if limits[0] <= length && length <= limits[1] {
            return Ok(length);
        }
        Err(OutOfRange::new("length", length, limits).into())
    }
}

impl fmt::Display for HundredthDiopters {
    /// With sign, two decimals and unit.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "" } else { "+" };
        write!(f, "{sign}{} D", decimal::write(self.0, 2, 2))
    }
}

/// An exact difference or mean of powers that can be finer than what is labeled: a whole number of
/// thousandths of a diopter.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(transparent)]
pub struct ThousandthDiopters(i32);

impl ThousandthDiopters {
    /// A power of so many thousandths of a diopter.
    pub const fn new(thousandths: i32) -> Self {
        Self(thousandths)
    }

    /// The number of thousandths of a diopter.
    pub const fn thousandths(self) -> i32 {
        self.0
    }

    /// Its size without a sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    pub fn diopters(self) -> Diopters {
        // Divided, as hundredths are: a whole number of hundredths is the same `f64` by both ways.
        Diopters::new(f64::from(self.0) / 1000.0)
    }
}

impl From<HundredthDiopters> for ThousandthDiopters {
    fn from(power: HundredthDiopters) -> Self {
        Self(10 * power.0)
    }
}

impl Sub for ThousandthDiopters {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl fmt::Display for ThousandthDiopters {
    /// With sign and unit, two decimals, three where they are needed.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "" } else { "+" };
        write!(f, "{sign}{} D", decimal::write(self.0, 3, 2))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// In `f64`, 22.10 − 21.40 is 0.7000000000000028: one of 200 pairs in 1000 that would cross a
    /// limit of 0.70 mm by rounding alone. Whole micrometers do not.
    #[test]
    fn a_difference_at_the_limit_stays_at_the_limit() {
        let limit = Micrometers::new(700);
        for um in (20_000..30_000).step_by(10) {
            let shorter = Micrometers::new(um);
            let longer = Micrometers::new(um + 700);
            assert_eq!(longer.abs_diff(shorter), limit);
        }
    }

    #[test]
    fn no_eye_has_a_negative_length_or_a_power_of_hundreds() {
        let message = |text: &str| text.parse::<Micrometers>().unwrap_err().to_string();
        assert_eq!(
            message("-0.02 mm"),
            "length \u{2212}0.02 mm is outside 0.00 mm to 100.00 mm"
        );
        assert!("100 mm".parse::<Micrometers>().is_ok());
        assert!("100.001 mm".parse::<Micrometers>().is_err());
        let message = |text: &str| text.parse::<HundredthDiopters>().unwrap_err().to_string();
        assert_eq!(
            message("+225 D"),
            "power +225.00 D is outside \u{2212}100.00 D to +100.00 D"
        );
        assert!("-100 D".parse::<HundredthDiopters>().is_ok());
    }

    #[test]
    fn conversion_gives_the_nearest_double() {
        for (um, mm) in [(23_450, 23.45), (7_130, 7.13), (-200, -0.2), (1, 0.001)] {
            assert_eq!(Micrometers::new(um).millimeters(), Millimeters::new(mm));
        }
        assert_eq!(
            HundredthDiopters::new(-2_575).diopters(),
            Diopters::new(-25.75)
        );
    }

    #[test]
    fn hundredths_are_the_same_double_in_thousandths() {
        for hundredths in -10_000..=10_000 {
            let power = HundredthDiopters::new(hundredths);
            let finer = ThousandthDiopters::from(power);
            assert_eq!(
                finer.diopters().d().to_bits(),
                power.diopters().d().to_bits()
            );
        }
        assert_eq!(
            ThousandthDiopters::new(-1_625).to_string(),
            "\u{2212}1.625 D"
        );
        assert_eq!(ThousandthDiopters::new(250).to_string(), "+0.25 D");
    }
}
