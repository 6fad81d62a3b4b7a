//! The theatre list: cases by day, searched by name or number. Only the rows in sight are held, so
//! that 100,000 cases scroll as lightly as ten.

mod acts;
mod row;

use core::ops::Range;
use std::collections::BTreeMap;

use chrono::NaiveDate;
use egui::accesskit::Role;
use egui::{Id, Key, ScrollArea, Sense, Ui, WidgetInfo};
use millrace_wording::desk::{aside, list as say};

use crate::exchange::{CaseRow, Listed, Listing, Request};
use crate::message::Message;
use crate::theme::measures;
use crate::widgets::keep_up_and_down;
use crate::widgets::{heading, small};
use crate::words::in_use;
pub use acts::{Aside, OpenRow};
use row::Looks;

const ROW_HEIGHT: f32 = 92.0;
/// Rows asked for beyond those in sight, each way.
const AHEAD: usize = 60;
/// Rows kept before those far from sight are let go.
const KEPT: usize = 1_000;

/// The rows at hand and what was asked for.
#[derive(Debug, Default)]
pub struct ListState {
    search: String,
    listing: Listing,
    /// How many cases are set aside.
    set_aside: usize,
    total: Option<usize>,
    rows: BTreeMap<usize, CaseRow>,
    asked: Option<Range<usize>>,
    /// What is at hand may be old; it stays in sight until the answer comes.
    stale: bool,
    cursor: usize,
    scroll_to_cursor: Option<Place>,
    /// It was asked once where the day begins.
    is_placed: bool,
    fingerprint: String,
    /// The rarer acts are unfolded.
    shows_acts: bool,
}

/// Where in sight the row of the cursor comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    Top,
    Middle,
}

/// What Ctrl+F and F6 land on.
pub fn search_id() -> Id {
    Id::unique("theatre list search")
}

fn rows_id() -> Id {
    Id::unique("theatre list rows")
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
        let Listed {
            total, start, rows, ..
        } = listed;
        if listed.search != self.search || listed.listing != self.listing {
            return;
        }
        self.set_aside = listed.set_aside;
        self.total = Some(total);
        self.asked = None;
        if KEPT < self.rows.len() || core::mem::take(&mut self.stale) {
            self.rows.clear();
        }
        for (offset, row) in rows.into_iter().enumerate() {
            self.rows.insert(start + offset, row);
        }
    }

    /// The list changed: what is at hand may be old.
    pub fn renew(&mut self) {
        self.stale = true;
    }

    /// Brings this row to the top, unless the person searches or moved already. Behind the last day stand
    /// cases without one.
    pub fn begin_at(&mut self, index: usize) {
        if self.search.is_empty() && self.cursor == 0 {
            self.cursor = index;
            self.scroll_to_cursor = Some(Place::Top);
        }
    }

    /// From the theatre list to what is set aside, and back.
    fn turn_over(&mut self) {
        self.listing = match self.listing {
            Listing::Planned => Listing::SetAside,
            Listing::SetAside => Listing::Planned,
        };
        self.begin_anew();
    }

    fn begin_anew(&mut self) {
        self.rows.clear();
        self.asked = None;
        self.total = None;
        self.cursor = 0;
    }

    fn find_day(&mut self, today: NaiveDate) -> Option<Message> {
        let is_first = !core::mem::replace(&mut self.is_placed, true);
        is_first.then_some(Message::Ask(Request::FindDay(today)))
    }

    fn request(&mut self, visible: &Range<usize>) -> Option<Request> {
        if self.asked.is_some() {
            return None;
        }
        let known = self.total.is_some();
        if known && !self.stale && visible.clone().all(|index| self.rows.contains_key(&index)) {
            return None;
        }
        let rows = visible.start.saturating_sub(AHEAD)..visible.end + AHEAD;
        self.asked = Some(rows.clone());
        Some(Request::List {
            search: self.search.clone(),
            listing: self.listing,
            rows,
        })
    }
}

/// Shows the list; returns what the person wants, and what the list needs.
pub fn show(
    ui: &mut Ui,
    state: &mut ListState,
    (today, open): (NaiveDate, Option<OpenRow<'_>>),
) -> Vec<Message> {
    let mut messages: Vec<_> = state.find_day(today).into_iter().collect();
    let words = in_use(ui);
    heading(
        ui,
        match state.listing {
            Listing::Planned => say::title(words),
            Listing::SetAside => aside::title(words),
        },
    );
    ui.add_space(measures::TIGHT);
    search_field(ui, state);
    messages.extend(acts::buttons(ui, open, &mut state.shows_acts));
    let verifies = acts::check_field(ui, &mut state.fingerprint);
    ui.add_space(measures::TIGHT);
    let total = state.total.unwrap_or_default();
    if state.total == Some(0) {
        small(
            ui,
            if state.listing == Listing::SetAside {
                aside::none(words)
            } else if state.search.is_empty() {
                say::none_yet(words)
            } else {
                say::none_matches(words)
            },
        );
    }
    let other = other_list(ui, state);
    let mut visible = 0..0;
    let scroll = ScrollArea::vertical().auto_shrink(false);
    let spacing = ui.spacing().item_spacing.y;
    ui.spacing_mut().item_spacing.y = 0.0;
    let scroll = match scroll_offset(state, ui.available_height()) {
        Some(offset) => scroll.vertical_scroll_offset(offset),
        None => scroll,
    };
    let list = ui.interact(ui.available_rect_before_wrap(), rows_id(), Sense::FOCUSABLE);
    let looks = Looks {
        open: open.map(|open| open.case),
        has_focus: list.has_focus(),
    };
    scroll.show_rows(ui, ROW_HEIGHT, total, |ui, range| {
        visible = range.clone();
        for index in range {
            messages.extend(row::show(ui, state, index, looks));
        }
    });
    ui.spacing_mut().item_spacing.y = spacing;
    let name = say::cases(words, total);
    list.widget_info(|| WidgetInfo::labeled(Role::ListBox, true, &name));
    if list.has_focus() {
        messages.extend(by_key(ui, state, &visible));
    }
    if other {
        state.turn_over();
    }
    let request = verifies.or_else(|| state.request(&visible));
    messages.extend(request.map(Message::Ask));
    messages
}

/// The way to what is set aside, where anything is, and back.
fn other_list(ui: &mut Ui, state: &ListState) -> bool {
    let words = in_use(ui);
    let text = match (state.listing, state.set_aside) {
        (Listing::Planned, 0) => return false,
        (Listing::Planned, count) => aside::shown(words, count),
        (Listing::SetAside, _) => aside::back_to_list(words).to_owned(),
    };
    ui.button(text).clicked()
}

fn search_field(ui: &mut Ui, state: &mut ListState) {
    let (words, before) = (in_use(ui), state.search.clone());
    let field = egui::TextEdit::singleline(&mut state.search)
        .id(search_id())
        .hint_text(say::search(words))
        .desired_width(f32::INFINITY)
        .align(egui::Align2::LEFT_CENTER);
    let field = ui.add(field);
    let (down, enter) = ui.input(|input| {
        (
            input.key_pressed(Key::ArrowDown),
            input.key_pressed(Key::Enter),
        )
    });
    if (field.has_focus() && down) || (field.lost_focus() && enter) {
        ui.memory_mut(|memory| memory.request_focus(rows_id()));
    }
    field.accessible_name(say::search(words));
    if state.search != before {
        state.begin_anew();
    }
}

fn scroll_offset(state: &mut ListState, height: f32) -> Option<f32> {
    // Before the list is there, it has nowhere to scroll to.
    let last = state.total?.checked_sub(1)?;
    let place = state.scroll_to_cursor.take()?;
    state.cursor = state.cursor.min(last);
    #[expect(
        clippy::cast_precision_loss,
        reason = "exact up to 16 million points, 180,000 rows"
    )]
    let top = state.cursor as f32 * ROW_HEIGHT;
    Some(match place {
        Place::Top => top,
        Place::Middle => (top - (height - ROW_HEIGHT) / 2.0).max(0.0),
    })
}

fn by_key(ui: &Ui, state: &mut ListState, visible: &Range<usize>) -> Option<Message> {
    keep_up_and_down(ui, rows_id());
    let last = state.total.unwrap_or_default().checked_sub(1)?;
    let page = visible.len().saturating_sub(2).max(1);
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    let next = if pressed(Key::ArrowDown) {
        state.cursor + 1
    } else if pressed(Key::ArrowUp) {
        state.cursor.saturating_sub(1)
    } else if pressed(Key::PageDown) {
        state.cursor + page
    } else if pressed(Key::PageUp) {
        state.cursor.saturating_sub(page)
    } else if pressed(Key::Home) {
        0
    } else if pressed(Key::End) {
        last
    } else if pressed(Key::Enter) {
        let row = state.rows.get(&state.cursor)?;
        return Some(open_case(row));
    } else {
        return None;
    };
    state.cursor = next.min(last);
    state.scroll_to_cursor = Some(Place::Middle);
    ui.request_repaint();
    None
}

fn open_case(row: &CaseRow) -> Message {
    Message::Ask(Request::OpenCase(row.case.clone()))
}

#[cfg(test)]
mod tests {
    use millrace_core::case::State;

    use super::*;
    use crate::exchange::CaseId;

    fn row(number: usize) -> CaseRow {
        CaseRow {
            case: CaseId(number.to_string()),
            name: None,
            number: Some(number.to_string()),
            eye: None,
            date: None,
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
        }
    }

    #[test]
    fn rows_are_asked_for_once_and_old_answers_dropped() {
        let mut state = ListState::default();
        let first = state.request(&(0..10));
        let wanted = Request::List {
            search: String::new(),
            listing: Listing::Planned,
            rows: 0..70,
        };
        assert_eq!(first, Some(wanted));
        assert_eq!(state.request(&(0..10)), None);
        state.take(listed("other", 1, 0, vec![row(1)]));
        assert_eq!(state.total(), None);
        state.take(listed("", 100_000, 0, (0..70).map(row).collect()));
        assert_eq!(state.total(), Some(100_000));
        assert_eq!(state.request(&(0..10)), None);
        let further = state.request(&(50_000..50_010));
        let wanted = Request::List {
            search: String::new(),
            listing: Listing::Planned,
            rows: 49_940..50_070,
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
