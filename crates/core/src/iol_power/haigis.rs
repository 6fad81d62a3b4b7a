#![doc = include_str!("haigis.md")]

use super::{CornealRadii, HaigisConstants, ThinLensEye};
use crate::evidence::{HAIGIS_2000, Source, Standing};
use crate::quantity::{Diopters, Millimeters, Number};

pub const REFERENCE: &str = include_str!("haigis.md");

pub const SOURCE: Source = Standing::Memory.of(HAIGIS_2000, "");

/// The eye as Haigis sees it; `acd` from the corneal epithelium.
pub fn eye<N: Number>(
    axial_length: Millimeters<N>,
    acd: Millimeters<N>,
    cornea: CornealRadii<N>,
    constants: HaigisConstants,
) -> ThinLensEye<N> {
    eye_with_power(
        axial_length,
        acd,
        Diopters::new(N::of(331.5) / cornea.mean_radius().mm()),
        constants,
    )
}

/// Haigis with a corneal power found in another way.
pub(super) fn eye_with_power<N: Number>(
    axial_length: Millimeters<N>,
    acd: Millimeters<N>,
    corneal_power: Diopters<N>,
    constants: HaigisConstants,
) -> ThinLensEye<N> {
    let axial_length_mm = axial_length.mm();
    ThinLensEye {
        optical_length: axial_length,
        lens_position: Millimeters::new(
            acd.mm() * constants.a1() + axial_length_mm * constants.a2() + constants.a0_mm(),
        ),
        corneal_power,
    }
}
