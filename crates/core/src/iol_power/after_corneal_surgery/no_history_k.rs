#![doc = include_str!("no_history_k.md")]

use crate::evidence::{JCRS_2013, SHAMMAS_2003, Source, Standing};
use crate::quantity::{Diopters, Number};

pub const REFERENCE: &str = include_str!("no_history_k.md");

/// Source of the myopic equation and of the one with a known correction.
pub const SOURCE: Source = Standing::Printed.of(SHAMMAS_2003, "");

/// Source of the hyperopic equation.
pub const HYPEROPIC_SOURCE: Source = Standing::Printed.of(JCRS_2013, "");

/// Corneal power after myopic surgery, from the measured mean power at 1.3375.
pub fn myopic<N: Number>(measured: Diopters<N>) -> Diopters<N> {
    Diopters::new(measured.d() * 1.14 - 6.8)
}

/// Corneal power after hyperopic surgery, from the measured mean power at 1.3375.
pub fn hyperopic<N: Number>(measured: Diopters<N>) -> Diopters<N> {
    Diopters::new(measured.d() * 1.0457 - 1.9538)
}

/// Corneal power after myopic surgery of known effect: `correction` is the myopia removed, in D
/// at the corneal plane, positive.
pub fn with_known_correction<N: Number>(
    measured: Diopters<N>,
    correction: Diopters<N>,
) -> Diopters<N> {
    Diopters::new(measured.d() - correction.d() * 0.23)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 1.14·38 − 6.8 = 36.52; 1.0457·46 − 1.9538 = 46.1484; 38 − 0.23·6 = 36.62.
    #[test]
    fn by_hand() {
        assert!((myopic(Diopters::new(38.0)).d() - 36.52).abs() < 1e-9);
        assert!((hyperopic(Diopters::new(46.0)).d() - 46.1484).abs() < 1e-9);
        let known = with_known_correction(Diopters::new(38.0), Diopters::new(6.0));
        assert!((known.d() - 36.62).abs() < 1e-9);
    }
}
