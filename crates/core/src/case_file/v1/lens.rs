//! Lens records, as stored.

use serde::{Deserialize, Serialize};

use super::clinic_result::ClinicResult;
use super::mirror::mirror;
use super::text::Text;
use super::toric::ToricSteps;
use crate::case::plain_text;
use crate::case_file::CaseFileError;
use crate::case_file::error::ContentError;
use crate::iol_power::{AConstant, HaigisConstants, PersonalizedAcd, SurgeonFactor};
use crate::iol_power::{PowerRange, Powers, thick_lens::LensShape};
use crate::lens::{self, Constant, RecordConstants};
use crate::quantity::{HundredthDiopters, Micrometers, OutOfRange};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LensRecord {
    name: String,
    model: String,
    site: LensSite,
    material: Material,
    haptic: Haptic,
    optic_diameter: Text<Micrometers>,
    overall_length: Text<Micrometers>,
    may_sit_in_sulcus: bool,
    powers: Vec<Range>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    toric: Option<ToricSteps>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    average_power: Option<Text<HundredthDiopters>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    optic: Option<Optic>,
    constants_for: BiometryKind,
    constants: Constants,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    results: Vec<ClinicResult>,
}

mirror!(
    LensSite = lens::LensSite {
        Bag,
        AnteriorChamber
    }
);
mirror!(
    Material = lens::Material {
        HydrophobicAcrylic,
        HydrophilicAcrylic,
        Silicone,
        Pmma
    }
);
mirror!(
    Haptic = lens::Haptic {
        OnePiece,
        ThreePiece,
        Plate
    }
);
mirror!(
    BiometryKind = lens::BiometryKind {
        Optical,
        Ultrasound
    }
);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Range {
    from: Text<HundredthDiopters>,
    to: Text<HundredthDiopters>,
    step: Text<HundredthDiopters>,
}

/// Index and central thickness of the optic.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Optic {
    index: f64,
    thickness: Text<Micrometers>,
}

impl Optic {
    fn from_domain(shape: LensShape) -> Option<Self> {
        let thickness = shape.thickness.nearest_micrometer()?;
        Some(Self {
            index: shape.index,
            thickness: Text(thickness),
        })
    }

    fn into_domain(self) -> Result<LensShape, OutOfRange> {
        if !(1.40 <= self.index && self.index <= 1.70) {
            return Err(OutOfRange::new(
                "index of the optic",
                self.index,
                [1.40, 1.70],
            ));
        }
        let thickness = self.thickness.0;
        let limits = [Micrometers::new(200), Micrometers::new(3_000)];
        if !(limits[0] <= thickness && thickness <= limits[1]) {
            return Err(OutOfRange::new("thickness of the optic", thickness, limits));
        }
        Ok(LensShape {
            index: self.index,
            thickness: thickness.millimeters(),
        })
    }
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Obtained {
    Given,
    Optimized { eyes: u32 },
    ConvertedFromA,
}

impl From<lens::Obtained> for Obtained {
    fn from(obtained: lens::Obtained) -> Self {
        match obtained {
            lens::Obtained::Given => Self::Given,
            lens::Obtained::Optimized { eyes } => Self::Optimized { eyes },
            lens::Obtained::ConvertedFromA => Self::ConvertedFromA,
        }
    }
}

impl Obtained {
    /// Nothing is optimized on no eyes.
    fn into_domain(self) -> Result<lens::Obtained, OutOfRange> {
        match self {
            Self::Given => Ok(lens::Obtained::Given),
            Self::Optimized { eyes: 0 } => Err(OutOfRange::new(
                "number of eyes a constant was optimized on",
                0,
                [1, u32::MAX],
            )),
            Self::Optimized { eyes } => Ok(lens::Obtained::Optimized { eyes }),
            Self::ConvertedFromA => Ok(lens::Obtained::ConvertedFromA),
        }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Constants {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    a_constant: Option<Single>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pacd_mm: Option<Single>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    surgeon_factor_mm: Option<Single>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    haigis: Option<Haigis>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Single {
    value: f64,
    obtained: Obtained,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Haigis {
    a0_mm: f64,
    a1: f64,
    a2: f64,
    obtained: Obtained,
}

impl Single {
    fn from_domain<T: Copy>(constant: Constant<T>, value: impl Fn(T) -> f64) -> Self {
        Self {
            value: value(constant.value),
            obtained: constant.obtained.into(),
        }
    }

    fn into_domain<T>(
        stored: Option<Self>,
        checked: impl Fn(f64) -> Result<T, OutOfRange>,
    ) -> Result<Option<Constant<T>>, OutOfRange> {
        stored
            .map(|Self { value, obtained }| {
                Ok(Constant {
                    value: checked(value)?,
                    obtained: obtained.into_domain()?,
                })
            })
            .transpose()
    }
}

impl Constants {
    fn from_domain(constants: &RecordConstants) -> Self {
        Self {
            a_constant: constants
                .a_constant
                .map(|a| Single::from_domain(a, AConstant::value)),
            pacd_mm: constants
                .personalized_acd
                .map(|d| Single::from_domain(d, PersonalizedAcd::value)),
            surgeon_factor_mm: constants
                .surgeon_factor
                .map(|factor| Single::from_domain(factor, SurgeonFactor::value)),
            haigis: constants.haigis.map(|constant| Haigis {
                a0_mm: constant.value.a0_mm(),
                a1: constant.value.a1(),
                a2: constant.value.a2(),
                obtained: constant.obtained.into(),
            }),
        }
    }

    fn into_domain(self) -> Result<RecordConstants, OutOfRange> {
        Ok(RecordConstants {
            a_constant: Single::into_domain(self.a_constant, AConstant::new)?,
            personalized_acd: Single::into_domain(self.pacd_mm, PersonalizedAcd::new)?,
            surgeon_factor: Single::into_domain(self.surgeon_factor_mm, SurgeonFactor::new)?,
            haigis: self
                .haigis
                .map(
                    |Haigis {
                         a0_mm,
                         a1,
                         a2,
                         obtained,
                     }| {
                        let value = HaigisConstants::new(a0_mm, a1, a2)?;
                        Ok(Constant {
                            value,
                            obtained: obtained.into_domain()?,
                        })
                    },
                )
                .transpose()?,
        })
    }
}

impl LensRecord {
    pub(super) fn from_domain(record: &lens::LensRecord) -> Self {
        Self {
            name: record.name.clone(),
            model: record.model.clone(),
            site: record.site.into(),
            material: record.material.into(),
            haptic: record.haptic.into(),
            optic_diameter: Text(record.optic_diameter),
            overall_length: Text(record.overall_length),
            may_sit_in_sulcus: record.may_sit_in_sulcus,
            powers: record
                .powers
                .ranges()
                .iter()
                .map(|range| Range {
                    from: Text(range.from()),
                    to: Text(range.to()),
                    step: Text(range.step()),
                })
                .collect(),
            toric: record.toric.as_ref().map(ToricSteps::from_domain),
            average_power: record.average_power.map(Text),
            optic: record.shape.and_then(Optic::from_domain),
            constants_for: record.constants_for.into(),
            constants: Constants::from_domain(&record.constants),
            results: record
                .results
                .iter()
                .map(ClinicResult::from_domain)
                .collect(),
        }
    }

    pub(super) fn into_domain(
        self,
        place: &'static str,
    ) -> Result<lens::LensRecord, CaseFileError> {
        self.checked().map_err(CaseFileError::at(place))
    }

    fn checked(self) -> Result<lens::LensRecord, ContentError> {
        plain_text::check("lens name", &self.name)?;
        plain_text::check("lens model", &self.model)?;
        for (quantity, length, limits) in [
            ("optic diameter", self.optic_diameter.0, [3_000, 9_000]),
            (
                "overall length of the lens",
                self.overall_length.0,
                [8_000, 16_000],
            ),
        ] {
            let limits = limits.map(Micrometers::new);
            if length < limits[0] || limits[1] < length {
                return Err(OutOfRange::new(quantity, length, limits).into());
            }
        }
        let ranges: Result<Vec<_>, _> = self
            .powers
            .into_iter()
            .map(|range| PowerRange::new(range.from.0, range.to.0, range.step.0))
            .collect();
        Ok(lens::LensRecord {
            name: self.name,
            model: self.model,
            site: self.site.into(),
            material: self.material.into(),
            haptic: self.haptic.into(),
            optic_diameter: self.optic_diameter.0,
            overall_length: self.overall_length.0,
            may_sit_in_sulcus: self.may_sit_in_sulcus,
            powers: Powers::new(ranges?)?,
            toric: self.toric.map(ToricSteps::into_domain).transpose()?,
            average_power: self.average_power.map(|power| power.0),
            shape: self.optic.map(Optic::into_domain).transpose()?,
            constants_for: self.constants_for.into(),
            constants: self.constants.into_domain()?,
            results: ClinicResult::all_into_domain(self.results)?,
        })
    }
}
