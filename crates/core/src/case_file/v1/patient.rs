//! Patient, operation, reasons and changes of eye, as stored.

use serde::{Deserialize, Serialize};

use super::mirror::mirror;
use crate::biometry;
use crate::calendar::Day;
use crate::case::{self, Author, RecordedReason};
use crate::case_file::CaseFileError;
use crate::case_file::error::ContentError;
use crate::rules::{Fact, Limit};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Patient {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    name: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    number: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    birth_date: Option<Day>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sex: Option<Sex>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    alpha_blocker: Option<bool>,
}

mirror!(
    Sex = case::Sex {
        Female,
        Male,
        Other
    }
);

impl Patient {
    pub(super) fn from_domain(patient: &case::Patient) -> Self {
        Self {
            name: patient.name.clone(),
            number: patient.number.clone(),
            birth_date: patient.birth_date.map(Day),
            sex: patient.sex.map(Into::into),
            alpha_blocker: patient.alpha_blocker,
        }
    }

    pub(super) fn into_domain(self) -> Result<case::Patient, CaseFileError> {
        let patient = case::Patient {
            name: self.name,
            number: self.number,
            birth_date: self.birth_date.map(|day| day.0),
            sex: self.sex.map(Into::into),
            alpha_blocker: self.alpha_blocker,
        };
        patient
            .check_text()
            .map_err(|error| CaseFileError::at("patient")(error.into()))?;
        Ok(patient)
    }
}

mirror!(Side = biometry::Side { Right, Left });

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Operation {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    date: Option<Day>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    eye: Option<Side>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    surgeon: Option<SurgeonGrade>,
}

mirror!(
    SurgeonGrade = case::SurgeonGrade {
        Independent,
        ExperiencedTrainee,
        Trainee
    }
);

impl Operation {
    pub(super) fn from_domain(operation: &case::Operation) -> Self {
        Self {
            date: operation.date.map(Day),
            eye: operation.eye.map(Into::into),
            surgeon: operation.surgeon.map(Into::into),
        }
    }

    pub(super) fn into_domain(self) -> case::Operation {
        case::Operation {
            date: self.date.map(|day| day.0),
            eye: self.eye.map(Into::into),
            surgeon: self.surgeon.map(Into::into),
        }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    clippy::struct_field_names,
    reason = "fields have the names of the file"
)]
pub(super) struct Reason {
    rule: String,
    measured: Fact,
    limit: Limit,
    reason: String,
    by: String,
    on: Day,
}

impl Reason {
    pub(super) fn from_domain(reason: &RecordedReason) -> Self {
        Self {
            rule: reason.rule.clone(),
            measured: reason.measured.clone(),
            limit: reason.limit.clone(),
            reason: reason.reason.clone(),
            by: reason.author.name.clone(),
            on: Day(reason.author.on),
        }
    }
}

/// Reasons, at most one per rule.
pub(super) fn reasons_into_domain(
    stored: Vec<Reason>,
) -> Result<Vec<RecordedReason>, CaseFileError> {
    let mut reasons: Vec<RecordedReason> = Vec::with_capacity(stored.len());
    for Reason {
        rule,
        measured,
        limit,
        reason,
        by,
        on,
    } in stored
    {
        if reasons.iter().any(|earlier| earlier.rule == rule) {
            return Err(CaseFileError::at("reasons")(ContentError::RepeatedReason {
                rule,
            }));
        }
        let author = Author { name: by, on: on.0 };
        let recorded = RecordedReason {
            rule,
            measured,
            limit,
            reason,
            author,
        };
        case::check_reason(&recorded)
            .map_err(|error| CaseFileError::at("reasons")(error.into()))?;
        reasons.push(recorded);
    }
    Ok(reasons)
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct EyeChange {
    from: Side,
    to: Side,
    reason: String,
    by: String,
    on: Day,
}

impl EyeChange {
    pub(super) fn from_domain(change: &case::EyeChange) -> Self {
        Self {
            from: change.from.into(),
            to: change.to.into(),
            reason: change.reason.clone(),
            by: change.author.name.clone(),
            on: Day(change.author.on),
        }
    }

    pub(super) fn into_domain(self) -> Result<case::EyeChange, CaseFileError> {
        let change = case::EyeChange {
            from: self.from.into(),
            to: self.to.into(),
            reason: self.reason,
            author: Author {
                name: self.by,
                on: self.on.0,
            },
        };
        case::check_eye_change(&change)
            .map_err(|error| CaseFileError::at("eye_changes")(error.into()))?;
        Ok(change)
    }
}
