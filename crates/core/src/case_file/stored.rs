//! Version 3 of the stored documents. Each version adds to the one before what nobody need have recorded, so
//! that an older document reads as one in which nobody did. A new field makes a new version, so that an older
//! program names the version and not the field.

use serde::{Deserialize, Serialize};

use super::error::ContentError;
use super::{CASE_FORMAT, CaseFileError, Header, LENS_FORMAT, NEWEST};
use crate::biometry::{EyeRecord, PerEye};
use crate::case::{
    ApproachPlan, CommandRefused, Draft, EyeChange, Import, LensPlan, Operation, Patient,
    RecordedReason, SecondLook, SetAside, TheatrePlan, check_counts, check_measurements,
};
use crate::finding::OtherCase;
use crate::lens::LensRecord;
use crate::plain_text::check_count;

/// A case: its format and version, and the parts of a draft in the order of the file.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CaseFile {
    format: String,
    version: u32,
    patient: Patient,
    operation: Operation,
    #[serde(default, skip_serializing_if = "EyeRecord::is_blank")]
    right_eye: EyeRecord,
    #[serde(default, skip_serializing_if = "EyeRecord::is_blank")]
    left_eye: EyeRecord,
    #[serde(default, skip_serializing_if = "LensPlan::is_blank")]
    lens: LensPlan,
    #[serde(default, skip_serializing_if = "ApproachPlan::is_blank")]
    approach: ApproachPlan,
    #[serde(default, skip_serializing_if = "TheatrePlan::is_blank")]
    theatre: TheatrePlan,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    reasons: Vec<RecordedReason>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    eye_changes: Vec<EyeChange>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    second_look: Option<SecondLook>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    imports: Vec<Import>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    other_cases: Vec<OtherCase>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    set_aside: Option<SetAside>,
}

impl CaseFile {
    pub(super) fn from_draft(draft: &Draft) -> Self {
        let draft = draft.clone();
        Self {
            format: CASE_FORMAT.to_owned(),
            version: NEWEST,
            patient: draft.patient,
            operation: draft.operation,
            right_eye: draft.eyes.right,
            left_eye: draft.eyes.left,
            lens: draft.lens,
            approach: draft.approach,
            theatre: draft.theatre,
            reasons: draft.reasons,
            eye_changes: draft.eye_changes,
            second_look: draft.second_look,
            imports: draft.imports,
            other_cases: draft.other_cases,
            set_aside: draft.set_aside,
        }
    }

    pub(super) fn header(&self) -> Header {
        Header {
            format: self.format.clone(),
            version: self.version,
        }
    }

    pub(super) fn into_draft(self) -> Result<Draft, CaseFileError> {
        for (index, reason) in self.reasons.iter().enumerate() {
            let rule = &reason.rule;
            if self
                .reasons
                .iter()
                .skip(index + 1)
                .any(|later| later.is_for(rule, reason.backup))
            {
                let rule = rule.clone();
                return Err(CaseFileError::at("reasons")(ContentError::RepeatedReason {
                    rule,
                }));
            }
        }
        for (place, eye) in [("right_eye", &self.right_eye), ("left_eye", &self.left_eye)] {
            check_measurements(eye).map_err(|error| CaseFileError::at(place)(error.into()))?;
        }
        let draft = Draft {
            patient: self.patient,
            operation: self.operation,
            eyes: PerEye {
                right: self.right_eye,
                left: self.left_eye,
            },
            lens: self.lens,
            approach: self.approach,
            theatre: self.theatre,
            reasons: self.reasons,
            eye_changes: self.eye_changes,
            second_look: self.second_look,
            imports: self.imports,
            other_cases: self.other_cases,
            set_aside: self.set_aside,
        };
        check_counts(&draft).map_err(|error| CaseFileError::at("case")(error.into()))?;
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
    pub(super) fn from_records(records: &[LensRecord]) -> Self {
        Self {
            format: LENS_FORMAT.to_owned(),
            version: NEWEST,
            lenses: records.to_vec(),
        }
    }

    pub(super) fn into_records(self) -> Result<Vec<LensRecord>, CaseFileError> {
        check_count("lens records", self.lenses.len())
            .map_err(|error| CaseFileError::at("lenses")(CommandRefused::from(error).into()))?;
        Ok(self.lenses)
    }
}
