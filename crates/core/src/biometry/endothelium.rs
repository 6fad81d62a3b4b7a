//! Endothelial cell density.

use core::fmt;

use crate::quantity::{MeasureError, OutOfRange, decimal, number_before_unit, stored_as_text};

/// Endothelial cell density of the central cornea, whole cells per mm².
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EndothelialDensity(i32);

impl EndothelialDensity {
    /// Checks that a specular microscope can have reported this.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`] outside 100 to 6000 cells/mm².
    pub fn new(per_mm2: i32) -> Result<Self, OutOfRange> {
        if (100..=6_000).contains(&per_mm2) {
            return Ok(Self(per_mm2));
        }
        let unit = |number: i32| format!("{number} cells/mm²");
        Err(OutOfRange::new(
            "endothelial cell density",
            unit(per_mm2),
            [unit(100), unit(6_000)],
        ))
    }

    /// Cells per mm².
    pub const fn per_mm2(self) -> i32 {
        self.0
    }
}

impl fmt::Display for EndothelialDensity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} cells/mm²", self.0)
    }
}

impl core::str::FromStr for EndothelialDensity {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let quantity = "endothelial cell density";
        let number = number_before_unit(text, "cells/mm²")
            .or_else(|| number_before_unit(text, "cells/mm2"))
            .ok_or_else(|| MeasureError::Unit {
                quantity,
                text: text.trim().to_owned(),
                example: "\"2450 cells/mm²\"",
            })?;
        let per_mm2 =
            decimal::parse(number, 0).map_err(|error| MeasureError::Number { quantity, error })?;
        Ok(Self::new(per_mm2)?)
    }
}

stored_as_text!(EndothelialDensity);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_and_refuses() {
        assert_eq!(
            "2450 cells/mm2"
                .parse::<EndothelialDensity>()
                .unwrap()
                .per_mm2(),
            2_450
        );
        assert_eq!(
            "90 cells/mm²"
                .parse::<EndothelialDensity>()
                .unwrap_err()
                .to_string(),
            "endothelial cell density 90 cells/mm² is outside 100 cells/mm² to 6000 cells/mm²"
        );
        assert!("2450".parse::<EndothelialDensity>().is_err());
        assert!("2450.5 cells/mm²".parse::<EndothelialDensity>().is_err());
    }
}
