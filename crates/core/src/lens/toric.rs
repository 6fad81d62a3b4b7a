//! The cylinders a toric lens is made in.

use serde::{Deserialize, Serialize};
use serde_with::serde_as;

use crate::quantity::{HundredthDiopters, Meridian, OutOfRange, Text, checked_when_read};

/// Which power the label of a toric lens names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PowerLabel {
    /// The mean of both meridians.
    SphericalEquivalent,
    /// The meridian of least power, the one the marks stand on.
    WeakestMeridian,
}

/// Cylinders at the lens plane, rising, and what the labeled power means beside them.
#[serde_as]
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct ToricSteps {
    label: PowerLabel,
    #[serde_as(as = "Vec<Text>")]
    cylinders: Vec<HundredthDiopters>,
}

checked_when_read!(ToricSteps, ToricSteps::check);

/// A cylinder chosen for an eye, and the meridian its marks are to stand on.
#[serde_as]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct ToricChoice {
    /// Cylinder at the lens plane, as labeled.
    #[serde_as(as = "Text")]
    pub cylinder: HundredthDiopters,
    /// Meridian of the marks (ISO 8429).
    pub axis: Meridian,
}

checked_when_read!(ToricChoice, |it: &ToricChoice| it.check());

impl ToricChoice {
    /// A cylinder some toric lens could have; whether the chosen one has it is a rule's business.
    fn check(self) -> Result<(), OutOfRange> {
        let limits = [ToricSteps::SMALLEST, ToricSteps::LARGEST];
        if limits[0] <= self.cylinder && self.cylinder <= limits[1] {
            return Ok(());
        }
        Err(OutOfRange::new("chosen cylinder", self.cylinder, limits))
    }
}

/// Cylinders that are none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ToricStepsError {
    /// A toric lens without a cylinder.
    #[error("a toric lens needs at least one cylinder")]
    None,
    /// Cylinders out of order or repeated.
    #[error("cylinders of a toric lens must rise: {cylinder} does not")]
    NotRising {
        /// The cylinder that is not over the one in front of it.
        cylinder: HundredthDiopters,
    },
    /// A cylinder no implant has.
    #[error(
        "cylinder {cylinder} of a toric lens is outside {} to {}",
        ToricSteps::SMALLEST,
        ToricSteps::LARGEST
    )]
    OutOfRange { cylinder: HundredthDiopters },
}

impl ToricSteps {
    /// Smallest cylinder accepted (house value).
    pub const SMALLEST: HundredthDiopters = HundredthDiopters::new(1);
    /// Largest cylinder accepted (house value).
    pub const LARGEST: HundredthDiopters = HundredthDiopters::new(2_000);

    /// Checks that the cylinders are positive and rise.
    pub fn new(
        cylinders: Vec<HundredthDiopters>,
        label: PowerLabel,
    ) -> Result<Self, ToricStepsError> {
        let steps = Self { label, cylinders };
        steps.check().map(|()| steps)
    }

    fn check(&self) -> Result<(), ToricStepsError> {
        let cylinders = &self.cylinders;
        if cylinders.is_empty() {
            return Err(ToricStepsError::None);
        }
        for &cylinder in cylinders {
            if cylinder < Self::SMALLEST || Self::LARGEST < cylinder {
                return Err(ToricStepsError::OutOfRange { cylinder });
            }
        }
        for (&earlier, &cylinder) in cylinders.iter().zip(cylinders.iter().skip(1)) {
            if cylinder <= earlier {
                return Err(ToricStepsError::NotRising { cylinder });
            }
        }
        Ok(())
    }

    /// The cylinders, rising.
    pub fn cylinders(&self) -> &[HundredthDiopters] {
        &self.cylinders
    }

    /// What the labeled power means.
    pub const fn label(&self) -> PowerLabel {
        self.label
    }

    /// Whether the lens is made with this cylinder.
    pub fn contains(&self, cylinder: HundredthDiopters) -> bool {
        self.cylinders.contains(&cylinder)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steps(cylinders: &[i32]) -> Result<ToricSteps, ToricStepsError> {
        let cylinders = cylinders.iter().copied().map(HundredthDiopters::new);
        ToricSteps::new(cylinders.collect(), PowerLabel::SphericalEquivalent)
    }

    #[test]
    fn cylinders_are_positive_and_rise() {
        let made = steps(&[1, 150, 2_000]).unwrap();
        assert!(made.contains(HundredthDiopters::new(150)));
        assert!(!made.contains(HundredthDiopters::new(151)));
        let message = |cylinders: &[i32]| steps(cylinders).unwrap_err().to_string();
        assert_eq!(message(&[]), "a toric lens needs at least one cylinder");
        assert_eq!(
            message(&[150, 150]),
            "cylinders of a toric lens must rise: +1.50 D does not"
        );
        assert_eq!(
            message(&[225, 150]),
            "cylinders of a toric lens must rise: +1.50 D does not"
        );
        for (cylinder, text) in [
            (0, "+0.00 D"),
            (-150, "\u{2212}1.50 D"),
            (2_001, "+20.01 D"),
        ] {
            assert_eq!(
                message(&[cylinder]),
                format!("cylinder {text} of a toric lens is outside +0.01 D to +20.00 D")
            );
        }
    }
}
