//! What the plan rests on: the operated eye's measurements. The fellow eye's are not printed.

use millrace_wording::Show as _;
use millrace_wording::measurements::{derived, heading, missing, rows};

use super::Subject;
use crate::data::{DayAndWho, MeasuredRow, Measurements};

impl Subject<'_> {
    pub(super) fn measurements(self) -> Measurements {
        let words = self.words;
        let eye = self.draft.eyes.get(self.side);
        let frozen = self.results.derived.get(self.side);
        let mut measured: Vec<_> = rows(words, eye)
            .into_iter()
            .map(|row| MeasuredRow {
                name: row.name,
                value: row.value,
                method: row.recorded.method.show(words).into_owned(),
                taken: Some(DayAndWho {
                    day: self.stated(row.recorded.on),
                    who: self.stated(row.recorded.by),
                }),
            })
            .collect();
        measured.extend(
            derived(words, eye, frozen)
                .into_iter()
                .map(|row| MeasuredRow {
                    name: row.name.to_owned(),
                    value: row.value,
                    method: row.from.to_owned(),
                    taken: None,
                }),
        );
        Measurements {
            title: heading(words, self.side),
            missing: missing(words, eye).unwrap_or_default(),
            all: same_for_all(&measured),
            rows: measured,
        }
    }
}

/// Day and person, if every measurement has the same.
fn same_for_all(rows: &[MeasuredRow]) -> Option<DayAndWho> {
    let mut taken = rows.iter().filter_map(|row| row.taken.as_ref());
    let first = taken.next()?;
    taken.all(|other| other == first).then(|| first.clone())
}
