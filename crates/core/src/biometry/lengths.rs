//! Measurements that are one length.

use core::fmt;

use crate::quantity::{MeasureError, Micrometers, OutOfRange, stored_as_text};

super::measured_length!(
    /// Axial length (AL): corneal vertex to retina along the line of sight.
    ///
    /// The range is what an instrument can report; whether a value is clinically surprising is a
    /// rule's business.
    AxialLength,
    "axial length",
    14_000..=40_000,
    "\"23.45 mm\""
);

super::measured_length!(
    /// Thickness of the crystalline lens (LT) along the line of sight.
    LensThickness,
    "lens thickness",
    2_000..=8_000,
    "\"4.60 mm\""
);

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

super::measured_length!(
    /// Diameter of the dilated pupil.
    PupilDiameter,
    "pupil diameter",
    500..=12_000,
    "\"7.0 mm\""
);

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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn refuses_with_value_limits_and_unit() {
        let message = |text: &str| text.parse::<AxialLength>().unwrap_err().to_string();
        assert_eq!(
            message("2.35 mm"),
            "axial length 2.35 mm is outside 14.00 mm to 40.00 mm"
        );
        assert_eq!(
            message("23.45"),
            "axial length \"23.45\" needs its unit: write \"23.45 mm\""
        );
        assert_eq!(
            message("23.4x mm"),
            "axial length \"23.4x mm\" needs its unit: write \"23.45 mm\""
        );
        assert_eq!(message("2x3 mm"), "axial length: \"2x3\" is not a number");
        assert_eq!(
            message("23.45678 mm"),
            "axial length: \"23.45678\" has more than 3 decimals"
        );
        for (text, um) in [("23,45 mm", 23_450), ("14.00mm", 14_000), ("40 mm", 40_000)] {
            assert_eq!(text.parse::<AxialLength>().unwrap().get().um(), um);
        }
    }
}
