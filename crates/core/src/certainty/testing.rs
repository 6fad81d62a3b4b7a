//! Eyes for tests.

use crate::iol_power::{
    AConstant, CornealHistory, CornealRadii, FormulaConstants, FormulaInputs, HaigisConstants,
    PersonalizedAcd, SurgeonFactor,
};
use crate::quantity::{Diopters, KeratometricIndex, Millimeters};

/// An eye of this length and mean K, a lens for every formula.
pub(super) fn eye(length_mm: f64, k_d: f64) -> FormulaInputs {
    let radius = KeratometricIndex::STANDARD.radius(Diopters::new(k_d));
    FormulaInputs {
        cornea: Some(CornealRadii(radius, radius)),
        acd: Some(Millimeters::new(3.2)),
        history: CornealHistory::Untouched,
        constants: FormulaConstants {
            a_constant: AConstant::new(118.7).ok(),
            personalized_acd: PersonalizedAcd::new(5.37).ok(),
            surgeon_factor: SurgeonFactor::new(1.62).ok(),
            haigis: HaigisConstants::new(1.3, 0.4, 0.1).ok(),
        },
        ..FormulaInputs::absent()
    }
    .with_length(Millimeters::new(length_mm))
}
