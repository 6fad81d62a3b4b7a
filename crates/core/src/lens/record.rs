//! One lens that can be ordered.

use core::fmt;

use serde::{Deserialize, Serialize};
use serde_with::{serde_as, skip_serializing_none};

use super::{ClinicResult, ToricSteps};
use crate::iol_power::thick_lens::LensShape;
use crate::iol_power::{
    AConstant, Formula, FormulaConstants, HaigisConstants, PersonalizedAcd, Powers, SurgeonFactor,
};
use crate::plain_text::{self, TextRefused};
use crate::quantity::{HundredthDiopters, Micrometers, OutOfRange, Text, checked_when_read};

/// A lens with everything the plan needs of it.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct LensRecord {
    /// Name under which the clinic files it.
    pub name: String,
    /// Model as printed on the box.
    pub model: String,
    pub site: LensSite,
    /// What the optic is made of.
    pub material: Material,
    pub haptic: Haptic,
    #[serde_as(as = "Text")]
    pub optic_diameter: Micrometers,
    #[serde_as(as = "Text")]
    pub overall_length: Micrometers,
    /// Whether the maker allows it in the ciliary sulcus.
    pub may_sit_in_sulcus: bool,
    pub powers: Powers,
    /// Cylinders it is made in, if it is toric.
    pub toric: Option<ToricSteps>,
    /// Average power implanted, if the clinic knows it.
    #[serde_as(as = "Option<Text>")]
    pub average_power: Option<HundredthDiopters>,
    /// Index and thickness of the optic, if known.
    #[serde(rename = "optic")]
    pub shape: Option<LensShape>,
    pub constants_for: BiometryKind,
    /// Its constants with how each was come by.
    pub constants: RecordConstants,
    /// The clinic's own results with it, at most one per formula.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub results: Vec<ClinicResult>,
}

checked_when_read!(LensRecord, LensRecord::check);

/// Why no lens is like this record.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum RecordRefused {
    /// A name that could forge a line of the plan.
    #[error(transparent)]
    Text(#[from] TextRefused),
    #[error(transparent)]
    Range(#[from] OutOfRange),
    /// Two results of one formula, which would leave open which counts.
    #[error("more than one result of {} is recorded for the lens", .0.name())]
    ResultTwice(Formula),
}

impl LensRecord {
    /// Smallest and largest optic diameter (house value).
    pub const OPTIC_RANGE: [Micrometers; 2] = [Micrometers::new(3_000), Micrometers::new(9_000)];
    /// Smallest and largest overall length (house value).
    pub const LENGTH_RANGE: [Micrometers; 2] = [Micrometers::new(8_000), Micrometers::new(16_000)];

    /// Refuses what no lens has; what is read from a file passed here.
    pub fn check(&self) -> Result<(), RecordRefused> {
        plain_text::check("lens name", &self.name)?;
        plain_text::check("lens model", &self.model)?;
        let length = "overall length of the lens";
        for (quantity, length, limits) in [
            ("optic diameter", self.optic_diameter, Self::OPTIC_RANGE),
            (length, self.overall_length, Self::LENGTH_RANGE),
        ] {
            if length < limits[0] || limits[1] < length {
                return Err(OutOfRange::new(quantity, length, limits).into());
            }
        }
        self.shape.as_ref().map_or(Ok(()), LensShape::check)?;
        self.constants.check()?;
        for (index, result) in self.results.iter().enumerate() {
            result.check()?;
            let formula = result.formula;
            let mut earlier = self.results.iter().take(index);
            if earlier.any(|earlier| earlier.formula == formula) {
                return Err(RecordRefused::ResultTwice(formula));
            }
        }
        Ok(())
    }

    /// Whether it is made to sit there, or its maker allows it.
    pub fn may_sit_in(&self, place: Place) -> bool {
        match place {
            Place::Bag => self.site == LensSite::Bag,
            Place::Sulcus => self.site == LensSite::Bag && self.may_sit_in_sulcus,
            Place::AnteriorChamber => self.site == LensSite::AnteriorChamber,
        }
    }

    /// The clinic's own result of a formula with this lens.
    pub fn result_of(&self, formula: Formula) -> Option<&ClinicResult> {
        self.results.iter().find(|result| result.formula == formula)
    }
}

/// Where a lens is made to sit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LensSite {
    Bag,
    AnteriorChamber,
}

/// Where a lens is meant to sit in this eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    Bag,
    Sulcus,
    AnteriorChamber,
}

/// What an optic is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Material {
    HydrophobicAcrylic,
    HydrophilicAcrylic,
    Silicone,
    /// Poly(methyl methacrylate).
    Pmma,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Haptic {
    /// Optic and haptics of one piece.
    OnePiece,
    /// Optic with two separate loops.
    ThreePiece,
    Plate,
}

/// Kind of biometry that lens constants are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BiometryKind {
    Optical,
    Ultrasound,
}

/// How a constant was come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", remote = "Self")]
pub enum Obtained {
    Given,
    Optimized {
        eyes: u32,
    },
    /// Converted from the A constant, not optimized.
    ConvertedFromA,
}

checked_when_read!(Obtained, |it: &Obtained| it.check());

impl Obtained {
    /// Nothing is optimized on no eyes.
    fn check(self) -> Result<(), OutOfRange> {
        match self {
            Self::Optimized { eyes: 0 } => {
                let what = "number of eyes a constant was optimized on";
                Err(OutOfRange::new(what, 0, [1, u32::MAX]))
            }
            Self::Given | Self::Optimized { .. } | Self::ConvertedFromA => Ok(()),
        }
    }
}

/// A constant with its origin.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Constant<T> {
    pub value: T,
    pub obtained: Obtained,
}

/// The constants of a record; what it does not have stays absent.
#[skip_serializing_none]
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecordConstants {
    /// For SRK/T and T2.
    pub a_constant: Option<Constant<AConstant>>,
    /// For Hoffer Q.
    #[serde(rename = "pacd_mm")]
    pub personalized_acd: Option<Constant<PersonalizedAcd>>,
    /// For Holladay 1.
    #[serde(rename = "surgeon_factor_mm")]
    pub surgeon_factor: Option<Constant<SurgeonFactor>>,
    pub haigis: Option<Constant<HaigisConstants>>,
}

impl RecordConstants {
    fn check(&self) -> Result<(), OutOfRange> {
        let Self {
            a_constant,
            personalized_acd,
            surgeon_factor,
            haigis,
        } = self;
        let obtained = [
            a_constant.map(|constant| constant.obtained),
            personalized_acd.map(|constant| constant.obtained),
            surgeon_factor.map(|constant| constant.obtained),
            haigis.map(|constant| constant.obtained),
        ];
        obtained.into_iter().flatten().try_for_each(Obtained::check)
    }

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
