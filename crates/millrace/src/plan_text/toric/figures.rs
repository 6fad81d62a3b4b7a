//! How astigmatism is written: corneal sizes without a sign at their steep meridian, refractions with
//! signs, axes in whole degrees from 1 to 180.

use millrace_core::astigmatism::Residual;
use millrace_core::optics::{DoubleAngle, SpheroCylinder};
use millrace_core::quantity::{Diopters, Meridian};
use millrace_wording::text::toric as say;
use millrace_wording::{Show as _, Words, quantity};

/// What stands where there is no number.
pub(super) const NOTHING: &str = "–";

/// "2.06 D": a size, without a sign.
pub(super) fn size(size: Diopters, words: Words) -> String {
    quantity::computed_unsigned(words, size)
}

/// "2.06 D @ 83°"; no meridian for a size that rounds to nothing.
pub(super) fn astigmatism(vector: DoubleAngle, words: Words) -> String {
    let cylinder = vector.cylinder();
    let size = size(cylinder, words);
    match vector.steep_meridian() {
        Some(steep) if !rounds_to_nothing(cylinder) => say::at_meridian(words, size, steep),
        _ => size,
    }
}

fn rounds_to_nothing(size: Diopters) -> bool {
    let nearest = size.nearest_hundredth();
    nearest.is_some_and(|nearest| nearest.hundredths() == 0)
}

/// "−0.26 D / −0.46 D × 148°".
pub(super) fn residual(left: &Residual, words: Words) -> String {
    left.spectacles().show(words).into_owned()
}

/// The same in a table, its axis padded so that the powers stand under each other.
pub(super) fn residual_cell(left: &Residual, words: Words) -> String {
    let written = left.spectacles();
    format!(
        "{} / {}",
        written.sphere.show(words),
        cylinder_cell(written, words)
    )
}

/// "−0.46 D ×  82°" in a table; no axis for a cylinder that rounds to nothing.
pub(super) fn cylinder_cell(written: SpheroCylinder, words: Words) -> String {
    let cylinder = written.cylinder.show(words);
    match Meridian::nearest(written.axis_degrees) {
        Some(axis) if !rounds_to_nothing(written.cylinder) => {
            format!("{cylinder} × {:>3}°", axis.degrees())
        }
        _ => cylinder.into_owned(),
    }
}
