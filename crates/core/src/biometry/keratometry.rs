//! Keratometry (K): two principal meridians, each as the instrument gave it.

use core::fmt;

use crate::iol_power::CornealRadii;
use crate::quantity::KeratometricIndex;
use crate::quantity::{
    Diopters, HundredthDiopters, MeasureError, Meridian, Millimeters, OutOfRange, decimal,
    number_before_unit, stored_as_text,
};

super::measured_length!(
    /// Radius of the front of the cornea in one meridian.
    CornealRadius,
    "corneal radius",
    5_000..=13_000,
    "\"7.80 mm\", or \"43.25 D at 1.3375\" with the index"
);

/// One meridian as the instrument gave it: a radius, or a power with the index behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CornealReading {
    Radius(CornealRadius),
    /// A power, which means nothing without its index.
    Power {
        /// Hundredths of a diopter, as displayed.
        power: HundredthDiopters,
        /// Index by which the instrument made it from a radius.
        index: KeratometricIndex,
    },
}

impl CornealReading {
    pub fn power(power: HundredthDiopters, index: KeratometricIndex) -> Result<Self, OutOfRange> {
        let radius_mm = index.radius(power.diopters()).mm();
        let [min_mm, max_mm] =
            [CornealRadius::MIN, CornealRadius::MAX].map(|limit| limit.millimeters().mm());
        if min_mm <= radius_mm && radius_mm <= max_mm {
            return Ok(Self::Power { power, index });
        }
        let limits = [CornealRadius::MAX, CornealRadius::MIN]
            .map(|radius| corneal_power_text(index.power(radius.millimeters()).d()));
        Err(OutOfRange::new(
            "corneal power",
            corneal_power_text(power.diopters().d()),
            limits,
        ))
    }

    /// The radius: as measured, or by the index.
    pub fn radius(self) -> Millimeters {
        match self {
            Self::Radius(radius) => radius.get().millimeters(),
            Self::Power { power, index } => index.radius(power.diopters()),
        }
    }

    /// The power at 1.3375.
    pub fn standard_power(self) -> Diopters {
        KeratometricIndex::STANDARD.power(self.radius())
    }
}

/// A corneal power has no sign, so that it is never taken for a lens power.
fn corneal_power_text(power_d: f64) -> String {
    format!("{power_d:.2} D")
}

impl fmt::Display for CornealReading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Radius(radius) => radius.fmt(f),
            Self::Power { power, index } => {
                write!(f, "{} at {index}", corneal_power_text(power.diopters().d()))
            }
        }
    }
}

impl core::str::FromStr for CornealReading {
    type Err = MeasureError;

    /// Reads "7.80 mm" or "43.25 D at 1.3375".
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        const QUANTITY: &str = "keratometry";
        let text = text.trim();
        if text.ends_with("mm") {
            return Ok(Self::Radius(text.parse()?));
        }
        let (power_text, index_text) = match text.split_once(" at ") {
            Some((power, index)) => (power, Some(index)),
            None => (text, None),
        };
        let Some(number) = number_before_unit(power_text, "D") else {
            return Err(MeasureError::Unit {
                quantity: QUANTITY,
                text: text.to_owned(),
                example: "\"7.80 mm\", or \"43.25 D at 1.3375\" with the index",
            });
        };
        let Some(index_text) = index_text else {
            return Err(MeasureError::IndexMissing {
                text: text.to_owned(),
            });
        };
        let number_error = |error| MeasureError::Number {
            quantity: QUANTITY,
            error,
        };
        let power = decimal::parse(number, 2).map_err(number_error)?;
        let index = KeratometricIndex::parse(index_text)?;
        Ok(Self::power(HundredthDiopters::new(power), index)?)
    }
}

stored_as_text!(CornealReading);

/// One reading and the meridian it lies in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeridianReading {
    pub reading: CornealReading,
    pub meridian: Meridian,
}

/// Both principal meridians, and how they were obtained.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Keratometry {
    /// The meridian of the longer radius.
    pub flat: MeridianReading,
    /// The meridian of the shorter radius.
    pub steep: MeridianReading,
    /// How many times it was measured, if known.
    pub readings: Option<u8>,
    /// Largest difference between repeated readings in one meridian, if known.
    pub repeat_difference: Option<HundredthDiopters>,
}

/// The meridian given as flat has the shorter radius.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the flat meridian {flat} has a shorter radius than the steep one {steep}")]
pub struct FlatIsSteep {
    pub flat: CornealReading,
    pub steep: CornealReading,
}

impl FlatIsSteep {
    /// Refuses a flat meridian that is the steeper one.
    pub(crate) fn check(flat: MeridianReading, steep: MeridianReading) -> Result<(), Self> {
        let [flat, steep] = [flat, steep].map(|at| at.reading);
        if flat.radius() < steep.radius() {
            return Err(Self { flat, steep });
        }
        Ok(())
    }
}

impl Keratometry {
    /// Refuses a flat meridian that is the steeper one.
    pub(crate) fn check(&self) -> Result<(), FlatIsSteep> {
        FlatIsSteep::check(self.flat, self.steep)
    }

    pub fn radii(&self) -> CornealRadii {
        CornealRadii(self.flat.reading.radius(), self.steep.reading.radius())
    }

    /// Mean power at 1.3375.
    pub fn mean_power(&self) -> Diopters {
        self.radii().mean_power()
    }

    /// Mean of the two radii.
    pub fn mean_radius(&self) -> Millimeters {
        self.radii().mean_radius()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn message(text: &str) -> String {
        text.parse::<CornealReading>().unwrap_err().to_string()
    }

    #[test]
    fn a_power_without_its_index_is_refused() {
        assert_eq!(
            message("43.25 D"),
            "keratometry \"43.25 D\" is a power without its index, which can be off by 0.8 D: \
             write \"43.25 D at 1.3375\" with the index of the instrument, or the radius in mm"
        );
        assert_eq!(
            message("43.25"),
            "keratometry \"43.25\" needs its unit: write \"7.80 mm\", or \"43.25 D at 1.3375\" with the index"
        );
        assert_eq!(
            message("10.00 D at 1.3375"),
            "corneal power 10.00 D is outside 25.96 D to 67.50 D"
        );
        assert_eq!(
            message("43.25 D at 13375"),
            "keratometric index 13375.0000 is outside 1.3000 to 1.4000"
        );
        assert_eq!(
            message("4.20 mm"),
            "corneal radius 4.20 mm is outside 5.00 mm to 13.00 mm"
        );
    }

    #[test]
    fn reads_back_what_it_shows() {
        for text in [
            "7.80 mm",
            "43.25 D at 1.3375",
            "43.00 D at 1.336",
            "7.805 mm",
        ] {
            let reading: CornealReading = text.parse().unwrap();
            assert_eq!(reading.to_string(), text);
        }
    }
}
