//! Axial length (AL).

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
