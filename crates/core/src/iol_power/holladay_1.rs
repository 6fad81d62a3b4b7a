#![doc = include_str!("holladay_1.md")]

use super::{Caution, Cautions, CornealRadii, Estimate, SurgeonFactor, ThinLensEye};
use crate::evidence::{HOLLADAY_1988, Source, Standing};
use crate::quantity::{Diopters, Millimeters, Number};

pub const REFERENCE: &str = include_str!("holladay_1.md");

pub const SOURCE: Source = Standing::Memory.of(HOLLADAY_1988, "");

const SMALLEST_HEIGHT_RADIUS_MM: f64 = 7.0;
const LARGEST_CHAMBER_DIAMETER_MM: f64 = 13.5;

/// The eye as Holladay 1 sees it.
pub fn eye<N: Number>(
    axial_length: Millimeters<N>,
    cornea: CornealRadii<N>,
    surgeon_factor: SurgeonFactor,
) -> Estimate<ThinLensEye<N>> {
    let mut cautions = Cautions::NONE;
    let radius_mm = N::of(337.5) / cornea.mean_power().d();
    let mut height_radius_mm = radius_mm;
    if radius_mm.plain() < SMALLEST_HEIGHT_RADIUS_MM {
        cautions.add(Caution::HolladayRadiusFloor);
        height_radius_mm = N::of(SMALLEST_HEIGHT_RADIUS_MM);
    }
    let mut chamber_diameter_mm = axial_length.mm() * 12.5 / 23.45;
    if chamber_diameter_mm.plain() > LARGEST_CHAMBER_DIAMETER_MM {
        cautions.add(Caution::HolladayChamberDiameterCap);
        chamber_diameter_mm = N::of(LARGEST_CHAMBER_DIAMETER_MM);
    }

    let radicand =
        height_radius_mm * height_radius_mm - chamber_diameter_mm * chamber_diameter_mm / 4.0;
    let height_mm = height_radius_mm + 0.56 - radicand.sqrt();
    Estimate {
        value: ThinLensEye {
            optical_length: Millimeters::new(axial_length.mm() + 0.2),
            lens_position: Millimeters::new(height_mm + surgeon_factor.value()),
            corneal_power: Diopters::new(N::of(1000.0 * (4.0 / 3.0 - 1.0)) / radius_mm),
        },
        cautions,
    }
}
