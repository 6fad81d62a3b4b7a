//! Corneal thickness, diameter and back surface.

use core::fmt;

super::measured_length!(
    /// Central corneal thickness (CCT).
    ThicknessLength,
    "corneal thickness",
    200..=1_000,
    "\"540 µm\""
);

/// Central corneal thickness (CCT), shown in micrometers as the trade does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CornealThickness(ThicknessLength);

impl CornealThickness {
    /// Checks that an instrument can have reported this.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](crate::quantity::OutOfRange) outside 200 to 1000 µm.
    pub fn new(length: crate::quantity::Micrometers) -> Result<Self, crate::quantity::OutOfRange> {
        ThicknessLength::new(length).map(Self)
    }

    /// The exact length.
    #[must_use]
    pub const fn get(self) -> crate::quantity::Micrometers {
        self.0.get()
    }
}

impl fmt::Display for CornealThickness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} µm", self.get().um())
    }
}

impl core::str::FromStr for CornealThickness {
    type Err = crate::quantity::MeasureError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        text.parse().map(Self)
    }
}

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
