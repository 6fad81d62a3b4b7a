//! Astigmatism of the back of the cornea, as a tomographer gives it.

use crate::quantity::{HundredthDiopters, Meridian, OutOfRange};

/// Size and place of the astigmatism of the back of the cornea.
///
/// The back has negative power. `steep` is the meridian where that negative power is strongest, as
/// instruments report it, mostly the vertical; there the whole cornea loses most power.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PosteriorAstigmatism {
    pub(super) magnitude: HundredthDiopters,
    pub(super) steep: Meridian,
}

impl PosteriorAstigmatism {
    /// Smallest accepted: the size has no sign.
    pub const MIN: HundredthDiopters = HundredthDiopters::new(0);
    /// Largest accepted (house value).
    pub const MAX: HundredthDiopters = HundredthDiopters::new(500);

    /// Smallest and largest spread accepted (house values).
    pub const SPREAD: [HundredthDiopters; 2] =
        [HundredthDiopters::new(1), HundredthDiopters::new(300)];

    /// Checks that an instrument can have reported this.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`] outside 0 to 5 D.
    pub fn new(magnitude: HundredthDiopters, steep: Meridian) -> Result<Self, OutOfRange> {
        let astigmatism = Self { magnitude, steep };
        astigmatism.check()?;
        Ok(astigmatism)
    }

    pub(super) fn check(self) -> Result<(), OutOfRange> {
        let limits = [Self::MIN, Self::MAX];
        OutOfRange::unless_within("posterior corneal astigmatism", self.magnitude, limits)
    }

    pub const fn magnitude(self) -> HundredthDiopters {
        self.magnitude
    }

    /// The meridian of strongest negative power.
    pub const fn steep(self) -> Meridian {
        self.steep
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn refuses_a_sign_and_what_no_instrument_shows() {
        let new = |hundredths| {
            let steep = Meridian::new(90).unwrap();
            PosteriorAstigmatism::new(HundredthDiopters::new(hundredths), steep)
        };
        assert!(new(0).is_ok());
        assert!(new(500).is_ok());
        assert!(new(501).is_err());
        assert_eq!(
            new(-30).unwrap_err().to_string(),
            "posterior corneal astigmatism \u{2212}0.30 D is outside +0.00 D to +5.00 D"
        );
    }
}
