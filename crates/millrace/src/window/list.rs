//! The theatre list, and what is set aside.

use core::ops::Range;

use millrace_desk::exchange::{Answer, CaseId, Listed, Listing, OnDay, Stands};
use millrace_register::{Cases, Window};

use super::register_store::{RegisterStore, known, plain, row};

impl RegisterStore {
    /// Rows of the list, by day, then name: [`Answer::Listed`].
    pub(crate) fn list(
        &self,
        (search, listing): (&str, Listing),
        rows: &Range<usize>,
        open: Option<&CaseId>,
    ) -> Result<Answer, String> {
        let window = Window {
            offset: u32::try_from(rows.start).unwrap_or(u32::MAX),
            limit: u32::try_from(rows.len()).unwrap_or(u32::MAX),
        };
        let register = &self.register;
        let (total, entries) = if search.trim().is_empty() {
            let cases = match listing {
                Listing::Planned => Cases::InUse,
                Listing::SetAside => Cases::SetAside,
            };
            (register.count_of(cases), register.list(cases, window))
        } else {
            let total = register.count_found(search);
            (total, register.search(search, window))
        };
        let set_aside = register.count_of(Cases::SetAside);
        // Found cases stand in the order of the list too, and are few.
        let is_by_day = listing == Listing::Planned && search.trim().is_empty();
        let days = if is_by_day {
            register.by_day().map_err(plain(self.words))?
        } else {
            Vec::new()
        };
        let count = |count: u64| usize::try_from(count).unwrap_or(usize::MAX);
        Ok(Answer::Listed(Listed {
            search: search.to_owned(),
            listing,
            set_aside: count(set_aside.map_err(plain(self.words))?),
            total: count(total.map_err(plain(self.words))?),
            start: rows.start,
            rows: entries
                .map_err(plain(self.words))?
                .into_iter()
                .map(row)
                .collect(),
            days: days
                .into_iter()
                .map(|it| OnDay {
                    day: it.day,
                    count: count(it.cases),
                })
                .collect(),
            open: open.and_then(|case| self.stands(case)),
        }))
    }

    /// Where a case stands in the whole list; nothing if it cannot be told, which is told where it is opened.
    fn stands(&self, case: &CaseId) -> Option<Stands> {
        let id = known(case, self.words).ok()?;
        let at = self.register.place_of(id).ok()??;
        Some(Stands {
            case: case.clone(),
            day: self.register.load(id).ok()?.draft.operation.date,
            at: usize::try_from(at).ok()?,
        })
    }
}
