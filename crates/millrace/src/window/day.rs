//! The operations of a day, for the day view.

use chrono::NaiveDate;
use millrace_core::limits::Limits;
use millrace_desk::exchange::{Answer, CaseId, DayCase, DayList, OrderRequest, Placed, Revision};
use millrace_register::{Placed as ToPlace, SaveError};
use millrace_wording::desk::frame;
use millrace_wording::{Show as _, window as say};

use super::register_store::{RegisterStore, known, plain, row, seen, stamp_of};

impl RegisterStore {
    /// The operations of this day; if there are none, of the next day that has some, or of the last:
    /// [`Answer::Day`].
    pub(crate) fn operations_of(&self, day: NaiveDate, limits: &Limits) -> Result<Answer, String> {
        let days = self.register.by_day().map_err(plain(self.words))?;
        let days: Vec<_> = days.into_iter().filter_map(|it| it.day).collect();
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
        let account = self.account.clone();
        let stamp = stamp_of(&order.by, &account);
        let saved = match self.register.order(&places, stamp) {
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
    use millrace_core::case::{Draft, ListNumber};
    use millrace_desk::exchange::{Toward, Who};
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
        assert_eq!(asked(&on(&[(0, "of no day")]), 3), None);
        assert_eq!(asked(&on(&[]), 3), None);
    }
    fn order(list: &DayList, case: &CaseId, toward: Toward) -> OrderRequest {
        OrderRequest {
            places: list.with_moved(case, toward).unwrap(),
            by: Who {
                person: "A. Okafor".to_owned(),
                desk: None,
            },
        }
    }

    #[test]
    fn a_day_is_ordered_and_one_that_changed_meanwhile_is_not() {
        let mut store = on(&[(3, "A"), (3, "B"), (3, "C")]);
        let before = asked(&store, 3).unwrap();
        let last = before.cases[2].row.case.clone();
        let earlier = order(&before, &last, Toward::Earlier);
        let placed = store.order(&earlier).unwrap();
        let told = |list: &DayList| {
            let told = list.cases.iter().map(|case| {
                let number = case.row.list_number.map(ListNumber::get);
                format!("{}{number:?}", case.row.name.as_deref().unwrap())
            });
            told.collect::<Vec<_>>().join(" ")
        };
        let after = asked(&store, 3).unwrap();
        assert_eq!(told(&after), "ASome(1) CSome(2) BSome(3)");
        // What is handed back is what the list says from now on.
        for case in &after.cases {
            let stored = placed.iter().find(|it| it.case == case.row.case).unwrap();
            assert_eq!(stored.revision, case.seen);
        }
        let later = order(&after, &last, Toward::Later);
        assert_eq!(store.order(&later).unwrap().len(), 2);
        // From the list as it was before that, nothing is ordered.
        let why = store.order(&later).unwrap_err();
        assert_eq!(
            why,
            "B was changed meanwhile by A. Okafor, so the order of the day stays as it was; look at the list and \
             move again"
        );
        assert_eq!(
            told(&asked(&store, 3).unwrap()),
            "ASome(1) BSome(2) CSome(3)"
        );
    }
}
