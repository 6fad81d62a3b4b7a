//! With the rule, against the rule, oblique.

/// Where the steep meridian lies.
///
/// Limits: within 30° of the vertical is with the rule, within 30° of the horizontal against it,
/// the limits included, the rest oblique. The papers whose numbers depend on this do not print
/// their limits in what was read of them; 30° is the customary division (from memory), its use for
/// those numbers an assumption.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Orientation {
    /// Steep within 30° of the vertical.
    WithTheRule,
    /// Steep within 30° of the horizontal.
    AgainstTheRule,
    /// Steep in between.
    Oblique,
}

impl Orientation {
    /// Largest angle from vertical or horizontal, in degrees.
    pub const LIMIT_DEGREES: f64 = 30.0;

    /// By the steep meridian in degrees, more than 0 to 180.
    pub fn of(steep_degrees: f64) -> Self {
        // A meridian read as 60° must not become oblique by the last bit of an arc tangent.
        const ROUNDING_DEGREES: f64 = 1e-9;
        let from_vertical = (steep_degrees - 90.0).abs();
        let limit = Self::LIMIT_DEGREES + ROUNDING_DEGREES;
        if from_vertical <= limit {
            Self::WithTheRule
        } else if 90.0 - from_vertical <= limit {
            Self::AgainstTheRule
        } else {
            Self::Oblique
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_the_limits_and_beyond() {
        use Orientation::{AgainstTheRule, Oblique, WithTheRule};
        for (degrees, expected) in [
            (60.0, WithTheRule),
            (90.0, WithTheRule),
            (120.0, WithTheRule),
            (180.0, AgainstTheRule),
            (1.0, AgainstTheRule),
            (30.0, AgainstTheRule),
            (150.0, AgainstTheRule),
            (59.0, Oblique),
            (31.0, Oblique),
            (121.0, Oblique),
            (149.0, Oblique),
        ] {
            assert_eq!(Orientation::of(degrees), expected, "{degrees}");
        }
    }
}
