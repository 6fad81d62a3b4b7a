//! Astigmatic vergence: a power as a symmetric matrix, carried meridian by meridian.
//!
//! # Equation
//!
//! ```text
//! P(θ) = M + J0·cos 2θ + J45·sin 2θ        the power in a meridian
//! F = [ M + J0   J45    ]                  the same as a matrix: P(θ) = uᵀ·F·u
//!     [ J45      M − J0 ]
//! f(F) = f(P₁)·u₁u₁ᵀ + f(P₂)·u₂u₂ᵀ         P₁, P₂ its principal powers, u₁, u₂ their meridians
//! ```
//!
//! Every paraxial step in a rotationally symmetric space (a gap, a mean vertex distance) is such an
//! `f`, and surfaces in contact add as matrices; so the whole eye is exact, with lens and cornea at any
//! angle to each other.
//!
//! Source: plain optics (derived).

use crate::optics::PowerVector;
use crate::quantity::Diopters;

/// Applies a scalar function to both principal powers and keeps their meridians.
pub fn by_principal_meridians<E>(
    power: PowerVector,
    map: impl Fn(Diopters) -> Result<Diopters, E>,
) -> Result<PowerVector, E> {
    let half_d = power.cylinder_magnitude().d() / 2.0;
    let half = Diopters::new(half_d);
    let (strong, weak) = (map(power.m + half)?, map(power.m - half)?);
    let mean = (strong + weak) * 0.5;
    if half_d <= 0.0 {
        return Ok(PowerVector { m: mean, ..power });
    }
    let stretch = (strong - weak).d() / 2.0 / half_d;
    Ok(PowerVector {
        m: mean,
        j0: power.j0 * stretch,
        j45: power.j45 * stretch,
    })
}

/// The difference of two powers in contact.
pub fn less(power: PowerVector, other: PowerVector) -> PowerVector {
    PowerVector {
        m: power.m - other.m,
        j0: power.j0 - other.j0,
        j45: power.j45 - other.j45,
    }
}

#[cfg(test)]
mod tests {
    use core::convert::Infallible;

    use super::*;
    use crate::optics::SpheroCylinder;

    /// By hand: principal powers 4 at 30 and 2 at 120; squared 16 and 4, so mean 10 and cylinder 12.
    #[test]
    fn principal_powers_change_and_meridians_stay() {
        let power = SpheroCylinder {
            sphere: Diopters::new(4.0),
            cylinder: Diopters::new(-2.0),
            axis_degrees: 30.0,
        };
        let square = |power: Diopters| Ok::<_, Infallible>(Diopters::new(power.d() * power.d()));
        let squared = by_principal_meridians(power.power_vector(), square)
            .unwrap()
            .minus_cylinder();
        assert!((squared.sphere.d() - 16.0).abs() < 1e-12);
        assert!((squared.cylinder.d() + 12.0).abs() < 1e-12);
        assert!((squared.axis_degrees - 30.0).abs() < 1e-9);
    }

    #[test]
    fn a_sphere_stays_a_sphere_and_an_error_is_passed_on() {
        let zero = Diopters::new(0.0);
        let sphere = PowerVector {
            m: Diopters::new(3.0),
            j0: zero,
            j45: zero,
        };
        let doubled = by_principal_meridians(sphere, |power| Ok::<_, ()>(power * 2.0)).unwrap();
        assert_eq!((doubled.m.d(), doubled.j0, doubled.j45), (6.0, zero, zero));
        assert_eq!(
            by_principal_meridians(sphere, |_| Err("no image")),
            Err("no image")
        );
    }
}
