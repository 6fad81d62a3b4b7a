//! Version 1 of the stored documents. Once released it is never changed again, only succeeded: a new
//! field makes a new version, so that an older program names the version and not the field.

mod approach;
mod clinic_result;
mod eye;
mod lens;
mod lens_plan;
mod mirror;
mod patient;
mod posterior;
mod second_look;
mod state;
mod text;
mod theatre;
mod toric;

use approach::Approach;
use eye::Eye;
use lens::LensRecord;
use lens_plan::LensPlan;
use patient::{EyeChange, Operation, Patient, Reason};
use second_look::SecondLook;
use serde::{Deserialize, Serialize};
use theatre::Theatre;

use super::{CASE_FORMAT, CaseFileError, Header, LENS_FORMAT};
use crate::case::Draft;

/// A case.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CaseFile {
    format: String,
    version: u32,
    patient: Patient,
    operation: Operation,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    right_eye: Option<Eye>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    left_eye: Option<Eye>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lens: Option<LensPlan>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    approach: Option<Approach>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    theatre: Option<Theatre>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    reasons: Vec<Reason>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    eye_changes: Vec<EyeChange>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    second_look: Option<SecondLook>,
}

impl CaseFile {
    pub(super) fn from_draft(draft: &Draft) -> Self {
        Self {
            format: CASE_FORMAT.to_owned(),
            version: 1,
            patient: Patient::from_domain(&draft.patient),
            operation: Operation::from_domain(&draft.operation),
            right_eye: Eye::from_domain(&draft.eyes.right),
            left_eye: Eye::from_domain(&draft.eyes.left),
            lens: LensPlan::from_domain(&draft.lens),
            approach: Approach::from_domain(&draft.approach),
            theatre: Theatre::from_domain(&draft.theatre),
            reasons: draft.reasons.iter().map(Reason::from_domain).collect(),
            eye_changes: draft
                .eye_changes
                .iter()
                .map(EyeChange::from_domain)
                .collect(),
            second_look: draft.second_look.as_ref().map(SecondLook::from_domain),
        }
    }

    pub(super) fn header(&self) -> Header {
        Header {
            format: self.format.clone(),
            version: self.version,
        }
    }

    pub(super) fn into_draft(self) -> Result<Draft, CaseFileError> {
        let mut draft = Draft {
            patient: self.patient.into_domain()?,
            operation: self.operation.into_domain(),
            eye_changes: self
                .eye_changes
                .into_iter()
                .map(EyeChange::into_domain)
                .collect::<Result<_, _>>()?,
            reasons: patient::reasons_into_domain(self.reasons)?,
            second_look: self.second_look.map(SecondLook::into_domain).transpose()?,
            ..Draft::default()
        };
        if let Some(eye) = self.right_eye {
            draft.eyes.right = eye.into_domain("right_eye")?;
        }
        if let Some(eye) = self.left_eye {
            draft.eyes.left = eye.into_domain("left_eye")?;
        }
        if let Some(lens) = self.lens {
            draft.lens = lens.into_domain()?;
        }
        if let Some(approach) = self.approach {
            draft.approach = approach.into_domain()?;
        }
        if let Some(theatre) = self.theatre {
            draft.theatre = theatre.into_domain()?;
        }
        Ok(draft)
    }
}

/// A list of lens records.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LensFile {
    format: String,
    version: u32,
    lenses: Vec<LensRecord>,
}

impl LensFile {
    pub(super) fn from_records(records: &[crate::lens::LensRecord]) -> Self {
        Self {
            format: LENS_FORMAT.to_owned(),
            version: 1,
            lenses: records.iter().map(LensRecord::from_domain).collect(),
        }
    }

    pub(super) fn into_records(self) -> Result<Vec<crate::lens::LensRecord>, CaseFileError> {
        self.lenses
            .into_iter()
            .map(|record| record.into_domain("lenses"))
            .collect()
    }
}
