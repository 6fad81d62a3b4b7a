//! What was seen of one eye, as stored.

use serde::{Deserialize, Serialize};

use super::mirror::mirror;
use super::text::Text;
use crate::biometry::{
    self, CornealReading, EmeryLittleGrade, EyeState, LocsTenths, NucleusGradeError, WhoGrade,
};
use crate::case_file::error::ContentError;
use crate::quantity::{HundredthDiopters, Micrometers, OutOfRange, decimal};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct State {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    nucleus: Option<NucleusGrade>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    dense_cataract: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    white_cataract: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    brunescent: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    posterior_polar: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    capsule_plaque: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pseudoexfoliation: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    phacodonesis: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lens_decentration: Option<Text<Micrometers>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    guttata: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    corneal_scarring: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    irregular_cornea: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    keratoplasty_likely: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    previous_vitrectomy: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    silicone_oil: Option<SiliconeOil>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    corneal_surgery: Option<CornealSurgery>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    other_difficulty: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    refraction: Option<Text<HundredthDiopters>>,
}

mirror!(
    SiliconeOil = biometry::SiliconeOil {
        Absent,
        LengthUncorrected,
        LengthCorrected
    }
);

mirror!(
    SurgeryKind = biometry::CornealSurgeryKind {
        MyopicLaser,
        HyperopicLaser,
        Other
    }
);

/// A grade with its scale; LOCS III grades as text, since their tenths are exact.
#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum NucleusGrade {
    LocsIii {
        opalescence: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        color: Option<String>,
    },
    WhoSimplified(u8),
    EmeryLittle(u8),
}

impl NucleusGrade {
    fn from_domain(grade: biometry::NucleusGrade) -> Self {
        match grade {
            biometry::NucleusGrade::LocsIii { opalescence, color } => Self::LocsIii {
                opalescence: opalescence.to_string(),
                color: color.map(|color| color.to_string()),
            },
            biometry::NucleusGrade::WhoSimplified(grade) => Self::WhoSimplified(grade.grade()),
            biometry::NucleusGrade::EmeryLittle(grade) => Self::EmeryLittle(grade.grade()),
        }
    }

    fn into_domain(self) -> Result<biometry::NucleusGrade, ContentError> {
        Ok(match self {
            Self::LocsIii { opalescence, color } => biometry::NucleusGrade::LocsIii {
                opalescence: locs(&opalescence)?,
                color: color.as_deref().map(locs).transpose()?,
            },
            Self::WhoSimplified(grade) => {
                biometry::NucleusGrade::WhoSimplified(WhoGrade::new(grade)?)
            }
            Self::EmeryLittle(grade) => {
                biometry::NucleusGrade::EmeryLittle(EmeryLittleGrade::new(grade)?)
            }
        })
    }
}

fn locs(text: &str) -> Result<LocsTenths, ContentError> {
    match decimal::parse(text, 1) {
        Ok(tenths) => Ok(LocsTenths::new(tenths)?),
        Err(_) => Err(NucleusGradeError {
            scale: "LOCS III",
            value: format!("\"{text}\""),
            min: "0.1",
            max: "6.9",
        }
        .into()),
    }
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum CornealSurgery {
    Absent,
    Done {
        kind: SurgeryKind,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        before: Option<(Text<CornealReading>, Text<CornealReading>)>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        correction: Option<Text<HundredthDiopters>>,
    },
}

impl CornealSurgery {
    fn from_domain(surgery: biometry::CornealSurgery) -> Self {
        match surgery {
            biometry::CornealSurgery::Absent => Self::Absent,
            biometry::CornealSurgery::Done {
                kind,
                before,
                correction,
            } => Self::Done {
                kind: kind.into(),
                before: before.map(|[first, second]| (Text(first), Text(second))),
                correction: correction.map(Text),
            },
        }
    }

    fn into_domain(self) -> Result<biometry::CornealSurgery, OutOfRange> {
        let Self::Done {
            kind,
            before,
            correction,
        } = self
        else {
            return Ok(biometry::CornealSurgery::Absent);
        };
        if let Some(Text(correction)) = correction {
            // Myopia removed is given without a sign; a refraction typed here has the wrong one.
            let limits = [HundredthDiopters::new(0), HundredthDiopters::new(3_000)];
            if correction < limits[0] || limits[1] < correction {
                return Err(OutOfRange::new("myopia removed", correction, limits));
            }
        }
        Ok(biometry::CornealSurgery::Done {
            kind: kind.into(),
            before: before.map(|(first, second)| [first.0, second.0]),
            correction: correction.map(|correction| correction.0),
        })
    }
}

impl State {
    pub(super) fn from_domain(state: &EyeState) -> Option<Self> {
        if *state == EyeState::default() {
            return None;
        }
        Some(Self {
            nucleus: state.nucleus.map(NucleusGrade::from_domain),
            dense_cataract: state.dense_cataract,
            white_cataract: state.white_cataract,
            brunescent: state.brunescent,
            posterior_polar: state.posterior_polar,
            capsule_plaque: state.capsule_plaque,
            pseudoexfoliation: state.pseudoexfoliation,
            phacodonesis: state.phacodonesis,
            lens_decentration: state.lens_decentration.map(Text),
            guttata: state.guttata,
            corneal_scarring: state.corneal_scarring,
            irregular_cornea: state.irregular_cornea,
            keratoplasty_likely: state.keratoplasty_likely,
            previous_vitrectomy: state.previous_vitrectomy,
            silicone_oil: state.silicone_oil.map(Into::into),
            corneal_surgery: state.corneal_surgery.map(CornealSurgery::from_domain),
            other_difficulty: state.other_difficulty,
            refraction: state.refraction.map(Text),
        })
    }

    pub(super) fn into_domain(self) -> Result<EyeState, ContentError> {
        Ok(EyeState {
            nucleus: self.nucleus.map(NucleusGrade::into_domain).transpose()?,
            dense_cataract: self.dense_cataract,
            white_cataract: self.white_cataract,
            brunescent: self.brunescent,
            posterior_polar: self.posterior_polar,
            capsule_plaque: self.capsule_plaque,
            pseudoexfoliation: self.pseudoexfoliation,
            phacodonesis: self.phacodonesis,
            lens_decentration: self.lens_decentration.map(|length| length.0),
            guttata: self.guttata,
            corneal_scarring: self.corneal_scarring,
            irregular_cornea: self.irregular_cornea,
            keratoplasty_likely: self.keratoplasty_likely,
            previous_vitrectomy: self.previous_vitrectomy,
            silicone_oil: self.silicone_oil.map(Into::into),
            corneal_surgery: self
                .corneal_surgery
                .map(CornealSurgery::into_domain)
                .transpose()?,
            other_difficulty: self.other_difficulty,
            refraction: self.refraction.map(|refraction| refraction.0),
        })
    }
}
