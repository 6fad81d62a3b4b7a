//! The approach, as stored.

use serde::{Deserialize, Serialize};

use super::mirror::mirror;
use super::text::Text;
use super::toric::IncisionEffect;
use crate::case::{self, ApproachPlan, CommandRefused};
use crate::case_file::CaseFileError;
use crate::case_file::error::ContentError;
use crate::chamber::{Division, Nucleus};
use crate::quantity::{Direction, Micrometers};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    clippy::struct_field_names,
    reason = "fields have the names of the file"
)]
pub(super) struct Approach {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    approach: Option<ApproachName>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    incision_width: Option<Text<Micrometers>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    incision_direction: Option<u16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    incision_effect: Option<IncisionEffect>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    nucleus: Option<NucleusSize>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pieces: Option<u8>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    capsulorhexis: Option<Text<Micrometers>>,
}

mirror!(
    ApproachName = case::Approach {
        Phacoemulsification,
        SmallIncision
    }
);

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct NucleusSize {
    diameter: Text<Micrometers>,
    thickness: Text<Micrometers>,
}

impl Approach {
    pub(super) fn from_domain(plan: &ApproachPlan) -> Option<Self> {
        if *plan == ApproachPlan::default() {
            return None;
        }
        Some(Self {
            approach: plan.approach.map(Into::into),
            incision_width: plan.incision_width.map(Text),
            incision_direction: plan.incision_direction.map(Direction::degrees),
            incision_effect: plan.incision_effect.map(IncisionEffect::from_domain),
            nucleus: plan.nucleus.map(|nucleus| NucleusSize {
                diameter: Text(nucleus.diameter()),
                thickness: Text(nucleus.thickness()),
            }),
            pieces: plan.pieces,
            capsulorhexis: plan.capsulorhexis.map(Text),
        })
    }

    pub(super) fn into_domain(self) -> Result<ApproachPlan, CaseFileError> {
        let at = CaseFileError::at("approach");
        self.checked().map_err(at)
    }

    fn checked(self) -> Result<ApproachPlan, ContentError> {
        if let Some(pieces) = self.pieces
            && Division::with_pieces(pieces).is_none()
        {
            return Err(CommandRefused::NoSuchDivision { pieces }.into());
        }
        let nucleus = self
            .nucleus
            .map(|size| Nucleus::new(size.diameter.0, size.thickness.0))
            .transpose()?;
        Ok(ApproachPlan {
            approach: self.approach.map(Into::into),
            incision_width: self.incision_width.map(|width| width.0),
            incision_direction: self.incision_direction.map(Direction::new).transpose()?,
            incision_effect: self
                .incision_effect
                .map(IncisionEffect::into_domain)
                .transpose()?,
            nucleus,
            pieces: self.pieces,
            capsulorhexis: self.capsulorhexis.map(|diameter| diameter.0),
        })
    }
}
