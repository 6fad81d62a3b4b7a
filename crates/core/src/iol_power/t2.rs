#![doc = include_str!("t2.md")]

use super::{AConstant, CornealRadii, ThinLensEye, srk_t};
use crate::evidence::{SHEARD_2010, Source, Standing};
use crate::quantity::{Millimeters, Number};

pub const REFERENCE: &str = include_str!("t2.md");

pub const SOURCE: Source = Standing::Memory.of(SHEARD_2010, "");

/// The eye as T2 sees it.
pub fn eye<N: Number>(
    axial_length: Millimeters<N>,
    cornea: CornealRadii<N>,
    a_constant: AConstant,
) -> ThinLensEye<N> {
    let k = cornea.mean_power();
    let height = Millimeters::new(axial_length.mm() * 0.32630 + k.d() * 0.13533 - 10.326);
    srk_t::eye_with_height(axial_length, k, height, a_constant)
}
