//! Target, lens and power, as stored.

use serde::{Deserialize, Serialize};

use super::lens::LensRecord;
use super::mirror::mirror;
use super::text::Text;
use super::toric::{PosteriorChoice, ToricChoice};
use crate::case;
use crate::case_file::CaseFileError;
use crate::iol_power::{self, ladder};
use crate::quantity::HundredthDiopters;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LensPlan {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    target: Option<Text<HundredthDiopters>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    consented_target: Option<Text<HundredthDiopters>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    formula: Option<Formula>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    convention: Option<Convention>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    power: Option<Text<HundredthDiopters>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    second_eye: Option<SecondEyeChoice>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    toric: Option<ToricChoice>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    posterior: Option<PosteriorChoice>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    ultrasound: Option<UltrasoundChoice>,
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    sum_of_segments: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    record: Option<LensRecord>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    spare: Option<LensRecord>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    spare_power: Option<Text<HundredthDiopters>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sulcus_power: Option<Text<HundredthDiopters>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    chamber_lens: Option<LensRecord>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    chamber_power: Option<Text<HundredthDiopters>>,
}

mirror!(
    Formula = iol_power::Formula {
        SrkT,
        T2,
        #[serde(rename = "holladay_1")]
        Holladay1,
        HofferQ,
        Haigis,
        ThickLens,
        DoubleKNoHistory,
        DoubleKKnownCorrection,
        HaigisModifiedRadius,
    }
);

mirror!(
    Convention = ladder::Convention {
        FirstMyopic,
        FirstHyperopic,
        Nearest
    }
);

mirror!(SecondEyeChoice = case::SecondEyeChoice { Refined, Unrefined });

mirror!(
    UltrasoundChoice = case::UltrasoundChoice {
        AsMeasured,
        AddPublishedDifference
    }
);

impl LensPlan {
    pub(super) fn from_domain(plan: &case::LensPlan) -> Option<Self> {
        if *plan == case::LensPlan::default() {
            return None;
        }
        Some(Self {
            target: plan.target.map(Text),
            consented_target: plan.consented_target.map(Text),
            formula: plan.formula.map(Into::into),
            convention: plan.convention.map(Into::into),
            power: plan.power.map(Text),
            second_eye: plan.second_eye.map(Into::into),
            toric: plan.toric.map(ToricChoice::from_domain),
            posterior: plan.posterior.map(Into::into),
            ultrasound: plan.ultrasound.map(Into::into),
            sum_of_segments: plan.sum_of_segments,
            record: plan.record.as_ref().map(LensRecord::from_domain),
            spare: plan.spare.as_ref().map(LensRecord::from_domain),
            spare_power: plan.spare_power.map(Text),
            sulcus_power: plan.sulcus_power.map(Text),
            chamber_lens: plan.chamber_lens.as_ref().map(LensRecord::from_domain),
            chamber_power: plan.chamber_power.map(Text),
        })
    }

    pub(super) fn into_domain(self) -> Result<case::LensPlan, CaseFileError> {
        let record = |stored: Option<LensRecord>, place| {
            stored.map(|record| record.into_domain(place)).transpose()
        };
        let plan = case::LensPlan {
            target: self.target.map(|target| target.0),
            consented_target: self.consented_target.map(|target| target.0),
            formula: self.formula.map(Into::into),
            convention: self.convention.map(Into::into),
            power: self.power.map(|power| power.0),
            second_eye: self.second_eye.map(Into::into),
            toric: self
                .toric
                .map(ToricChoice::into_domain)
                .transpose()
                .map_err(CaseFileError::at("lens.toric"))?,
            posterior: self.posterior.map(Into::into),
            ultrasound: self.ultrasound.map(Into::into),
            sum_of_segments: self.sum_of_segments,
            record: record(self.record, "lens.record")?,
            spare: record(self.spare, "lens.spare")?,
            spare_power: self.spare_power.map(|power| power.0),
            sulcus_power: self.sulcus_power.map(|power| power.0),
            chamber_lens: record(self.chamber_lens, "lens.chamber_lens")?,
            chamber_power: self.chamber_power.map(|power| power.0),
        };
        case::check_sites(&plan).map_err(|error| CaseFileError::at("lens")(error.into()))?;
        Ok(plan)
    }
}
