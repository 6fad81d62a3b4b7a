//! One lens that can be ordered.

use core::fmt;

use super::{ClinicResult, ToricSteps};
use crate::iol_power::thick_lens::LensShape;
use crate::iol_power::{
    AConstant, Formula, FormulaConstants, HaigisConstants, PersonalizedAcd, Powers, SurgeonFactor,
};
use crate::quantity::{HundredthDiopters, Micrometers};

/// A lens with everything the plan needs of it.
#[derive(Clone, Debug, PartialEq)]
pub struct LensRecord {
    /// Name under which the clinic files it.
    pub name: String,
    /// Model as printed on the box.
    pub model: String,
    pub site: LensSite,
    /// What the optic is made of.
    pub material: Material,
    pub haptic: Haptic,
    pub optic_diameter: Micrometers,
    pub overall_length: Micrometers,
    /// Whether the maker allows it in the ciliary sulcus.
    pub may_sit_in_sulcus: bool,
    pub powers: Powers,
    /// Cylinders it is made in, if it is toric.
    pub toric: Option<ToricSteps>,
    /// Average power implanted, if the clinic knows it.
    pub average_power: Option<HundredthDiopters>,
    /// Index and thickness of the optic, if known.
    pub shape: Option<LensShape>,
    pub constants_for: BiometryKind,
    /// Its constants with how each was come by.
    pub constants: RecordConstants,
    /// The clinic's own results with it, at most one per formula.
    pub results: Vec<ClinicResult>,
}

impl LensRecord {
    /// The clinic's own result of a formula with this lens.
    pub fn result_of(&self, formula: Formula) -> Option<&ClinicResult> {
        self.results.iter().find(|result| result.formula == formula)
    }
}

/// Where a lens is made to sit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LensSite {
    Bag,
    AnteriorChamber,
}

/// What an optic is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Material {
    HydrophobicAcrylic,
    HydrophilicAcrylic,
    Silicone,
    /// Poly(methyl methacrylate).
    Pmma,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Haptic {
    /// Optic and haptics of one piece.
    OnePiece,
    /// Optic with two separate loops.
    ThreePiece,
    Plate,
}

/// Kind of biometry that lens constants are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BiometryKind {
    Optical,
    Ultrasound,
}

/// How a constant was come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Obtained {
    Given,
    Optimized {
        eyes: u32,
    },
    /// Converted from the A constant, not optimized.
    ConvertedFromA,
}

/// A constant with its origin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Constant<T> {
    pub value: T,
    pub obtained: Obtained,
}

/// The constants of a record; what it does not have stays absent.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RecordConstants {
    /// For SRK/T and T2.
    pub a_constant: Option<Constant<AConstant>>,
    /// For Hoffer Q.
    pub personalized_acd: Option<Constant<PersonalizedAcd>>,
    /// For Holladay 1.
    pub surgeon_factor: Option<Constant<SurgeonFactor>>,
    pub haigis: Option<Constant<HaigisConstants>>,
}

impl RecordConstants {
    /// The bare constants, as formulas take them.
    pub fn values(&self) -> FormulaConstants {
        FormulaConstants {
            a_constant: self.a_constant.map(|constant| constant.value),
            personalized_acd: self.personalized_acd.map(|constant| constant.value),
            surgeon_factor: self.surgeon_factor.map(|constant| constant.value),
            haigis: self.haigis.map(|constant| constant.value),
        }
    }
}

impl fmt::Display for LensSite {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Bag => "capsular bag",
            Self::AnteriorChamber => "anterior chamber",
        })
    }
}
