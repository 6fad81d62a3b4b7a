//! What theatre needs, as stored.

use serde::{Deserialize, Serialize};

use super::mirror::mirror;
use crate::case::{self, TheatrePlan};
use crate::case_file::CaseFileError;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Theatre {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    anesthesia: Option<Anesthesia>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    viscoelastic: Option<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    technique: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    in_room: Vec<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    allergies: Option<Told>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    medicines: Option<Told>,
}

mirror!(
    Anesthesia = case::Anesthesia {
        Topical,
        TopicalIntracameral,
        SubTenon,
        Peribulbar,
        Retrobulbar,
        General,
    }
);

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Told {
    NoneKnown,
    These(Vec<String>),
}

impl From<&case::Told> for Told {
    fn from(told: &case::Told) -> Self {
        match told {
            case::Told::NoneKnown => Self::NoneKnown,
            case::Told::These(texts) => Self::These(texts.clone()),
        }
    }
}

impl From<Told> for case::Told {
    fn from(told: Told) -> Self {
        match told {
            Told::NoneKnown => Self::NoneKnown,
            Told::These(texts) => Self::These(texts),
        }
    }
}

impl Theatre {
    pub(super) fn from_domain(plan: &TheatrePlan) -> Option<Self> {
        if *plan == TheatrePlan::default() {
            return None;
        }
        Some(Self {
            anesthesia: plan.anesthesia.map(Into::into),
            viscoelastic: plan.viscoelastic.clone(),
            technique: plan.technique.clone(),
            in_room: plan.in_room.clone(),
            allergies: plan.allergies.as_ref().map(Into::into),
            medicines: plan.medicines.as_ref().map(Into::into),
        })
    }

    pub(super) fn into_domain(self) -> Result<TheatrePlan, CaseFileError> {
        let plan = TheatrePlan {
            anesthesia: self.anesthesia.map(Into::into),
            viscoelastic: self.viscoelastic,
            technique: self.technique,
            in_room: self.in_room,
            allergies: self.allergies.map(Into::into),
            medicines: self.medicines.map(Into::into),
        };
        plan.check()
            .map_err(|error| CaseFileError::at("theatre")(error.into()))?;
        Ok(plan)
    }
}
