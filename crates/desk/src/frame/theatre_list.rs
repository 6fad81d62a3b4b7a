//! The theatre list: cases by day, searched by name or number. Only the rows in sight are held, so
//! that 100,000 cases scroll as lightly as ten.

use core::ops::Range;
use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use egui::accesskit::Role;
use egui::{
    Color32, CornerRadius, EventFilter, FontFamily, FontId, Galley, Id, Key, Painter, Rect,
    ScrollArea, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, pos2, vec2,
};

use super::Action;
use crate::exchange::{CaseId, CaseRow, Request};
use crate::theme::{Palette, bold, measures};
use crate::widgets::{heading, small};
use crate::words::{day, eye};

const ROW_HEIGHT: f32 = 74.0;
/// Rows asked for beyond those in sight, each way.
const AHEAD: usize = 60;
/// Rows kept before those far from sight are let go.
const KEPT: usize = 1_000;

/// The rows at hand and what was asked for.
#[derive(Debug, Default)]
pub struct ListState {
    search: String,
    total: Option<usize>,
    rows: BTreeMap<usize, CaseRow>,
    asked: Option<Range<usize>>,
    /// What is at hand may be old; it stays in sight until the answer comes.
    stale: bool,
    cursor: usize,
    scroll_to_cursor: bool,
    fingerprint: String,
}

/// What Ctrl+F and F6 land on.
#[must_use]
pub fn search_id() -> Id {
    Id::unique("theatre list search")
}

fn rows_id() -> Id {
    Id::unique("theatre list rows")
}

impl ListState {
    /// How many cases match; nothing before the first answer.
    #[must_use]
    pub const fn total(&self) -> Option<usize> {
        self.total
    }

    /// Whether the register is known to hold nothing at all.
    #[must_use]
    pub fn is_empty_register(&self) -> bool {
        self.total == Some(0) && self.search.is_empty()
    }

    /// Takes rows in; rows for another search are old and dropped.
    pub fn take(&mut self, search: &str, (total, start): (usize, usize), rows: Vec<CaseRow>) {
        if search != self.search {
            return;
        }
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
            rows,
        })
    }
}

/// Shows the list, with the open case and the day it is planned for; returns what the person wants, and
/// what the list needs.
pub fn show(
    ui: &mut Ui,
    state: &mut ListState,
    (open, day_of_open): (Option<&CaseId>, Option<NaiveDate>),
) -> (Vec<Action>, Option<Request>) {
    let mut actions = Vec::new();
    heading(ui, "Theatre list");
    ui.add_space(measures::TIGHT);
    search_field(ui, state);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(measures::TIGHT, measures::TIGHT);
        let mut buttons = vec![
            ("New case".to_owned(), Action::New),
            ("Open a file…".to_owned(), Action::Import),
        ];
        buttons.extend(open.map(|_| ("Write to a file…".to_owned(), Action::Export)));
        buttons.extend(day_of_open.map(|date| {
            let words = format!("Sheets of {}…", day(date));
            (words, Action::AskForDay(date))
        }));
        for (words, action) in buttons {
            if ui.button(words).clicked() {
                actions.push(action);
            }
        }
    });
    let verifies = check_field(ui, state);
    ui.add_space(measures::TIGHT);
    let total = state.total.unwrap_or_default();
    if state.total == Some(0) {
        small(
            ui,
            if state.search.is_empty() {
                "No case yet"
            } else {
                "No case matches"
            },
        );
    }
    let mut visible = 0..0;
    let scroll = ScrollArea::vertical().auto_shrink(false);
    let spacing = ui.spacing().item_spacing.y;
    ui.spacing_mut().item_spacing.y = 0.0;
    let scroll = match scroll_offset(state, ui.available_height()) {
        Some(offset) => scroll.vertical_scroll_offset(offset),
        None => scroll,
    };
    let list = ui.interact(ui.available_rect_before_wrap(), rows_id(), Sense::FOCUSABLE);
    scroll.show_rows(ui, ROW_HEIGHT, total, |ui, range| {
        visible = range.clone();
        for index in range {
            actions.extend(row(ui, state, index, (open, list.has_focus())));
        }
    });
    ui.spacing_mut().item_spacing.y = spacing;
    let words = format!("Cases, {total}");
    list.widget_info(|| WidgetInfo::labeled(Role::ListBox, true, &words));
    if list.has_focus() {
        actions.extend(by_key(ui, state, &visible));
    }
    let request = verifies.or_else(|| state.request(&visible));
    (actions, request)
}

/// Whether a sheet in somebody's hand is the one to work by: its fingerprint, typed or scanned.
fn check_field(ui: &mut Ui, state: &mut ListState) -> Option<Request> {
    let field = egui::TextEdit::singleline(&mut state.fingerprint)
        .hint_text("Check a sheet: fingerprint")
        .desired_width(f32::INFINITY);
    let field = ui.add(field);
    let enter = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    field.accessible_name("Check a sheet, fingerprint");
    let text = state.fingerprint.trim();
    if !enter || text.is_empty() {
        return None;
    }
    Some(Request::Verify(text.to_owned()))
}

fn search_field(ui: &mut Ui, state: &mut ListState) {
    let before = state.search.clone();
    let field = egui::TextEdit::singleline(&mut state.search)
        .id(search_id())
        .hint_text("Search name or number")
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
    field.accessible_name("Search name or number");
    if state.search != before {
        state.rows.clear();
        state.asked = None;
        state.total = None;
        state.cursor = 0;
    }
}

fn scroll_offset(state: &mut ListState, height: f32) -> Option<f32> {
    if !core::mem::take(&mut state.scroll_to_cursor) {
        return None;
    }
    #[expect(
        clippy::cast_precision_loss,
        reason = "exact up to 16 million points, 280,000 rows"
    )]
    let top = state.cursor as f32 * ROW_HEIGHT;
    Some((top - (height - ROW_HEIGHT) / 2.0).max(0.0))
}

fn by_key(ui: &Ui, state: &mut ListState, visible: &Range<usize>) -> Option<Action> {
    let filter = EventFilter {
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(rows_id(), filter));
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
        return Some(Action::Open(row.case.clone()));
    } else {
        return None;
    };
    state.cursor = next.min(last);
    state.scroll_to_cursor = true;
    ui.request_repaint();
    None
}

fn row(
    ui: &mut Ui,
    state: &ListState,
    index: usize,
    (open, has_focus): (Option<&CaseId>, bool),
) -> Option<Action> {
    let size = vec2(ui.available_width(), ROW_HEIGHT);
    let (_, rect) = ui.allocate_space(size);
    let Some(row) = state.rows.get(&index) else {
        let color = Palette::current(ui).line;
        let bar = Rect::from_min_size(rect.min + vec2(8.0, 12.0), vec2(120.0, 8.0));
        ui.painter().rect_filled(bar, CornerRadius::same(2), color);
        return None;
    };
    // Found by click, moved to by arrow: the list as a whole is one stop of the Tab key.
    let response = ui.interact(rect, rows_id().with(index), Sense::CLICK);
    let palette = Palette::current(ui);
    let is_open = open == Some(&row.case);
    let rounding = CornerRadius::same(measures::ROUNDING);
    let inner = rect.shrink2(vec2(0.0, 1.0));
    if is_open {
        ui.painter().rect_filled(inner, rounding, palette.selected);
        let bar = Rect::from_min_size(inner.min, vec2(3.0, inner.height()));
        ui.painter()
            .rect_filled(bar, CornerRadius::ZERO, palette.accent);
    } else if response.hovered() {
        ui.painter().rect_filled(inner, rounding, palette.hovered);
    }
    if has_focus && index == state.cursor {
        let ring = Stroke::new(measures::FOCUS, palette.accent);
        ui.painter()
            .rect_stroke(inner, rounding, ring, StrokeKind::Inside);
    }
    paint_row(ui, row, inner.shrink2(vec2(10.0, 4.0)));
    let words = words(row);
    response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, is_open, &words));
    response.clicked().then(|| Action::Open(row.case.clone()))
}

fn words(row: &CaseRow) -> String {
    let name = row.name.as_deref().unwrap_or("Name missing");
    let [number, rest] = circumstances(row);
    format!("{name}, {number}, {rest}")
}

fn circumstances(row: &CaseRow) -> [String; 2] {
    let number = row.number.as_deref().unwrap_or("Number missing");
    let date = row.date.map_or_else(|| "no day".to_owned(), day);
    let eye = row.eye.map_or("Eye not chosen", eye);
    [
        number.to_owned(),
        format!("{eye} · {date} · {}", row.state.word()),
    ]
}

fn paint_row(ui: &Ui, row: &CaseRow, rect: Rect) {
    let palette = Palette::current(ui);
    let painter = ui.painter_at(rect.expand(2.0));
    let line = |text: &str, family: FontFamily, ink: Color32, (from, room): (f32, f32)| {
        let size = vec2(rect.width(), room);
        fitted(&painter, text, (family, ink), (from, size))
    };
    let plain = || FontFamily::Proportional;
    // A line of small text, as high as it is set.
    let one = measures::SMALL * 1.45;
    let rest =
        circumstances(row).map(|text| line(&text, plain(), palette.muted, (measures::SMALL, one)));
    let name = row.name.as_deref().unwrap_or("Name missing");
    let room = rect.height() - rest.iter().map(|it| it.size().y).sum::<f32>();
    let name = line(name, bold(), palette.ink, (measures::BODY, room));
    let mut top = rect.top() + (room - name.size().y).max(0.0) / 2.0;
    for (galley, ink) in [(name, palette.ink)]
        .into_iter()
        .chain(rest.map(|it| (it, palette.muted)))
    {
        let height = galley.size().y;
        painter.galley(pos2(rect.left(), top), galley, ink);
        top += height;
    }
}

/// A text of this size if there is room. An identifier is never cut: a long one wraps, and is set smaller
/// where even that does not fit.
fn fitted(
    painter: &Painter,
    text: &str,
    (family, color): (FontFamily, Color32),
    (from, room): (f32, Vec2),
) -> Arc<Galley> {
    let mut size = from;
    loop {
        let font = FontId::new(size, family.clone());
        let galley = painter.layout(text.to_owned(), font, color, room.x);
        if galley.size().y <= room.y || size <= 6.0 {
            return galley;
        }
        size -= 0.5;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exchange::CaseState;

    fn row(number: usize) -> CaseRow {
        CaseRow {
            case: CaseId(number.to_string()),
            name: None,
            number: Some(number.to_string()),
            eye: None,
            date: None,
            state: CaseState::Draft,
        }
    }

    #[test]
    fn rows_are_asked_for_once_and_old_answers_dropped() {
        let mut state = ListState::default();
        let first = state.request(&(0..10));
        let wanted = Request::List {
            search: String::new(),
            rows: 0..70,
        };
        assert_eq!(first, Some(wanted));
        assert_eq!(state.request(&(0..10)), None);
        state.take("other", (1, 0), vec![row(1)]);
        assert_eq!(state.total(), None);
        state.take("", (100_000, 0), (0..70).map(row).collect());
        assert_eq!(state.total(), Some(100_000));
        assert_eq!(state.request(&(0..10)), None);
        let further = state.request(&(50_000..50_010));
        let wanted = Request::List {
            search: String::new(),
            rows: 49_940..50_070,
        };
        assert_eq!(further, Some(wanted));
    }

    #[test]
    fn far_rows_are_let_go() {
        let mut state = ListState::default();
        for start in (0..10_000).step_by(100) {
            state.take("", (10_000, start), (start..start + 100).map(row).collect());
            assert!(state.rows.len() <= KEPT + 100);
        }
    }
}
