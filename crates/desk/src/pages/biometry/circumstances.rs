//! How values came to be: said once for an eye, and beside a value only where it differs.

use chrono::NaiveDate;
use millrace_core::biometry::{EyeRecord, Item, Measured, Method};
use millrace_wording::desk::biometry as say;
use millrace_wording::{Show as _, Words, sentence};

/// Method, day and person of a measurement.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Circumstances {
    method: Method,
    on: Option<NaiveDate>,
    by: Option<String>,
}

impl Circumstances {
    pub(super) fn of<T, S>(measured: &Measured<T, S>) -> Self {
        Self {
            method: measured.method,
            on: measured.on,
            by: measured.by.clone(),
        }
    }

    /// What most measurements of an eye have in common; the first of those that as many have.
    pub(super) fn of_most(eye: &EyeRecord) -> Option<Self> {
        let recorded = Item::ALL.iter().filter_map(|item| item.of(eye));
        let all: Vec<_> = recorded
            .map(|it| Self {
                method: it.method,
                on: it.on,
                by: it.by.map(str::to_owned),
            })
            .collect();
        let count = |of: &Self| all.iter().filter(|it| *it == of).count();
        let most = all.iter().map(count).max()?;
        all.iter().find(|it| count(it) == most).cloned()
    }

    /// "Optical, 20 Nov 2026, T. Lindqvist".
    pub(super) fn said(&self, words: Words) -> String {
        let who_and_when = match (self.on, self.by.as_deref()) {
            (Some(day), Some(person)) => say::by_person(words, day, person),
            (Some(day), None) => say::by_nobody(words, day),
            (None, Some(person)) => say::no_day(words, person),
            (None, None) => say::neither(words).to_owned(),
        };
        let method = self.method.show(words);
        say::with_and_by(words, sentence(&method), who_and_when)
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::biometry::Measured;

    use super::*;

    fn by<T, S>(value: T, method: Method) -> Measured<T, S> {
        Measured {
            value,
            method,
            spread: None,
            on: None,
            by: None,
        }
    }

    #[test]
    fn what_most_values_have_in_common_is_said_once() {
        let mut eye = EyeRecord::default();
        assert_eq!(Circumstances::of_most(&eye), None);
        eye.axial_length = Some(by("23.5 mm".parse().unwrap(), Method::ContactUltrasound));
        let most = |eye: &EyeRecord| Circumstances::of_most(eye).unwrap().method;
        assert_eq!(most(&eye), Method::ContactUltrasound);
        eye.lens_thickness = Some(by("4.6 mm".parse().unwrap(), Method::Optical));
        assert_eq!(most(&eye), Method::ContactUltrasound, "the first of two");
        eye.corneal_diameter = Some(by("11.8 mm".parse().unwrap(), Method::Optical));
        assert_eq!(most(&eye), Method::Optical);
        let said = Circumstances::of_most(&eye).unwrap().said(Words::ENGLISH);
        assert_eq!(said, "Optical, day and person not recorded");
    }
}
