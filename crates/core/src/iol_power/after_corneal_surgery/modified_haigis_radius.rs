#![doc = include_str!("modified_haigis_radius.md")]

use crate::evidence::{HAIGIS_MYOPIC, Source, Standing};
use crate::iol_power::{HaigisConstants, ThinLensEye, haigis};
use crate::quantity::{Diopters, Millimeters};

/// The reference text.
pub const REFERENCE: &str = include_str!("modified_haigis_radius.md");

/// The method's source.
pub const SOURCE: Source = Source {
    work: HAIGIS_MYOPIC,
    locator: "radius from a summary page (example 8.73 → 9.0 mm); the Haigis inside it is from memory",
    standing: Standing::Memory,
};

/// Corneal power at 1.3315 after myopic surgery, from the measured mean radius.
#[must_use]
pub fn corneal_power(measured_radius: Millimeters) -> Diopters {
    Diopters::new(-5.1625 * measured_radius.mm() + 82.2603 - 0.35)
}

/// The radius that stands for that power.
#[must_use]
pub fn radius(measured_radius: Millimeters) -> Millimeters {
    Millimeters::new(331.5 / corneal_power(measured_radius).d())
}

/// The eye as Haigis sees it with the modified radius.
#[must_use]
pub fn eye(
    axial_length: Millimeters,
    acd: Millimeters,
    measured_radius: Millimeters,
    constants: HaigisConstants,
) -> ThinLensEye {
    haigis::eye_with_power(axial_length, acd, corneal_power(measured_radius), constants)
}
