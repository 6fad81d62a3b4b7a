//! The keratometric index: the convention by which an instrument turns a corneal radius into a
//! power.
//!
//! # Equation
//!
//! ```text
//! K = 1000·(n − 1) / r     K in D, r in mm
//! ```
//!
//! The same cornea of 7.50 mm is 45.00 D at 1.3375 and 44.20 D at 1.3315: a power without its
//! index is not a measurement.
//!
//! Source: plain optics (derived).

use core::fmt;

use super::{DecimalError, Diopters, Millimeters, Number, decimal};

/// A keratometric index, exact to four decimals.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(try_from = "u16", into = "u16")]
pub struct KeratometricIndex(u16);

/// A text or number that is no keratometric index in use.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum IndexError {
    /// Not a number of at most four decimals.
    #[error("keratometric index: {0}")]
    Number(#[from] DecimalError),
    /// Outside what instruments use.
    #[error("keratometric index {value} is outside 1.3000 to 1.4000")]
    OutOfRange { value: String },
}

impl TryFrom<u16> for KeratometricIndex {
    type Error = IndexError;

    fn try_from(ten_thousandths: u16) -> Result<Self, Self::Error> {
        Self::new(ten_thousandths)
    }
}

impl From<KeratometricIndex> for u16 {
    fn from(index: KeratometricIndex) -> Self {
        index.0
    }
}

impl KeratometricIndex {
    /// 1.3375, at which the formulas named after K take their corneal power.
    pub const STANDARD: Self = Self(13_375);
    pub const MIN: Self = Self(13_000);
    pub const MAX: Self = Self(14_000);

    /// The index of so many ten-thousandths.
    ///
    /// # Errors
    ///
    /// [`IndexError::OutOfRange`] unless it lies in 1.3000 to 1.4000: wide enough for every index
    /// in use, too narrow for a radius or a power typed into the wrong field.
    pub fn new(ten_thousandths: u16) -> Result<Self, IndexError> {
        if (Self::MIN.0..=Self::MAX.0).contains(&ten_thousandths) {
            return Ok(Self(ten_thousandths));
        }
        Err(IndexError::OutOfRange {
            value: decimal::write(i32::from(ten_thousandths), 4, 4),
        })
    }

    /// Reads "1.3375" or "1,3375".
    pub fn parse(text: &str) -> Result<Self, IndexError> {
        let scaled = decimal::parse(text, 4)?;
        let outside = || IndexError::OutOfRange {
            value: decimal::write(scaled, 4, 4),
        };
        Self::new(u16::try_from(scaled).map_err(|_| outside())?)
    }

    pub fn value(self) -> f64 {
        f64::from(self.0) / 10_000.0
    }

    /// 1000·(n − 1), from whole ten-thousandths so that 1.3375 gives 337.5 exactly.
    fn power_of_1_mm(self) -> f64 {
        f64::from(self.0 - 10_000) / 10.0
    }

    /// Power of a cornea of `radius` by this index.
    pub fn power<N: Number>(self, radius: Millimeters<N>) -> Diopters<N> {
        Diopters::new(N::of(self.power_of_1_mm()) / radius.mm())
    }

    /// Radius of a cornea that this index shows as `power`.
    pub fn radius<N: Number>(self, power: Diopters<N>) -> Millimeters<N> {
        Millimeters::new(N::of(self.power_of_1_mm()) / power.d())
    }
}

impl fmt::Display for KeratometricIndex {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&decimal::write(i32::from(self.0), 4, 3))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_indices_in_use() {
        assert!(KeratometricIndex::parse("1.3375").is_ok());
        assert_eq!(
            KeratometricIndex::parse("43.25").unwrap_err().to_string(),
            "keratometric index 43.2500 is outside 1.3000 to 1.4000"
        );
        assert!(KeratometricIndex::parse("1.2999").is_err());
        assert!(KeratometricIndex::parse("1.4001").is_err());
        assert_eq!(
            KeratometricIndex::parse("1,336").unwrap().to_string(),
            "1.336"
        );
    }
}
