//! Vergence carried along the axis, forwards and backwards.
//!
//! # Equation
//!
//! ```text
//! forwards  over t:  V2 = V1 / (1 − t·V1/n)
//! backwards over t:  V1 = V2 / (1 + t·V2/n)
//! ```
//!
//! Source: plain optics (derived).

use crate::quantity::{Diopters, Millimeters, Number};

/// The vergence passed through a focus on its way: there is no real image beyond it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PassesFocus {
    /// Vergence at the start of the step.
    pub vergence: Diopters,
    /// Length of the step.
    pub distance: Millimeters,
}

/// Vergence after travelling `distance` forwards in a medium of index `n`.
pub fn forwards<N: Number>(
    vergence: Diopters<N>,
    distance: Millimeters<N>,
    n: f64,
) -> Result<Diopters<N>, PassesFocus> {
    let shrink = N::of(1.0) - distance.mm() * vergence.d() * (0.001 / n);
    step(vergence, distance, shrink)
}

/// Vergence `distance` earlier, in a medium of index `n`; undoes [`forwards`].
pub fn backwards<N: Number>(
    vergence: Diopters<N>,
    distance: Millimeters<N>,
    n: f64,
) -> Result<Diopters<N>, PassesFocus> {
    let shrink = distance.mm() * vergence.d() * (0.001 / n) + 1.0;
    step(vergence, distance, shrink)
}

fn step<N: Number>(
    vergence: Diopters<N>,
    distance: Millimeters<N>,
    shrink: N,
) -> Result<Diopters<N>, PassesFocus> {
    let arriving_d = vergence.d() / shrink;
    if shrink.plain() > 0.0 && arriving_d.plain().is_finite() {
        return Ok(Diopters::new(arriving_d));
    }
    Err(PassesFocus {
        vergence: vergence.plain(),
        distance: distance.plain(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: +60 D in n = 1.336 focuses at 1336/60 = 22.267 mm; 5 mm on, 1336/17.267 = 77.375 D.
    #[test]
    fn by_hand() {
        let after = forwards(Diopters::new(60.0), Millimeters::new(5.0), 1.336).unwrap();
        assert!((after.d() - 77.375).abs() < 0.0005);
    }

    #[test]
    fn a_focus_on_the_way_is_refused() {
        let vergence = Diopters::new(60.0);
        assert!(forwards(vergence, Millimeters::new(22.266), 1.336).is_ok());
        assert!(forwards(vergence, Millimeters::new(22.267), 1.336).is_err());
        assert!(backwards(Diopters::new(-60.0), Millimeters::new(22.267), 1.336).is_err());
        assert!(forwards(Diopters::new(f64::NAN), Millimeters::new(1.0), 1.336).is_err());
    }
}
