//! Who, which eye, when.

use millrace_core::biometry::Side;
use millrace_core::case::Sex;
use millrace_wording::text::banner;
use millrace_wording::{sheet as say, terms};

use super::Subject;
use crate::data::Identity;

impl Subject<'_> {
    /// The identifiers stand as they were recorded, to the letter: they are compared with a wristband.
    pub(super) fn identity(self) -> Identity {
        let (patient, words) = (&self.draft.patient, self.words);
        let born = match (patient.birth_date, self.results.age_years) {
            (Some(born), Some(age)) => say::day_and_age(words, born, age),
            (born, _) => self.stated(born),
        };
        let sex = match patient.sex {
            Some(Sex::Female) => banner::female(words),
            Some(Sex::Male) => banner::male(words),
            Some(Sex::Other) => banner::other_sex(words),
            None => say::sex_not_stated(words),
        };
        Identity {
            name: self.stated(text_of(patient.name.as_ref())),
            number: self.stated(text_of(patient.number.as_ref())),
            born,
            sex: sex.to_owned(),
            operation: self.stated(self.draft.operation.date),
            eye: terms::eye_capitals(words, self.side),
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
