//! How astigmatism is written: corneal sizes without a sign at their steep meridian, refractions with
//! signs, axes in whole degrees from 1 to 180.

use millrace_core::astigmatism::Residual;
use millrace_core::optics::{DoubleAngle, SpheroCylinder};
use millrace_core::quantity::{Diopters, Meridian};

/// What stands where there is no number.
pub(super) const NOTHING: &str = "–";

/// "2.06 D": a size, without a sign.
pub(super) fn size(size: Diopters) -> String {
    format!("{:.2} D", size.d())
}

/// "2.06 D @ 83°"; no meridian for a size that rounds to nothing.
pub(super) fn astigmatism(vector: DoubleAngle) -> String {
    let size = size(vector.cylinder());
    match vector.steep_meridian() {
        Some(steep) if size != "0.00 D" => format!("{size} @ {steep}"),
        _ => size,
    }
}

/// "−0.26 D / −0.46 D × 148°".
pub(super) fn residual(left: &Residual) -> String {
    left.spectacles().to_string()
}

/// The same in a table, its axis padded so that the powers stand under each other.
pub(super) fn residual_cell(left: &Residual) -> String {
    let written = left.spectacles();
    format!("{} / {}", written.sphere, cylinder_cell(written))
}

/// "−0.46 D ×  82°" in a table; no axis for a cylinder that rounds to nothing.
pub(super) fn cylinder_cell(written: SpheroCylinder) -> String {
    let cylinder = written.cylinder.to_string();
    match Meridian::nearest(written.axis_degrees) {
        Some(axis) if cylinder != "+0.00 D" => format!("{cylinder} × {:>3}°", axis.degrees()),
        _ => cylinder,
    }
}

pub(super) fn capitalized(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}
