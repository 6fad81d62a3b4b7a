//! What a formula may ask of an eye and a lens.

use super::thick_lens::LensShape;
use super::{CornealRadii, Estimate, FormulaConstants, Needed, Refusal};
use crate::quantity::{Diopters, Millimeters, Number};

/// What was done to the cornea before, as far as the formulas care.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CornealHistory {
    Untouched,
    /// Nobody recorded it: computed as untouched, with a caution.
    NotRecorded,
    Myopic,
    Hyperopic,
    /// Anything else that changed its shape: radial cuts, a graft.
    Other,
}

impl CornealHistory {
    /// Whether the cornea is known to have been operated on.
    pub const fn is_operated(self) -> bool {
        matches!(self, Self::Myopic | Self::Hyperopic | Self::Other)
    }
}

/// What a formula may ask of an eye and a lens; what is absent stays absent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FormulaInputs<N = f64> {
    /// Axial length, or why there is none that may be used.
    pub axial_length: Result<Estimate<Millimeters<N>>, Refusal>,
    /// Axial length for a formula without constants that could make up for the method, or why there
    /// is none.
    pub optical_length: Result<Estimate<Millimeters<N>>, Refusal>,
    pub cornea: Option<CornealRadii<N>>,
    /// Chamber depth from the epithelium to the lens front.
    pub acd: Option<Millimeters<N>>,
    /// What it wants where there is none.
    pub acd_lacks: Needed,
    pub lens_thickness: Option<Millimeters<N>>,
    pub corneal_thickness: Option<Millimeters<N>>,
    /// Mean back radius of the cornea.
    pub posterior_radius: Option<Millimeters<N>>,
    pub history: CornealHistory,
    /// Mean corneal power at 1.3375 before that.
    pub power_before_surgery: Option<Diopters<N>>,
    /// Myopia removed, at the corneal plane.
    pub known_correction: Option<Diopters>,
    pub constants: FormulaConstants,
    /// Index and thickness of the optic.
    pub shape: Option<LensShape>,
    /// Whether the thick-lens eye takes the sum-of-segments length.
    pub sum_of_segments: bool,
}

impl<N: Number> FormulaInputs<N> {
    /// An eye of which nothing was measured and nothing recorded.
    pub fn absent() -> Self {
        let missing = Err(Refusal::NotMeasured {
            what: Needed::AxialLength,
        });
        Self {
            axial_length: missing,
            optical_length: missing,
            cornea: None,
            acd: None,
            acd_lacks: Needed::ChamberDepth,
            lens_thickness: None,
            corneal_thickness: None,
            posterior_radius: None,
            history: CornealHistory::NotRecorded,
            power_before_surgery: None,
            known_correction: None,
            constants: FormulaConstants::default(),
            shape: None,
            sum_of_segments: false,
        }
    }

    /// With this axial length for every formula, whatever its constants.
    #[must_use]
    pub fn with_length(self, axial_length: Millimeters<N>) -> Self {
        let length = Ok(Estimate::good(axial_length));
        Self {
            axial_length: length,
            optical_length: length,
            ..self
        }
    }
}
