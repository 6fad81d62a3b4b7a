#![doc = include_str!("double_k.md")]

use crate::evidence::{ARAMBERRI_2003, Source, Standing};
use crate::iol_power::{AConstant, Refusal, ThinLensEye, srk_t};
use crate::quantity::{Diopters, Millimeters, Number};

pub const REFERENCE: &str = include_str!("double_k.md");

pub const SOURCE: Source = Standing::Memory.of(
    ARAMBERRI_2003,
    "method printed (abstract); the SRK/T inside it is from memory",
);

/// Corneal power before surgery and after it, both at 1.3375.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeforeAndAfter<N = f64> {
    /// Measured before refractive surgery: sets the lens position.
    pub before: Diopters<N>,
    /// After it: bends the light.
    pub after: Diopters<N>,
}

/// The eye as SRK/T sees it with both powers.
pub fn eye<N: Number>(
    axial_length: Millimeters<N>,
    k: BeforeAndAfter<N>,
    a_constant: AConstant,
) -> Result<ThinLensEye<N>, Refusal> {
    srk_t::eye_from_two_powers(axial_length, k.before, k.after, a_constant)
}
