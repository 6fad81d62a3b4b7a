//! The theatre list: cases by day, searched by name or number. Only the rows in sight are held, so
//! that 100,000 cases scroll as lightly as ten.

mod acts;
mod places;
mod row;
mod state;

use core::ops::Range;

use chrono::NaiveDate;
use egui::accesskit::Role;
use egui::{Id, Key, Rect, ScrollArea, Sense, Ui, WidgetInfo, pos2, vec2};
use millrace_wording::desk::{aside, list as say};

use crate::exchange::{CaseRow, Listing, Request};
use crate::message::Message;
use crate::theme::measures;
use crate::widgets::keep_up_and_down;
use crate::widgets::{heading, small};
use crate::words::in_use;
pub use acts::{Aside, OpenRow};
use row::Looks;
pub use state::ListState;
use state::Place;

/// What Ctrl+F and F6 land on.
pub fn search_id() -> Id {
    Id::unique("theatre list search")
}

fn rows_id() -> Id {
    Id::unique("theatre list rows")
}

/// Shows the list; returns what the person wants, and what the list needs.
pub fn show(
    ui: &mut Ui,
    state: &mut ListState,
    (today, open): (NaiveDate, Option<OpenRow<'_>>),
) -> Vec<Message> {
    let mut messages = Vec::new();
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
    tell_of_none(ui, state);
    let other = other_list(ui, state);
    let list = ui.interact(ui.available_rect_before_wrap(), rows_id(), Sense::FOCUSABLE);
    let looks = Looks {
        open: open.map(|open| open.case),
        has_focus: list.has_focus(),
    };
    state.open_at(today);
    let visible = rows(ui, state, looks, &mut messages);
    let name = say::cases(words, state.total.unwrap_or_default());
    list.widget_info(|| WidgetInfo::labeled(Role::ListBox, true, &name));
    if list.has_focus() {
        messages.extend(by_key(ui, state, &visible));
    }
    if other {
        state.turn_over();
    }
    let request = verifies.or_else(|| state.request(&visible, looks.open));
    messages.extend(request.map(Message::Ask));
    messages
}

fn tell_of_none(ui: &mut Ui, state: &ListState) {
    let words = in_use(ui);
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
}

/// Shows what of the list is in sight, under the heads of its days; tells which rows.
fn rows(
    ui: &mut Ui,
    state: &mut ListState,
    looks: Looks<'_>,
    messages: &mut Vec<Message>,
) -> Range<usize> {
    state
        .places
        .measure(row::least_height(ui), row::head_height(ui));
    let scroll = ScrollArea::vertical().auto_shrink(false);
    let goes_to = state.goes_to.take();
    let scroll = match scroll_offset(state, ui.available_height()).or(goes_to) {
        Some(offset) => scroll.vertical_scroll_offset(offset),
        None => scroll,
    };
    let total = state.total.unwrap_or_default();
    let mut goes_to = None;
    let shown = scroll.show_viewport(ui, |ui, sight| {
        let places = &state.places;
        let whole = ui.max_rect();
        ui.set_height(places.whole());
        let first = places.at(sight.top());
        let mut end = first;
        let mut found = Vec::new();
        while end < total && places.top_with_head(end) < sight.bottom() {
            let top = whole.top() + places.top(end);
            if let Some(group) = places.begins(end) {
                let head = (top - places.head())..=top;
                row::head(ui, Rect::from_x_y_ranges(whole.x_range(), head), &group);
            }
            let size = vec2(whole.width(), places.height(end));
            let rect = Rect::from_min_size(pos2(whole.left(), top), size);
            let shown = row::show(ui, state, (end, rect), looks);
            messages.extend(shown.opened);
            found.extend(shown.height.map(|height| (end, height)));
            end += 1;
        }
        if let Some(index) = state.bring.filter(|index| *index < total) {
            let last = places.top(index) + places.height(index);
            // With the head of its day, where there is room for both.
            let head = places.top_with_head(index);
            let begin = if last - head <= sight.height() {
                head
            } else {
                places.top(index)
            };
            goes_to = whole_in_sight(begin..last, sight);
        }
        (first..end, found)
    });
    let (visible, found) = shown.inner;
    let mut has_moved = false;
    for (index, height) in found {
        has_moved |= state.places.found_out(index, height);
    }
    let is_known = visible.clone().all(|index| state.rows.contains_key(&index));
    state.goes_to = goes_to;
    if has_moved || goes_to.is_some() {
        ui.request_repaint();
    } else if is_known {
        // Rows above it that turn out higher push it out of sight again: only now it stands.
        state.bring = None;
    }
    state.grow_impatient();
    visible
}

/// How far to scroll, so that a row stands in the middle of what is in sight, or begins there if it is higher;
/// nothing where it stands whole.
fn whole_in_sight(row: Range<f32>, sight: Rect) -> Option<f32> {
    let fits = row.end - row.start <= sight.height();
    let (top, bottom) = (sight.top() - 1.0, sight.bottom() + 1.0);
    let is_in_sight = if fits {
        top <= row.start && row.end <= bottom
    } else {
        (sight.top() - row.start).abs() <= 1.0
    };
    let goes_to = if fits {
        f32::midpoint(row.start, row.end - sight.height())
    } else {
        row.start
    };
    (!is_in_sight).then_some(goes_to.max(0.0))
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
    let (places, index) = (&state.places, state.cursor);
    Some(match place {
        Place::Top => places.top_with_head(index),
        Place::Middle => {
            let beside = (height - places.height(index)) / 2.0;
            (places.top(index) - beside).max(0.0)
        }
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
