//! One case on the theatre list.

use std::sync::Arc;

use egui::accesskit::Role;
use egui::{
    Color32, CornerRadius, FontFamily, FontId, Galley, Painter, Rect, Sense, Stroke, StrokeKind,
    Ui, Vec2, WidgetInfo, pos2, vec2,
};
use millrace_core::case::State;
use millrace_wording::desk::{frame, list as say};
use millrace_wording::{Show as _, Words, terms};

use super::{ListState, ROW_HEIGHT, open_case, rows_id};
use crate::exchange::{CaseId, CaseRow};
use crate::message::Message;
use crate::theme::{Palette, bold, measures};
use crate::widgets::typed_galley;
use crate::words::in_use;

/// What all rows know of each other.
#[derive(Clone, Copy)]
pub(super) struct Looks<'a> {
    pub(super) open: Option<&'a CaseId>,
    /// Whether the arrow keys move in the list.
    pub(super) has_focus: bool,
}

/// Shows the row; returns what the person wants.
pub(super) fn show(
    ui: &mut Ui,
    state: &ListState,
    index: usize,
    looks: Looks<'_>,
) -> Option<Message> {
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
    let is_open = looks.open == Some(&row.case);
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
    if looks.has_focus && index == state.cursor {
        let ring = Stroke::new(measures::FOCUS, palette.accent);
        ui.painter()
            .rect_stroke(inner, rounding, ring, StrokeKind::Inside);
    }
    let words = in_use(ui);
    let (name, rest) = (name(words, row), circumstances(words, row));
    paint_row(ui, name, &rest, inner.shrink2(vec2(10.0, 4.0)));
    response.widget_info(|| {
        let [number, rest, state] = &rest;
        let rest = say::circumstances(words, rest, state);
        let spoken = say::row(words, name, number, rest);
        WidgetInfo::selected(Role::ListBoxOption, true, is_open, spoken)
    });
    response.clicked().then(|| open_case(row))
}

fn name(words: Words, row: &CaseRow) -> &str {
    let name = row.name.as_deref();
    name.unwrap_or_else(|| frame::name_missing(words))
}

fn circumstances(words: Words, row: &CaseRow) -> [String; 3] {
    let number = row.number.as_deref();
    let number = number.unwrap_or_else(|| frame::number_missing(words));
    let day = row
        .date
        .map_or_else(|| say::no_day(words).to_owned(), |date| words.day(date));
    let eye = row.eye.map_or_else(
        || say::eye_missing(words),
        |eye| terms::eye_head(words, eye),
    );
    let state = match (row.state, row.sheet) {
        (State::Signed, Some(sheet)) => say::signed(words, sheet),
        (_, Some(sheet)) => say::changed_since(words, sheet),
        (state, None) => state.show(words).into_owned(),
    };
    [number.to_owned(), say::eye_and_day(words, eye, day), state]
}

fn paint_row(ui: &Ui, name: &str, rest: &[String; 3], rect: Rect) {
    let palette = Palette::current(ui);
    let painter = ui.painter_at(rect.expand(2.0));
    let line = |text: &str, family: FontFamily, size: f32, room: f32| {
        let font = FontId::new(size, family);
        fitted(&painter, text, font, vec2(rect.width(), room))
    };
    let plain = || FontFamily::Proportional;
    // A line of small text, as high as it is set.
    let one = measures::SMALL * 1.45;
    let rest = rest
        .each_ref()
        .map(|text| line(text, plain(), measures::SMALL, one));
    let room = rect.height() - rest.iter().map(|it| it.size().y).sum::<f32>();
    let name = line(name, bold(), measures::BODY, room);
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
fn fitted(painter: &Painter, text: &str, mut font: FontId, room: Vec2) -> Arc<Galley> {
    loop {
        let ink = Color32::PLACEHOLDER;
        let galley = typed_galley(painter, (text, ink), font.clone(), room.x);
        if galley.size().y <= room.y || font.size <= 6.0 {
            return galley;
        }
        font.size -= 0.5;
    }
}
