//! One operation of the day.

use std::sync::Arc;

use egui::accesskit::Role;
use egui::{
    Align, Color32, CornerRadius, CursorIcon, FontFamily, FontId, Galley, Id, Layout, Rect,
    Response, RichText, Sense, Stroke, StrokeKind, Ui, UiBuilder, WidgetInfo, pos2, vec2,
};
use millrace_core::case::State;
use millrace_core::rules::Severity;
use millrace_wording::desk::day as say;
use millrace_wording::{Show as _, Words, terms};

use super::lacking;
use super::move_acts::{self, Ways};
use crate::exchange::{DayCase, Planned, Toward};
use crate::theme::{Palette, bold, measures};
use crate::widgets::{Chosen, severity_color, severity_shape, typed_galley};
use crate::words::in_use;

/// Space on either side of what a row says.
const PAD: f32 = 8.0;
/// Space above and below it.
const ABOVE: f32 = 7.0;
/// Under this width a row says everything in lines below each other.
const STACKED: f32 = 700.0;
/// Parts of the width for patient, eye, lens, approach, state, findings.
const PARTS: [f32; 6] = [0.22, 0.115, 0.185, 0.195, 0.165, 0.12];

/// Where the columns stand.
pub(super) struct Columns {
    width: f32,
    /// Room of the place in the order, before all others.
    place: f32,
    /// Room of the acts that move a row, behind all others; nothing where a day is not put in order.
    acts: f32,
    widths: Option<[f32; 6]>,
}

impl Columns {
    /// Of every column; one that is as wide as there is room where the text stands in lines.
    fn widths(&self) -> [f32; 6] {
        let room = self.width - 2.0 * PAD - self.place - self.acts;
        self.widths.unwrap_or([room; 6])
    }

    fn least_height(&self) -> f32 {
        if 0.0 < self.acts {
            move_acts::HEIGHT
        } else {
            0.0
        }
    }

    /// `moves` says whether the rows can be moved.
    pub(super) fn within(ui: &Ui, moves: Chosen) -> Self {
        let width = ui.available_width();
        let place = text_width(ui, "99", measures::BODY) + PAD;
        let acts = match moves {
            Chosen::Yes => move_acts::room(ui) + PAD,
            Chosen::No => 0.0,
        };
        let inner = width - 2.0 * PAD - place - acts;
        Self {
            width,
            place,
            acts,
            widths: (STACKED <= width).then(|| PARTS.map(|part| part * inner)),
        }
    }
}

/// The place of a case in the order; nothing to see where the team gave none.
fn place_in_order(ui: &Ui, case: &DayCase) -> Arc<Galley> {
    let number = case.row.list_number.map(|number| number.get().to_string());
    let font = FontId::new(measures::BODY, bold());
    let ink = Palette::current(ui).ink;
    ui.painter()
        .layout_no_wrap(number.unwrap_or_default(), font, ink)
}

/// How wide a text is set in the bold typeface.
pub(super) fn text_width(ui: &Ui, text: &str, size: f32) -> f32 {
    let font = FontId::new(size, bold());
    let galley = ui
        .painter()
        .layout_no_wrap(text.to_owned(), font, Color32::PLACEHOLDER);
    galley.size().x.ceil()
}

/// What came of showing a row.
pub(super) struct Shown {
    pub(super) response: Response,
    /// Which way the case is moved.
    pub(super) moved: Option<Toward>,
}

/// What a row says.
struct Said {
    name: String,
    number: String,
    eye: String,
    lens: String,
    approach: String,
    state: String,
}

impl Said {
    fn of(ui: &Ui, case: &DayCase) -> Self {
        let words = in_use(ui);
        let row = &case.row;
        let or = |text: Option<&str>, missing: &str| text.unwrap_or(missing).to_owned();
        let eye = row.eye.map(|eye| terms::eye_capitals(words, eye));
        let approach = case.approach.as_ref().map(|it| it.show(words));
        Self {
            name: or(row.name.as_deref(), say::name_missing(words)),
            number: or(row.number.as_deref(), say::number_missing(words)),
            eye: or(eye, say::eye_missing(words)),
            lens: lens(words, &case.planned),
            approach: or(approach.as_deref(), say::approach_missing(words)),
            state: state(ui, case),
        }
    }

    /// Behind the patient, in reading order.
    fn rest(&self, findings: &str) -> String {
        [
            &*self.eye,
            &self.lens,
            &self.approach,
            &self.state,
            findings,
        ]
        .join(" · ")
    }
}

fn lens(words: Words, planned: &Planned) -> String {
    let Some(lens) = planned.lens.as_deref() else {
        return say::lens_missing(words).to_owned();
    };
    let mut text = match planned.power {
        Some(power) => say::planned(words, lens, power),
        None => say::without_power(words, lens),
    };
    if let Some(toric) = planned.toric {
        text += &say::with_cylinder(words, toric.cylinder, toric.axis);
    }
    // No number is parted from its unit where the line ends.
    text.replace(" D", "\u{a0}D")
        .replace(" at ", "\u{a0}at\u{a0}")
}

fn state(ui: &Ui, case: &DayCase) -> String {
    let words = in_use(ui);
    let mut parts = Vec::new();
    match (case.row.state, case.row.sheet) {
        (State::Signed, Some(sheet)) => parts.push(say::signed(words, sheet)),
        (_, Some(sheet)) => parts.push(say::changed_since(words, sheet)),
        (State::Planned, None) => parts.push(say::not_signed(words).to_owned()),
        (_, None) => {}
    }
    parts.extend(case.lacks.iter().map(|it| lacking(ui, *it).to_owned()));
    parts.join("; ")
}

/// The open findings by their strength, those of which there are any.
fn found(case: &DayCase) -> Vec<(Severity, usize)> {
    let open = case.open.map_or([0, 0], |open| [open.stops, open.reviews]);
    [Severity::Stop, Severity::Review]
        .into_iter()
        .zip(open)
        .filter(|(_, count)| 0 < *count)
        .collect()
}

fn findings(words: Words, case: &DayCase) -> String {
    if case.open.is_none() {
        return say::not_evaluated(words).to_owned();
    }
    let found = found(case);
    if found.is_empty() {
        return say::no_findings(words).to_owned();
    }
    let found = found.into_iter();
    let found: Vec<_> = found
        .map(|(it, count)| say::found(words, it, count))
        .collect();
    found.join(", ")
}

/// The heads of the columns, where there are columns.
pub(super) fn head(ui: &mut Ui, columns: &Columns) {
    let Some(widths) = columns.widths else {
        return;
    };
    let words = in_use(ui);
    let texts = [
        say::place(words),
        say::patient(words),
        say::eye(words),
        say::lens_and_power(words),
        say::approach(words),
        say::state(words),
        say::findings(words),
    ];
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        ui.add_space(PAD);
        let widths = [columns.place].into_iter().chain(widths);
        for (text, width) in texts.into_iter().zip(widths) {
            let size = vec2(width, measures::SMALL * 1.6);
            ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
                ui.set_min_width(width);
                let color = Palette::current(ui).muted;
                ui.label(RichText::new(text).size(measures::SMALL).color(color));
            });
        }
    });
}

/// The lines of one cell, and in which column it stands.
type Cell = (usize, Vec<Arc<Galley>>);

/// Everything of a row that is text, set to the widths of its columns.
fn cells(ui: &Ui, columns: &Columns, (case, said): (&DayCase, &Said), findings: &str) -> Vec<Cell> {
    let ink = Palette::current(ui).ink;
    let widths = columns.widths();
    let set = |text: &str, family: FontFamily, width: f32| {
        let font = FontId::new(measures::BODY, family);
        typed_galley(ui.painter(), (text, ink), font, width - PAD)
    };
    let plain = || FontFamily::Proportional;
    // Its printed sheet may still be in the notes.
    let is_changed = case.row.sheet.is_some() && case.row.state != State::Signed;
    let weight = if is_changed { bold() } else { plain() };
    let mut patient = vec![
        set(&said.name, bold(), widths[0]),
        set(&said.number, plain(), widths[0]),
    ];
    let mut cells = Vec::new();
    if columns.widths.is_some() {
        cells.extend([
            (1, vec![set(&said.eye, bold(), widths[1])]),
            (2, vec![set(&said.lens, plain(), widths[2])]),
            (3, vec![set(&said.approach, plain(), widths[3])]),
            (4, vec![set(&said.state, weight, widths[4])]),
        ]);
    } else {
        patient.push(set(&said.rest(findings), plain(), widths[0]));
    }
    cells.push((0, patient));
    cells
}

/// Shows the row; a click, or Enter on it, opens the case, and the acts beside it move it.
pub(super) fn show(
    ui: &mut Ui,
    columns: &Columns,
    (case, ways): (&DayCase, Ways),
    open: Chosen,
) -> Shown {
    let (words, said) = (in_use(ui), Said::of(ui, case));
    let spoken_findings = findings(words, case);
    let cells = cells(ui, columns, (case, &said), &spoken_findings);
    let tall = cells.iter().map(|(_, lines)| high(lines));
    let height = tall.fold(columns.least_height(), f32::max);
    let (_, rect) = ui.allocate_space(vec2(columns.width, height + 2.0 * ABOVE));
    let id = Id::unique(("day row", &case.row.case.0));
    let response = ui
        .interact(rect, id, Sense::click())
        .on_hover_cursor(CursorIcon::PointingHand);
    back(ui, rect, &response, open);
    let (top, widths) = (rect.top() + ABOVE, columns.widths());
    let first = rect.left() + PAD + columns.place;
    let left_of = |column: usize| first + widths.iter().take(column).sum::<f32>();
    let place = place_in_order(ui, case);
    ui.painter()
        .galley(pos2(rect.left() + PAD, top), place, Color32::PLACEHOLDER);
    for (column, lines) in cells {
        let mut top = top;
        for line in lines {
            let tall = line.size().y;
            ui.painter()
                .galley(pos2(left_of(column), top), line, Color32::PLACEHOLDER);
            top += tall;
        }
    }
    let acts = rect.right() - PAD - columns.acts;
    if columns.widths.is_some() {
        let cell = Rect::from_min_max(pos2(left_of(5), top), pos2(acts, rect.bottom()));
        show_findings(ui, cell, case, &spoken_findings);
    }
    response.widget_info(|| {
        let patient = say::patient_spoken(words, &said.name, &said.number);
        let text = say::row(words, patient, said.rest(&spoken_findings));
        let text = match case.row.list_number {
            Some(number) => say::place_spoken(words, number.get(), text),
            None => text,
        };
        WidgetInfo::selected(Role::Button, true, open == Chosen::Yes, text)
    });
    let has_acts = 0.0 < columns.acts;
    let moved = has_acts.then(|| {
        let right = pos2(rect.right() - PAD, rect.bottom());
        let cell = Rect::from_min_max(pos2(acts + PAD, top), right);
        move_acts::show(ui, cell, (&case.row.case, &said.name), ways)
    });
    Shown {
        response,
        moved: moved.flatten(),
    }
}

fn high(lines: &[Arc<Galley>]) -> f32 {
    lines.iter().map(|line| line.size().y).sum()
}

/// What lies behind a row: that of the open case, of the one under the pointer, and the focus.
fn back(ui: &Ui, rect: Rect, response: &Response, open: Chosen) {
    let palette = Palette::current(ui);
    let painter = ui.painter();
    let rounding = CornerRadius::same(measures::ROUNDING);
    if open == Chosen::Yes {
        painter.rect_filled(rect, rounding, palette.selected);
        // Not by color alone.
        let bar = Rect::from_min_size(rect.min, vec2(3.0, rect.height()));
        painter.rect_filled(bar, CornerRadius::ZERO, palette.accent);
    } else if response.hovered() {
        painter.rect_filled(rect, rounding, palette.hovered);
    }
    let hairline = Stroke::new(measures::OUTLINE, palette.line);
    painter.hline(rect.x_range(), rect.bottom(), hairline);
    if response.has_focus() {
        let ring = Stroke::new(measures::FOCUS, palette.accent);
        painter.rect_stroke(rect, rounding, ring, StrokeKind::Inside);
    }
}

/// Shapes and counts; the row says them.
fn show_findings(ui: &mut Ui, cell: Rect, case: &DayCase, text: &str) {
    let layout = Layout::left_to_right(Align::Min);
    let mut ui = ui.new_child(UiBuilder::new().max_rect(cell).layout(layout));
    ui.spacing_mut().item_spacing.x = measures::TIGHT;
    let found = found(case);
    let palette = Palette::current(&ui);
    let paint = |ui: &mut Ui, text: &str, color: Color32| {
        let font = FontId::proportional(measures::BODY);
        let galley = ui.painter().layout_no_wrap(text.to_owned(), font, color);
        let (_, rect) = ui.allocate_space(galley.size() + vec2(measures::TIGHT, 0.0));
        ui.painter().galley(rect.min, galley, color);
    };
    if found.is_empty() {
        return paint(&mut ui, text, palette.muted);
    }
    for (severity, count) in found {
        severity_shape(&mut ui, severity);
        let color = severity_color(palette, severity);
        paint(&mut ui, &count.to_string(), color);
    }
}
