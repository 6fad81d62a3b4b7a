//! Refraction at the spectacle plane against refraction at the cornea.
//!
//! # Equation
//!
//! ```text
//! z = R / (1 − v·R)     R = z / (1 + v·z)     v: vertex distance in m
//! ```
//!
//! Source: plain optics (derived).

use super::vergence::{self, PassesFocus};
use crate::quantity::{Diopters, Millimeters, Number};

/// Vertex distance used for every refraction in this program, 12 mm.
///
/// Source: the conventions of `docs/formulas.md`; the formulas' papers use the same.
pub const VERTEX_DISTANCE: Millimeters = Millimeters::new(12.0);

const AIR: f64 = 1.0;

/// Spectacle refraction carried to the cornea.
///
/// # Errors
///
/// [`PassesFocus`] for spectacles so strong (83 D) that they focus in front of the cornea.
pub fn to_cornea<N: Number>(spectacle: Diopters<N>) -> Result<Diopters<N>, PassesFocus> {
    vergence::forwards(spectacle, VERTEX_DISTANCE.lift(), AIR)
}

/// Refraction at the cornea carried to the spectacle plane; undoes [`to_cornea`].
///
/// # Errors
///
/// [`PassesFocus`] for an eye so short-sighted (−83 D) that its far point lies behind the spectacles.
pub fn to_spectacle<N: Number>(at_cornea: Diopters<N>) -> Result<Diopters<N>, PassesFocus> {
    vergence::backwards(at_cornea, VERTEX_DISTANCE.lift(), AIR)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inverts_itself() {
        for tenths in -200..=200 {
            let spectacle = Diopters::new(f64::from(tenths) / 10.0);
            let back = to_spectacle(to_cornea(spectacle).unwrap()).unwrap();
            assert!((back - spectacle).d().abs() < 1e-12);
        }
    }
}
