//! What the list has at hand, and what it asks for.

use core::ops::Range;
use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::places::Places;
use crate::exchange::{CaseId, CaseRow, Listed, Listing, Request, Stands};

/// Rows asked for beyond those in sight, each way.
const AHEAD: usize = 60;
/// Passes in which a row is brought into sight, at most.
const PATIENCE: u8 = 16;
/// Rows kept before those far from sight are let go.
const KEPT: usize = 1_000;

/// The rows at hand and what was asked for.
#[derive(Debug, Default)]
pub struct ListState {
    pub(super) search: String,
    pub(super) listing: Listing,
    /// How many cases are set aside.
    pub(super) set_aside: usize,
    pub(super) total: Option<usize>,
    pub(super) rows: BTreeMap<usize, CaseRow>,
    pub(super) places: Places,
    pub(super) asked: Option<Range<usize>>,
    /// The open case whose place was asked for last.
    pub(super) asked_open: Option<CaseId>,
    /// The case that was brought into sight last, and the day it stood on.
    pub(super) brought: Option<(CaseId, Option<NaiveDate>)>,
    /// How far the list is to be scrolled in the next pass, to bring it there.
    pub(super) goes_to: Option<f32>,
    /// A row that is to be brought into sight.
    pub(super) bring: Option<usize>,
    /// Passes after which it is left where it stands, whatever is known of the rows around it.
    patience: u8,
    /// What is at hand may be old; it stays in sight until the answer comes.
    pub(super) stale: bool,
    pub(super) cursor: usize,
    pub(super) scroll_to_cursor: Option<Place>,
    /// It was opened at the day.
    pub(super) is_placed: bool,
    pub(super) fingerprint: String,
    /// The rarer acts are unfolded.
    pub(super) shows_acts: bool,
}

/// Where in sight the row of the cursor comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    Top,
    Middle,
}

impl ListState {
    /// How many cases match; nothing before the first answer.
    pub const fn total(&self) -> Option<usize> {
        self.total
    }

    /// Whether the register is known to hold nothing at all.
    pub fn is_empty_register(&self) -> bool {
        self.total == Some(0)
            && self.set_aside == 0
            && self.search.is_empty()
            && self.listing == Listing::Planned
    }

    /// Takes rows in; rows for another search or of the other list are old and dropped.
    pub fn take(&mut self, listed: Listed) {
        if listed.search != self.search || listed.listing != self.listing {
            return;
        }
        let Listed {
            total, start, rows, ..
        } = listed;
        self.set_aside = listed.set_aside;
        self.total = Some(total);
        self.places.hold(total, &listed.days);
        self.asked = None;
        if KEPT < self.rows.len() || core::mem::take(&mut self.stale) {
            self.rows.clear();
        }
        for (offset, row) in rows.into_iter().enumerate() {
            self.rows.insert(start + offset, row);
        }
        let is_whole = self.search.is_empty() && self.listing == Listing::Planned;
        if let Some(open) = listed.open.filter(|_| is_whole) {
            self.bring(open);
        }
    }

    /// A case that was opened, or went to another day, comes into sight.
    fn bring(&mut self, open: Stands) {
        let stands = Some((open.case, open.day));
        if self.brought != stands {
            self.brought = stands;
            self.bring = Some(open.at);
            self.patience = PATIENCE;
            self.cursor = open.at;
        }
    }

    /// Once in each pass: a row is not brought into sight against a person who scrolls on.
    pub(super) fn grow_impatient(&mut self) {
        self.patience = self.patience.saturating_sub(1);
        if self.patience == 0 {
            self.bring = None;
        }
    }

    /// The list changed: what is at hand may be old.
    pub fn renew(&mut self) {
        self.stale = true;
    }

    /// Opens at the day, or the next, unless the person searches or moved already.
    pub(super) fn open_at(&mut self, today: NaiveDate) {
        if self.is_placed || self.total.is_none() {
            return;
        }
        self.is_placed = true;
        if self.search.is_empty()
            && self.cursor == 0
            && let Some(index) = self.places.opens_at(today)
        {
            self.cursor = index;
            self.scroll_to_cursor = Some(Place::Top);
        }
    }

    /// From the theatre list to what is set aside, and back.
    pub(super) fn turn_over(&mut self) {
        self.listing = match self.listing {
            Listing::Planned => Listing::SetAside,
            Listing::SetAside => Listing::Planned,
        };
        self.begin_anew();
    }

    pub(super) fn begin_anew(&mut self) {
        self.rows.clear();
        self.asked = None;
        self.places.forget();
        self.total = None;
        self.cursor = 0;
        // The whole list opens at the day again, and at the open case.
        self.is_placed = false;
        self.brought = None;
    }

    pub(super) fn request(
        &mut self,
        visible: &Range<usize>,
        open: Option<&CaseId>,
    ) -> Option<Request> {
        if self.asked.is_some() {
            return None;
        }
        let known = self.total.is_some();
        let is_placed = self.asked_open.as_ref() == open;
        if known
            && is_placed
            && !self.stale
            && visible.clone().all(|index| self.rows.contains_key(&index))
        {
            return None;
        }
        let rows = visible.start.saturating_sub(AHEAD)..visible.end + AHEAD;
        self.asked = Some(rows.clone());
        self.asked_open = open.cloned();
        Some(Request::List {
            search: self.search.clone(),
            listing: self.listing,
            rows,
            open: open.cloned(),
        })
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::case::State;

    use super::*;

    fn row(number: usize) -> CaseRow {
        CaseRow {
            case: CaseId(number.to_string()),
            name: None,
            number: Some(number.to_string()),
            eye: None,
            date: None,
            list_number: None,
            state: State::Draft,
            sheet: None,
        }
    }

    fn listed(search: &str, total: usize, start: usize, rows: Vec<CaseRow>) -> Listed {
        Listed {
            search: search.to_owned(),
            listing: Listing::Planned,
            set_aside: 0,
            total,
            start,
            rows,
            days: Vec::new(),
            open: None,
        }
    }

    #[test]
    fn rows_are_asked_for_once_and_old_answers_dropped() {
        let mut state = ListState::default();
        let first = state.request(&(0..10), None);
        let wanted = Request::List {
            search: String::new(),
            listing: Listing::Planned,
            rows: 0..70,
            open: None,
        };
        assert_eq!(first, Some(wanted));
        assert_eq!(state.request(&(0..10), None), None);
        state.take(listed("other", 1, 0, vec![row(1)]));
        assert_eq!(state.total(), None);
        state.take(listed("", 100_000, 0, (0..70).map(row).collect()));
        assert_eq!(state.total(), Some(100_000));
        assert_eq!(state.request(&(0..10), None), None);
        let further = state.request(&(50_000..50_010), None);
        let wanted = Request::List {
            search: String::new(),
            listing: Listing::Planned,
            rows: 49_940..50_070,
            open: None,
        };
        assert_eq!(further, Some(wanted));
    }

    #[test]
    fn far_rows_are_let_go() {
        let mut state = ListState::default();
        for start in (0..10_000).step_by(100) {
            let rows = (start..start + 100).map(row).collect();
            state.take(listed("", 10_000, start, rows));
            assert!(state.rows.len() <= KEPT + 100);
        }
    }
}
