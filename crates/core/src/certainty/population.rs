//! The eyes that a published scatter is taken to be of: few, weighted so that means over them are
//! means over a normal population.
//!
//! # Equation
//!
//! Gauss and Hermite's rule for the normal distribution, five axial lengths by three corneal powers:
//!
//! ```text
//! lengths  0: 8/15    ±√(5 − √10): (7 + 2√10)/60    ±√(5 + √10): (7 − 2√10)/60
//! powers   0: 2/3     ±√3: 1/6
//! depth    its mean at that length, r·z deviations off its own
//! ```
//!
//! Exact for means of polynomials up to the ninth and the fifth degree.
//!
//! Sources: means and deviations printed (13,012 eyes), correlation of length and depth printed
//! (28,709 eyes); normal margins, and powers that do not depend on length, are assumptions.

use core::f64::consts::PI;

use crate::iol_power::{CornealHistory, CornealRadii, FormulaConstants, FormulaInputs};
use crate::limits::Limits;
use crate::quantity::{Diopters, KeratometricIndex, Millimeters, math};

/// Deviations between eyes of axial length and chamber depth, mm (printed).
const LENGTH_DEVIATION: f64 = 1.55;
const DEPTH_DEVIATION: f64 = 0.44;
/// Deviation between eyes of the mean corneal power, D (printed).
pub(super) const K_DEVIATION: f64 = 1.71;
/// Spearman's correlation of length and depth (printed).
const LENGTH_WITH_DEPTH: f64 = 0.544;

/// Weights, which sum to one, and eyes.
pub(super) fn eyes(constants: FormulaConstants, limits: &Limits) -> Vec<(f64, FormulaInputs)> {
    let root = 10.0_f64.sqrt();
    let [inner, outer] = [(5.0 - root).sqrt(), (5.0 + root).sqrt()];
    let [by_inner, by_outer] = [(7.0 + 2.0 * root) / 60.0, (7.0 - 2.0 * root) / 60.0];
    let lengths = [
        (-outer, by_outer),
        (-inner, by_inner),
        (0.0, 8.0 / 15.0),
        (inner, by_inner),
        (outer, by_outer),
    ];
    let three = 3.0_f64.sqrt();
    let powers = [(-three, 1.0 / 6.0), (0.0, 2.0 / 3.0), (three, 1.0 / 6.0)];
    // Pearson's correlation of the normal variables behind the ranks.
    let together = 2.0 * math::sin(PI * LENGTH_WITH_DEPTH / 6.0);
    let by_length = lengths
        .into_iter()
        .flat_map(|length| powers.map(|power| (length, power)));
    by_length
        .map(|((length, by_length), (power, by_power))| {
            let mean = average_eye(constants, limits);
            let k_d = limits.average_k.diopters().d() + K_DEVIATION * power;
            let radius = KeratometricIndex::STANDARD.radius(Diopters::new(k_d));
            let length_mm = limits.average_length.millimeters().mm() + LENGTH_DEVIATION * length;
            let depth_mm =
                limits.average_depth.millimeters().mm() + DEPTH_DEVIATION * together * length;
            let eye = FormulaInputs {
                cornea: Some(CornealRadii(radius, radius)),
                acd: Some(Millimeters::new(depth_mm)),
                ..mean
            };
            (
                by_length * by_power,
                eye.with_length(Millimeters::new(length_mm)),
            )
        })
        .collect()
}

/// The eye in the middle of the population.
pub fn average_eye(constants: FormulaConstants, limits: &Limits) -> FormulaInputs {
    let radius = KeratometricIndex::STANDARD.radius(limits.average_k.diopters());
    FormulaInputs {
        cornea: Some(CornealRadii(radius, radius)),
        acd: Some(limits.average_depth.millimeters()),
        history: CornealHistory::Untouched,
        constants,
        ..FormulaInputs::absent()
    }
    .with_length(limits.average_length.millimeters())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Printed: 23.87 ± 1.55 mm, 43.91 ± 1.71 D, 3.25 mm; the depth that goes with a length varies by
    /// 2·sin(π·0.544/6)·0.44 = 0.2471 mm. A normal length has a fourth moment of 3.
    #[test]
    fn means_over_the_eyes_are_means_over_the_population() {
        let eyes = eyes(FormulaConstants::default(), Limits::shipped());
        assert_eq!(eyes.len(), 15);
        let mean = |of: &dyn Fn(&FormulaInputs) -> f64| {
            eyes.iter()
                .map(|(weight, eye)| weight * of(eye))
                .sum::<f64>()
        };
        let length = |eye: &FormulaInputs| (eye.axial_length.unwrap().value.mm() - 23.87) / 1.55;
        let power = |eye: &FormulaInputs| (eye.cornea.unwrap().mean_power().d() - 43.91) / 1.71;
        let depth = |eye: &FormulaInputs| (eye.acd.unwrap().mm() - 3.25) / 0.2471;
        for of in [&length as &dyn Fn(&FormulaInputs) -> f64, &power] {
            assert!(mean(of).abs() < 1e-9);
            assert!((mean(&|eye| of(eye) * of(eye)) - 1.0).abs() < 1e-9);
        }
        assert!((mean(&|_| 1.0) - 1.0).abs() < 1e-12);
        assert!(
            (mean(&|eye| length(eye) * length(eye) * length(eye) * length(eye)) - 3.0).abs() < 1e-9
        );
        assert!((mean(&|eye| depth(eye) * length(eye)) - 1.0).abs() < 1e-3);
    }
}
