//! The mean eye, through which the constants of a lens are compared: in it a lens needs about the same
//! power by every formula, if its constants belong together.

use super::{CornealHistory, CornealRadii, Formula, FormulaConstants, FormulaInputs};
use crate::evidence::{HOFFMANN_2010, HOUSE, Source, Standing};
use crate::quantity::{Diopters, KeratometricIndex, Millimeters};

/// Its axial length.
pub const LENGTH: Millimeters = Millimeters::new(23.5);

/// Its corneal power, at index 1.3375.
pub const POWER: Diopters = Diopters::new(43.5);

/// Its chamber depth from the epithelium, which Haigis takes.
pub const DEPTH: Millimeters = Millimeters::new(3.11);

pub(crate) const SOURCE: Source =
    Standing::Assumption.of(HOUSE, "the mean eye: AL 23.5 mm, K 43.5 D at 1.3375");

pub(crate) const DEPTH_SOURCE: Source = Standing::Printed.of(
    HOFFMANN_2010,
    "mean chamber depth 3.11 mm, axial length 23.43 mm",
);

/// A formula for each constant; T2 takes that of SRK/T.
pub(crate) const FORMULAS: [Formula; 4] = [
    Formula::SrkT,
    Formula::Holladay1,
    Formula::HofferQ,
    Formula::Haigis,
];

/// The power that leaves the mean eye without a refraction; nothing without the constant, or where the
/// formula gives no result.
pub(crate) fn power(formula: Formula, constants: FormulaConstants) -> Option<Diopters> {
    let radius = KeratometricIndex::STANDARD.radius(POWER);
    let inputs = FormulaInputs {
        cornea: Some(CornealRadii(radius, radius)),
        acd: Some(DEPTH),
        history: CornealHistory::Untouched,
        constants,
        ..FormulaInputs::absent()
    }
    .with_length(LENGTH);
    let eye = formula.eye(&inputs).ok()?.value;
    eye.power_for(Diopters::new(0.0)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lens::Obtained;
    use crate::rules::testing_lens::constants;

    /// By a chain of one's own (python, from the printed equations; the radius is 337.5/43.5 mm): A 119
    /// +21.293 D, surgeon factor 1.85 +21.392, pACD 5.6 +21.352, Haigis 1.9/0.4/0.1 +22.363.
    #[test]
    fn each_formula_has_a_power_in_the_mean_eye() {
        let constants = constants(Obtained::Given).values();
        let expected = [21.293, 21.392, 21.352, 22.363];
        for (formula, expected) in FORMULAS.into_iter().zip(expected) {
            let found = power(formula, constants).unwrap().d();
            assert!((found - expected).abs() < 0.0006, "{formula:?} {found}");
            assert_eq!(power(formula, FormulaConstants::default()), None);
        }
    }
}
