//! The nucleus as an oblate ellipsoid.

use serde::{Deserialize, Serialize};
use serde_with::serde_as;

use super::Spheroid;
use crate::evidence::{NUCLEUS_1995, Source, Standing};
use crate::quantity::{Micrometers, Millimeters, Text, checked_when_read};

/// Where typical sizes come from; two series disagree, so the user states the size.
pub const SOURCE: Source = Standing::Printed.of(
    NUCLEUS_1995,
    "7.13 ± 0.76 × 3.05 ± 0.48 mm (n = 130); another series 7-9 × 3.5-5.5 mm",
);

/// Diameter and thickness of the nucleus, as stated by the user.
#[serde_as]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct Nucleus {
    #[serde_as(as = "Text")]
    diameter: Micrometers,
    #[serde_as(as = "Text")]
    thickness: Micrometers,
}

checked_when_read!(Nucleus, |read: &Nucleus| Nucleus::new(
    read.diameter,
    read.thickness
)
.map(|_| ()));

/// How the size of a nucleus is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum NucleusSize {
    Measured,
    Guessed,
}

impl NucleusSize {
    /// One standard deviation of diameter and thickness: of a guess the printed spread of nuclei,
    /// of a measurement an assumption.
    pub const fn spread(self) -> [Millimeters; 2] {
        match self {
            Self::Measured => [Millimeters::new(0.30), Millimeters::new(0.20)],
            Self::Guessed => [Millimeters::new(0.76), Millimeters::new(0.48)],
        }
    }
}

/// A size that no nucleus has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NucleusError {
    #[error("nucleus of {diameter} × {thickness} is outside 3 to 10 mm × 1.5 to 7 mm")]
    OutOfRange {
        diameter: Micrometers,
        thickness: Micrometers,
    },
    /// Thicker than wide.
    #[error("nucleus of {diameter} × {thickness} is thicker than wide")]
    NotOblate {
        diameter: Micrometers,
        thickness: Micrometers,
    },
}

impl Nucleus {
    /// Smallest and largest diameter accepted.
    pub const DIAMETER: [Micrometers; 2] = [Micrometers::new(3_000), Micrometers::new(10_000)];
    /// Smallest and largest thickness accepted.
    pub const THICKNESS: [Micrometers; 2] = [Micrometers::new(1_500), Micrometers::new(7_000)];

    /// Checks that a lens can hold such a nucleus.
    ///
    /// # Errors
    ///
    /// [`NucleusError`] outside 3-10 × 1.5-7 mm, or if it is thicker than wide.
    pub fn new(diameter: Micrometers, thickness: Micrometers) -> Result<Self, NucleusError> {
        let within = |[min, max]: [Micrometers; 2], size| min <= size && size <= max;
        if !(within(Self::DIAMETER, diameter) && within(Self::THICKNESS, thickness)) {
            return Err(NucleusError::OutOfRange {
                diameter,
                thickness,
            });
        }
        if diameter < thickness {
            return Err(NucleusError::NotOblate {
                diameter,
                thickness,
            });
        }
        Ok(Self {
            diameter,
            thickness,
        })
    }

    /// Equatorial diameter.
    pub const fn diameter(&self) -> Micrometers {
        self.diameter
    }

    /// Thickness along the axis.
    pub const fn thickness(&self) -> Micrometers {
        self.thickness
    }

    /// Equatorial semi-axis a.
    pub fn equatorial_radius(&self) -> Millimeters {
        self.diameter.millimeters() * 0.5
    }

    /// Axial semi-axis b.
    pub fn axial_radius(&self) -> Millimeters {
        self.thickness.millimeters() * 0.5
    }

    /// Its half axes.
    pub fn spheroid(&self) -> Spheroid {
        Spheroid {
            across: self.equatorial_radius().mm(),
            along: self.axial_radius().mm(),
        }
    }

    /// Volume, mm³: `4/3·π·a²·b`.
    pub fn volume_mm3(&self) -> f64 {
        self.spheroid().volume()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_no_lens_holds_are_refused() {
        let nucleus = |d, t| Nucleus::new(Micrometers::new(d), Micrometers::new(t));
        assert!(nucleus(3_000, 1_500).is_ok());
        assert!(nucleus(10_000, 7_000).is_ok());
        assert!(nucleus(2_999, 1_500).is_err());
        assert!(nucleus(10_001, 4_000).is_err());
        assert!(nucleus(3_000, 1_499).is_err());
        assert!(nucleus(10_000, 7_001).is_err());
        assert_eq!(
            nucleus(5_000, 5_500).unwrap_err().to_string(),
            "nucleus of 5.00 mm × 5.50 mm is thicker than wide"
        );
    }

    /// By hand, 8 × 4 mm: 4/3·π·16·2 = 134.04 mm³.
    #[test]
    fn volume_by_hand() {
        let nucleus = Nucleus::new(Micrometers::new(8_000), Micrometers::new(4_000)).unwrap();
        assert!((nucleus.volume_mm3() - 134.04).abs() < 0.005);
    }
}
