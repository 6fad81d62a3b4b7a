//! Lens thickness (LT).

super::measured_length!(
    /// Thickness of the crystalline lens (LT) along the line of sight.
    LensThickness,
    "lens thickness",
    2_000..=8_000,
    "\"4.60 mm\""
);
