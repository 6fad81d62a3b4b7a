//! Who, which eye, when.

use millrace_core::biometry::Side;
use millrace_core::case::Sex;
use millrace_core::words::day;

use super::{NOT_STATED, Subject, stated};
use crate::data::Identity;

impl Subject<'_> {
    /// The identifiers stand as they were recorded, to the letter: they are compared with a wristband.
    pub(super) fn identity(self) -> Identity {
        let patient = &self.draft.patient;
        let born = match (patient.birth_date, self.results.age_years) {
            (Some(born), Some(age)) => format!("{} ({age} years)", day(born)),
            (Some(born), None) => day(born),
            (None, _) => NOT_STATED.to_owned(),
        };
        let sex = match patient.sex {
            Some(Sex::Female) => "female",
            Some(Sex::Male) => "male",
            Some(Sex::Other) => "sex: other",
            None => "sex not stated",
        };
        Identity {
            name: stated(text_of(patient.name.as_ref())),
            number: stated(text_of(patient.number.as_ref())),
            born,
            sex: sex.to_owned(),
            operation: stated(self.draft.operation.date.map(day)),
            eye: self.side.capitals(),
            at: match self.side {
                Side::Right => "left",
                Side::Left => "right",
            },
        }
    }
}

/// A text that has letters.
fn text_of(text: Option<&String>) -> Option<&str> {
    text.map(|text| text.trim()).filter(|text| !text.is_empty())
}
