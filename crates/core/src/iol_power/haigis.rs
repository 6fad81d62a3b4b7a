#![doc = include_str!("haigis.md")]

use super::{CornealRadii, HaigisConstants, ThinLensEye};
use crate::evidence::{HAIGIS_2000, Source, Standing};
use crate::quantity::{Diopters, Millimeters};

/// The reference text.
pub const REFERENCE: &str = include_str!("haigis.md");

/// The equation's source.
pub const SOURCE: Source = Source {
    work: HAIGIS_2000,
    locator: "",
    standing: Standing::Memory,
};

/// The eye as Haigis sees it; `acd` from the corneal epithelium.
#[must_use]
pub fn eye(
    axial_length: Millimeters,
    acd: Millimeters,
    cornea: CornealRadii,
    constants: HaigisConstants,
) -> ThinLensEye {
    eye_with_power(
        axial_length,
        acd,
        Diopters::new(331.5 / cornea.mean_radius().mm()),
        constants,
    )
}

/// Haigis with a corneal power found in another way.
pub(super) fn eye_with_power(
    axial_length: Millimeters,
    acd: Millimeters,
    corneal_power: Diopters,
    constants: HaigisConstants,
) -> ThinLensEye {
    let axial_length_mm = axial_length.mm();
    ThinLensEye {
        optical_length: axial_length,
        lens_position: Millimeters::new(
            constants.a0_mm() + constants.a1() * acd.mm() + constants.a2() * axial_length_mm,
        ),
        corneal_power,
    }
}
