//! The corneal power a formula sees in one meridian: its own index over that meridian's radius.

use super::Formula;
use crate::quantity::{Diopters, Millimeters};

impl Formula {
    /// Power of a cornea of `radius` in one meridian, at the formula's own index; nothing for
    /// formulas that take no power of a single front surface: the thick-lens eye and the methods for
    /// operated corneas.
    ///
    /// Symbols: 1000·(n − 1) is 333 for SRK/T and T2, 1000/3 for Holladay 1, 337.5 for Hoffer Q, 331.5
    /// for Haigis, each as in the formula's own file.
    pub fn corneal_power_of(self, radius: Millimeters) -> Option<Diopters> {
        let power_of_1_mm = match self {
            Self::SrkT | Self::T2 => 333.0,
            Self::Holladay1 => 1000.0 * (4.0 / 3.0 - 1.0),
            Self::HofferQ => 337.5,
            Self::Haigis => 331.5,
            Self::ThickLens
            | Self::DoubleKNoHistory
            | Self::DoubleKKnownCorrection
            | Self::HaigisModifiedRadius => return None,
        };
        Some(Diopters::new(power_of_1_mm / radius.mm()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::iol_power::{CornealHistory, CornealRadii, FormulaInputs};
    use crate::iol_power::{Estimate, EyeModel};
    use crate::rules::testing_lens::constants;

    /// A cornea of one radius has one power, whether by meridian or by the formula.
    #[test]
    fn every_formula_sees_the_same_power_in_its_own_file() {
        for radius_mm in [6.8, 7.5, 8.4] {
            let radius = Millimeters::new(radius_mm);
            let inputs = FormulaInputs {
                cornea: Some(CornealRadii(radius, radius)),
                acd: Some(Millimeters::new(3.2)),
                history: CornealHistory::Untouched,
                constants: constants(crate::lens::Obtained::Given).values(),
                ..FormulaInputs::absent()
            }
            .with_length(Millimeters::new(23.5));
            for formula in Formula::THIN_LENS {
                let Ok(Estimate {
                    value: EyeModel::Thin(eye),
                    ..
                }) = formula.eye(&inputs)
                else {
                    panic!("{formula:?}");
                };
                let by_meridian = formula.corneal_power_of(radius).unwrap();
                assert!((eye.corneal_power - by_meridian).d().abs() < 1e-12);
            }
        }
    }

    #[test]
    fn others_have_no_power_of_one_front_surface() {
        for formula in Formula::ALL {
            let answers = formula.corneal_power_of(Millimeters::new(7.7)).is_some();
            assert_eq!(answers, Formula::THIN_LENS.contains(&formula));
        }
    }
}
