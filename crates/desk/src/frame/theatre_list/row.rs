//! One case on the theatre list.

use egui::accesskit::Role;
use egui::{
    Align2, CornerRadius, FontId, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};
use millrace_core::case::{ListNumber, State};
use millrace_wording::desk::{frame, list as say};
use millrace_wording::{Show as _, Words, terms};

use super::places::Group;
use super::{ListState, open_case, rows_id};
use crate::exchange::{CaseId, CaseRow};
use crate::message::Message;
use crate::theme::{Palette, bold, measures};
use crate::widgets::{Chosen, typed_galley};
use crate::words::in_use;

/// What all rows know of each other.
#[derive(Clone, Copy)]
pub(super) struct Looks<'a> {
    pub(super) open: Option<&'a CaseId>,
    /// Whether the arrow keys move in the list.
    pub(super) has_focus: bool,
}

/// What came of showing a row.
#[derive(Default)]
pub(super) struct Shown {
    pub(super) opened: Option<Message>,
    /// How high its text makes it; nothing while it is not at hand.
    pub(super) height: Option<f32>,
}

/// Space beside the text of a row, and above and below it.
const BESIDE: f32 = 10.0;
const ABOVE: f32 = 5.0;
/// Space above the head of a day.
const OVER_HEAD: f32 = 8.0;

fn bold_font() -> FontId {
    FontId::new(measures::BODY, bold())
}

fn line_height(ui: &Ui, font: &FontId) -> f32 {
    ui.ctx().fonts_mut(|fonts| fonts.row_height(font))
}

/// Height of a row whose every text has one line.
pub(super) fn least_height(ui: &Ui) -> f32 {
    let small = line_height(ui, &FontId::proportional(measures::SMALL));
    line_height(ui, &bold_font()) + 2.0 * small + 2.0 * ABOVE
}

/// Height of the head of a day.
pub(super) fn head_height(ui: &Ui) -> f32 {
    line_height(ui, &bold_font()) + OVER_HEAD + measures::TIGHT
}

/// Shows the head of a day: which, and how many cases.
pub(super) fn head(ui: &mut Ui, rect: Rect, group: &Group) {
    let (words, palette) = (in_use(ui), Palette::current(ui));
    let count = group.count;
    let (text, spoken) = match group.day {
        Some(day) => (
            say::of_day(words, words.short_weekday(day), count),
            say::of_day_spoken(words, count, words.weekday(day)),
        ),
        None => (
            say::of_no_day(words, count),
            say::of_no_day_spoken(words, count),
        ),
    };
    let response = ui.interact(rect, rows_id().with(("head", group.day)), Sense::HOVER);
    let at = pos2(rect.left() + BESIDE, rect.bottom() - measures::TIGHT);
    ui.painter()
        .text(at, Align2::LEFT_BOTTOM, text, bold_font(), palette.accent);
    let line = Stroke::new(measures::OUTLINE, palette.line);
    ui.painter().hline(rect.x_range(), rect.bottom(), line);
    response.widget_info(|| WidgetInfo::labeled(Role::Heading, true, &spoken));
}

/// Shows the row.
pub(super) fn show(
    ui: &mut Ui,
    state: &ListState,
    (index, rect): (usize, Rect),
    looks: Looks<'_>,
) -> Shown {
    let palette = Palette::current(ui);
    let Some(row) = state.rows.get(&index) else {
        let bar = Rect::from_min_size(rect.min + vec2(8.0, 12.0), vec2(120.0, 8.0));
        let rounding = CornerRadius::same(2);
        ui.painter().rect_filled(bar, rounding, palette.line);
        return Shown::default();
    };
    // Found by click, moved to by arrow: the list as a whole is one stop of the Tab key.
    let response = ui.interact(rect, rows_id().with(index), Sense::CLICK);
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
    let text = Text::of(in_use(ui), row);
    let height = text.paint(ui, rect, state.places.is_grouped().into());
    let spoken = text.spoken(in_use(ui));
    response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, is_open, &spoken));
    Shown {
        opened: response.clicked().then(|| open_case(row)),
        height: Some(height),
    }
}

/// What a row says.
struct Text<'a> {
    place: Option<u8>,
    name: &'a str,
    number: &'a str,
    eye: &'static str,
    day: String,
    state: String,
}

impl<'a> Text<'a> {
    fn of(words: Words, row: &'a CaseRow) -> Self {
        let (name, number) = (row.name.as_deref(), row.number.as_deref());
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
        Self {
            place: row.list_number.map(ListNumber::get),
            name: name.unwrap_or_else(|| frame::name_missing(words)),
            number: number.unwrap_or_else(|| frame::number_missing(words)),
            eye,
            day,
            state,
        }
    }

    fn spoken(&self, words: Words) -> String {
        let day = say::eye_and_day(words, self.eye, &self.day);
        let rest = say::circumstances(words, day, &self.state);
        let row = say::row(words, self.name, self.number, rest);
        match self.place {
            Some(place) => say::place_and_row(words, place, row),
            None => row,
        }
    }

    /// Writes it; tells how high a row it needs. An identifier is never cut and never set smaller: a long one
    /// takes the lines it needs. Under the head of its day, a row does not repeat it.
    fn paint(&self, ui: &Ui, rect: Rect, is_grouped: Chosen) -> f32 {
        let (words, palette) = (in_use(ui), Palette::current(ui));
        let left = rect.left() + BESIDE;
        let room = rect.width() - 2.0 * BESIDE;
        let small = FontId::proportional(measures::SMALL);
        let painter = ui.painter_at(rect);
        let mut top = rect.top() + ABOVE;
        let place = self.place.map(|place| {
            let text = place.to_string();
            painter.layout_no_wrap(text, bold_font(), palette.muted)
        });
        // In line with each other: most numbers have one digit.
        let beside_place = place.map_or(0.0, |place| {
            let wide = place.size().x + BESIDE / 2.0;
            painter.galley(pos2(left, top), place, palette.muted);
            wide
        });
        let number = say::number_and_eye(words, self.number, self.eye);
        let state = match is_grouped {
            Chosen::Yes => self.state.clone(),
            Chosen::No => say::day_and_state(words, &self.day, &self.state),
        };
        for (text, font, ink, indent) in [
            (self.name, bold_font(), palette.ink, beside_place),
            (&number, small.clone(), palette.muted, 0.0),
            (&state, small, palette.muted, 0.0),
        ] {
            let galley = typed_galley(&painter, (text, ink), font, room - indent);
            let tall = galley.size().y;
            painter.galley(pos2(left + indent, top), galley, ink);
            top += tall;
        }
        top - rect.top() + ABOVE
    }
}
