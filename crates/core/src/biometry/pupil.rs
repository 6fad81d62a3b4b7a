//! Dilated pupil.

super::measured_length!(
    /// Diameter of the dilated pupil.
    PupilDiameter,
    "pupil diameter",
    500..=12_000,
    "\"7.0 mm\""
);
