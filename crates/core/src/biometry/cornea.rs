//! Corneal thickness, diameter and back surface.

use core::fmt;

use crate::quantity::{MeasureError, Micrometers, OutOfRange, stored_as_text};

/// Central corneal thickness (CCT), shown in micrometers as the trade does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CornealThickness(Micrometers);

impl CornealThickness {
    pub const MIN: Micrometers = Micrometers::new(200);
    pub const MAX: Micrometers = Micrometers::new(1_000);

    /// Checks that an instrument can have reported this.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`] outside 200 to 1000 µm.
    pub fn new(length: Micrometers) -> Result<Self, OutOfRange> {
        if Self::MIN <= length && length <= Self::MAX {
            return Ok(Self(length));
        }
        let limits = [Self(Self::MIN), Self(Self::MAX)];
        Err(OutOfRange::new("corneal thickness", Self(length), limits))
    }

    pub const fn get(self) -> Micrometers {
        self.0
    }
}

impl fmt::Display for CornealThickness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} µm", self.0.um())
    }
}

impl core::str::FromStr for CornealThickness {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Ok(Self::new(Micrometers::parse(
            text,
            "corneal thickness",
            "\"540 µm\"",
        )?)?)
    }
}

stored_as_text!(CornealThickness);

super::measured_length!(
    /// Horizontal corneal diameter, white to white (WTW).
    CornealDiameter,
    "corneal diameter",
    7_000..=15_000,
    "\"11.8 mm\""
);

super::measured_length!(
    /// Mean radius of the back of the cornea.
    PosteriorRadius,
    "posterior corneal radius",
    4_000..=10_000,
    "\"6.40 mm\""
);
