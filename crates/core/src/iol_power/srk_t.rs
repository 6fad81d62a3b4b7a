#![doc = include_str!("srk_t.md")]

use super::{AConstant, CornealRadii, Refusal, ThinLensEye};
use crate::evidence::{RETZLAFF_1990, Source, Standing};
use crate::quantity::{Diopters, Millimeters, Number};

pub const REFERENCE: &str = include_str!("srk_t.md");

pub const SOURCE: Source = Standing::Memory.of(RETZLAFF_1990, "");

/// Axial length above which SRK/T corrects it, mm.
const LONG_EYE_MM: f64 = 24.2;

/// The eye as SRK/T sees it.
pub fn eye<N: Number>(
    axial_length: Millimeters<N>,
    cornea: CornealRadii<N>,
    a_constant: AConstant,
) -> Result<ThinLensEye<N>, Refusal> {
    let k = cornea.mean_power();
    eye_from_two_powers(axial_length, k, k, a_constant)
}

/// SRK/T with the corneal power that sets the lens position apart from the one that bends light:
/// the same for an untouched cornea, two for one that was operated on.
pub(super) fn eye_from_two_powers<N: Number>(
    axial_length: Millimeters<N>,
    for_position: Diopters<N>,
    for_vergence: Diopters<N>,
    a_constant: AConstant,
) -> Result<ThinLensEye<N>, Refusal> {
    let height = corneal_height(axial_length, for_position)?;
    Ok(eye_with_height(
        axial_length,
        for_vergence,
        height,
        a_constant,
    ))
}

/// Everything of SRK/T after the corneal height, which T2 replaces.
pub(super) fn eye_with_height<N: Number>(
    axial_length: Millimeters<N>,
    k: Diopters<N>,
    height: Millimeters<N>,
    a_constant: AConstant,
) -> ThinLensEye<N> {
    let axial_length_mm = axial_length.mm();
    let radius_mm = N::of(337.5) / k.d();
    let acd_const_mm = 0.62467 * a_constant.value() - 68.747;
    ThinLensEye {
        optical_length: Millimeters::new(axial_length_mm + 0.65696 - axial_length_mm * 0.02029),
        lens_position: Millimeters::new(height.mm() + acd_const_mm - 3.336),
        corneal_power: Diopters::new(N::of(333.0) / radius_mm),
    }
}

/// H, from the corneal width that length and power predict.
fn corneal_height<N: Number>(
    axial_length: Millimeters<N>,
    k: Diopters<N>,
) -> Result<Millimeters<N>, Refusal> {
    let radius_mm = N::of(337.5) / k.d();
    let corrected_mm = corrected_length(axial_length).mm();
    let width_mm = corrected_mm * 0.58412 + k.d() * 0.098 - 5.41;
    let radicand = radius_mm * radius_mm - width_mm * width_mm / 4.0;
    if radicand.plain() >= 0.0 {
        return Ok(Millimeters::new(radius_mm - radicand.sqrt()));
    }
    Err(Refusal::NoCornealHeight {
        width: Millimeters::new(width_mm.plain()),
        radius: Millimeters::new(radius_mm.plain()),
    })
}

/// LCOR: the axial length that predicts the corneal width.
fn corrected_length<N: Number>(axial_length: Millimeters<N>) -> Millimeters<N> {
    let length_mm = axial_length.mm();
    if length_mm.plain() <= LONG_EYE_MM {
        return axial_length;
    }
    Millimeters::new(length_mm * 1.716 - length_mm * length_mm * 0.0237 - 3.446)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// At 24.2 mm the second branch gives 24.2015 (internal check of the equation as printed with
    /// 1.716): the branches join within 0.002 mm, above and not below.
    #[test]
    fn the_branches_join_at_24_2() {
        assert_eq!(
            corrected_length(Millimeters::new(24.2)),
            Millimeters::new(24.2)
        );
        let above = corrected_length(Millimeters::new(24.2 + 1e-9));
        assert!((above.mm() - 24.2015).abs() < 0.00005, "{above:?}");
    }
}
