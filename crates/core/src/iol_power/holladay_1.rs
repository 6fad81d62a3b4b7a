#![doc = include_str!("holladay_1.md")]

use super::{Caution, Cautions, CornealRadii, Estimate, SurgeonFactor, ThinLensEye};
use crate::evidence::{HOLLADAY_1988, Source, Standing};
use crate::quantity::{Diopters, Millimeters};

/// The reference text.
pub const REFERENCE: &str = include_str!("holladay_1.md");

/// The equation's source.
pub const SOURCE: Source = Source {
    work: HOLLADAY_1988,
    locator: "",
    standing: Standing::Memory,
};

const SMALLEST_HEIGHT_RADIUS_MM: f64 = 7.0;
const LARGEST_CHAMBER_DIAMETER_MM: f64 = 13.5;

/// The eye as Holladay 1 sees it.
#[must_use]
pub fn eye(
    axial_length: Millimeters,
    cornea: CornealRadii,
    surgeon_factor: SurgeonFactor,
) -> Estimate<ThinLensEye> {
    let mut cautions = Cautions::NONE;
    let radius_mm = 337.5 / cornea.mean_power().d();
    let mut height_radius_mm = radius_mm;
    if radius_mm < SMALLEST_HEIGHT_RADIUS_MM {
        height_radius_mm = SMALLEST_HEIGHT_RADIUS_MM;
        cautions.add(Caution::HolladayRadiusFloor);
    }
    let mut chamber_diameter_mm = 12.5 * axial_length.mm() / 23.45;
    if LARGEST_CHAMBER_DIAMETER_MM < chamber_diameter_mm {
        chamber_diameter_mm = LARGEST_CHAMBER_DIAMETER_MM;
        cautions.add(Caution::HolladayChamberDiameterCap);
    }

    let radicand =
        height_radius_mm * height_radius_mm - chamber_diameter_mm * chamber_diameter_mm / 4.0;
    let height_mm = 0.56 + height_radius_mm - radicand.sqrt();
    Estimate {
        value: ThinLensEye {
            optical_length: Millimeters::new(axial_length.mm() + 0.2),
            lens_position: Millimeters::new(height_mm + surgeon_factor.value()),
            corneal_power: Diopters::new(1000.0 * (4.0 / 3.0 - 1.0) / radius_mm),
        },
        cautions,
    }
}
