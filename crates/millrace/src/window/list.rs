//! The theatre list, and what is set aside.

use core::ops::Range;

use millrace_desk::exchange::{Answer, Listed, Listing};
use millrace_register::{Cases, Window};

use super::register_store::{RegisterStore, plain, row};

impl RegisterStore {
    /// Rows of the list, by day, then name: [`Answer::Listed`].
    pub(crate) fn list(
        &self,
        search: &str,
        listing: Listing,
        rows: &Range<usize>,
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
        }))
    }
}
