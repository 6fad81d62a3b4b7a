//! The operations of a day, for the day view.

use chrono::NaiveDate;
use millrace_core::limits::Limits;
use millrace_desk::exchange::{Answer, CaseId, DayCase, DayList, OrderRequest, Placed, Revision};
use millrace_register::{Placed as ToPlace, SaveError};
use millrace_wording::desk::frame;
use millrace_wording::{Show as _, window as say};

use super::register_store::{RegisterStore, known, plain, row, seen, stamp};

impl RegisterStore {
    /// Where in the list this day, or the next, begins: [`Answer::DayBegins`].
    pub(crate) fn place_of(&self, day: NaiveDate) -> Result<Answer, String> {
        let before = self.register.count_before(day).map_err(plain(self.words))?;
        Ok(Answer::DayBegins(
            usize::try_from(before).unwrap_or(usize::MAX),
        ))
    }

    /// The operations of this day; if there are none, of the next day that has some, or of the last:
    /// [`Answer::Day`].
    pub(crate) fn operations_of(&self, day: NaiveDate, limits: &Limits) -> Result<Answer, String> {
        let days = self.register.days().map_err(plain(self.words))?;
        let next = days.partition_point(|known| *known < day);
        let Some(index) = next.checked_sub(usize::from(next == days.len())) else {
            return Ok(Answer::Day(None));
        };
        let Some(&day) = days.get(index) else {
            return Ok(Answer::Day(None));
        };
        let neighbor = |index: Option<usize>| index.and_then(|index| days.get(index)).copied();
        let entries = self.register.on(day).map_err(plain(self.words))?;
        let cases = entries.into_iter().map(|entry| {
            let loaded = self.register.load(entry.case);
            let revision = loaded.map_err(plain(self.words))?;
            let seen = Revision(revision.entry.number.to_string());
            Ok(DayCase::of(row(entry), seen, &revision.draft, limits))
        });
        Ok(Answer::Day(Some(DayList {
            day,
            earlier: neighbor(index.checked_sub(1)),
            later: neighbor(Some(index + 1)),
            cases: cases.collect::<Result<_, String>>()?,
        })))
    }

    /// Gives the cases of a day their places: those whose place changed, or why none did.
    pub(crate) fn order(&mut self, order: &OrderRequest) -> Result<Vec<Placed>, String> {
        let words = self.words;
        let places = order.places.iter().map(|placed| {
            Ok(ToPlace {
                case: known(&placed.case, words)?,
                expected: seen(&placed.revision, words)?,
                number: Some(placed.number),
            })
        });
        let places = places.collect::<Result<Vec<_>, String>>()?;
        let author = self.author(&order.author).to_owned();
        let saved = match self.register.order(&places, stamp(&author)) {
            Ok(saved) => saved,
            Err(SaveError::Conflict { theirs }) => {
                let name = theirs.draft.patient.name.as_deref();
                let name = name.unwrap_or_else(|| frame::name_missing(words));
                return Err(say::day_changed(words, name, &theirs.entry.saved_by));
            }
            Err(error) => return Err(error.show(words).into_owned()),
        };
        let placed = saved.into_iter().filter_map(|entry| {
            self.watch.goes_on(entry.case, entry.number);
            let case = CaseId(entry.case.to_string());
            let asked = order.places.iter().find(|it| it.case == case)?;
            Some(Placed {
                revision: Revision(entry.number.to_string()),
                ..asked.clone()
            })
        });
        Ok(placed.collect())
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::case::Draft;
    use millrace_wording::Words;

    use super::*;

    fn on(days: &[(u32, &str)]) -> RegisterStore {
        let drafts: Vec<_> = days
            .iter()
            .map(|(day, name)| {
                let mut draft = Draft::default();
                draft.patient.name = Some((*name).to_owned());
                draft.operation.date = NaiveDate::from_ymd_opt(2026, 12, *day);
                draft
            })
            .collect();
        RegisterStore::throw_away(&drafts, Words::ENGLISH).unwrap()
    }

    fn asked(store: &RegisterStore, day: u32) -> Option<DayList> {
        let day = NaiveDate::from_ymd_opt(2026, 12, day).unwrap();
        match store.operations_of(day, Limits::shipped()).unwrap() {
            Answer::Day(list) => list,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_day_without_operations_gives_the_next_or_the_last() {
        let store = on(&[(3, "B"), (9, "C"), (3, "A"), (0, "of no day")]);
        for (day, shown, neighbors, names) in [
            (1, 3, [None, Some(9)], &["A", "B"][..]),
            (3, 3, [None, Some(9)], &["A", "B"]),
            (4, 9, [Some(3), None], &["C"]),
            (9, 9, [Some(3), None], &["C"]),
            (30, 9, [Some(3), None], &["C"]),
        ] {
            let list = asked(&store, day).unwrap();
            let date = |day| NaiveDate::from_ymd_opt(2026, 12, day);
            assert_eq!(Some(list.day), date(shown), "{day}");
            assert_eq!(
                [list.earlier, list.later],
                neighbors.map(|it| it.and_then(date))
            );
            let told = list.cases.iter().map(|case| case.row.name.as_deref());
            assert_eq!(told.flatten().collect::<Vec<_>>(), names, "{day}");
        }
        // In the list: A, B, C, and the one without a day last.
        for (day, place) in [(1, 0), (3, 0), (4, 2), (9, 2), (10, 3)] {
            let day = NaiveDate::from_ymd_opt(2026, 12, day).unwrap();
            assert_eq!(store.place_of(day), Ok(Answer::DayBegins(place)), "{day}");
        }
        assert_eq!(asked(&on(&[(0, "of no day")]), 3), None);
        assert_eq!(asked(&on(&[]), 3), None);
    }
}
