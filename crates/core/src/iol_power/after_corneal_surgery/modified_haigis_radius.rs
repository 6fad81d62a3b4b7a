#![doc = include_str!("modified_haigis_radius.md")]

use crate::evidence::{HAIGIS_MYOPIC, Source, Standing};
use crate::iol_power::{HaigisConstants, ThinLensEye, haigis};
use crate::quantity::{Diopters, Millimeters, Number};

pub const REFERENCE: &str = include_str!("modified_haigis_radius.md");

pub const SOURCE: Source = Standing::Memory.of(
    HAIGIS_MYOPIC,
    "radius from a summary page (example 8.73 → 9.0 mm); the Haigis inside it is from memory",
);

/// Corneal power at 1.3315 after myopic surgery, from the measured mean radius.
pub fn corneal_power<N: Number>(measured_radius: Millimeters<N>) -> Diopters<N> {
    Diopters::new(measured_radius.mm() * -5.1625 + 82.2603 - 0.35)
}

pub fn radius<N: Number>(measured_radius: Millimeters<N>) -> Millimeters<N> {
    Millimeters::new(N::of(331.5) / corneal_power(measured_radius).d())
}

/// The eye as Haigis sees it with the modified radius.
pub fn eye<N: Number>(
    axial_length: Millimeters<N>,
    acd: Millimeters<N>,
    measured_radius: Millimeters<N>,
    constants: HaigisConstants,
) -> ThinLensEye<N> {
    haigis::eye_with_power(axial_length, acd, corneal_power(measured_radius), constants)
}
