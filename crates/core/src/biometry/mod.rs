//! What was measured of both eyes, with method, spread, time and person; what was not measured is
//! absent, never a default.

mod chamber_depth;
mod endothelium;
mod eye_record;
mod eye_state;
mod flat;
mod keratometry;
mod laterality;
mod lengths;
mod measured;
mod method;
mod nucleus_grade;
mod posterior_astigmatism;
mod refraction;
mod sign;
pub mod table;

pub use chamber_depth::{AnteriorChamberDepth, ChamberDepth, DepthStart};
pub use endothelium::EndothelialDensity;
pub use eye_record::EarlierOperation;
pub use eye_state::{
    ContactLensKind, ContactLenses, CornealSurgery, CornealSurgeryKind, EyeState, SiliconeOil,
};
pub use keratometry::{CornealRadius, CornealReading, FlatIsSteep, Keratometry, MeridianReading};
pub use laterality::{Fellow, Operated, PerEye, Sector, Side};
pub use lengths::*;
pub use measured::{Measured, NoSpread};
pub use method::{LengthMethod, Method};
pub use nucleus_grade::{EmeryLittleGrade, LocsTenths, NucleusGrade, NucleusGradeError, WhoGrade};
pub use posterior_astigmatism::PosteriorAstigmatism;
pub use refraction::{Refraction, RefractionError};
pub use sign::Sign;
pub use table::{EyeRecord, Item, Measurement, Recorded, Slot, Spread, Tabulated, Value};

use crate::quantity::{Micrometers, OutOfRange};

/// A measured length with its own type, and the range an instrument can report.
pub trait MeasuredLength: Copy {
    const SMALLEST: Micrometers;
    const LARGEST: Micrometers;
    /// The length as this type.
    fn checked(length: Micrometers) -> Result<Self, OutOfRange>;

    fn length(self) -> Micrometers;
}

/// A measured length with its own type and the range an instrument can report.
macro_rules! measured_length {
    ($(#[$doc:meta])* $name:ident, $quantity:literal, $min:literal..=$max:literal, $example:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name($crate::quantity::Micrometers);

        impl $name {
            /// Smallest accepted.
            pub const MIN: $crate::quantity::Micrometers = $crate::quantity::Micrometers::new($min);
            /// Largest accepted.
            pub const MAX: $crate::quantity::Micrometers = $crate::quantity::Micrometers::new($max);

            /// Checks that an instrument can have reported this.
            pub fn new(
                length: $crate::quantity::Micrometers,
            ) -> Result<Self, $crate::quantity::OutOfRange> {
                if Self::MIN <= length && length <= Self::MAX {
                    return Ok(Self(length));
                }
                Err($crate::quantity::OutOfRange::new($quantity, length, [Self::MIN, Self::MAX]))
            }

            /// The exact length.
            pub const fn get(self) -> $crate::quantity::Micrometers {
                self.0
            }
        }

        impl core::fmt::Display for $name {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                self.0.fmt(f)
            }
        }

        impl core::str::FromStr for $name {
            type Err = $crate::quantity::MeasureError;

            /// Reads the number with its unit, mm or µm.
            fn from_str(text: &str) -> Result<Self, Self::Err> {
                let length = $crate::quantity::Micrometers::parse(text, $quantity, $example)?;
                Ok(Self::new(length)?)
            }
        }

        $crate::quantity::stored_as_text!($name);

        impl $crate::biometry::table::AsValue for $name {
            fn value(&self) -> $crate::biometry::Value<'_> {
                $crate::biometry::Value::Length(self.0)
            }
        }

        impl $crate::biometry::MeasuredLength for $name {
            const SMALLEST: $crate::quantity::Micrometers = Self::MIN;
            const LARGEST: $crate::quantity::Micrometers = Self::MAX;

            fn checked(
                length: $crate::quantity::Micrometers,
            ) -> Result<Self, $crate::quantity::OutOfRange> {
                Self::new(length)
            }

            fn length(self) -> $crate::quantity::Micrometers {
                self.0
            }
        }
    };
}
use measured_length;
