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
use crate::exchange::{DayCase, Planned};
use crate::theme::{Palette, bold, measures};
use crate::widgets::{Chosen, severity_color, severity_shape, typed_galley};
use crate::words::in_use;

/// Space on either side of what a row says.
const PAD: f32 = 8.0;
/// Under this width a row says everything in lines below each other.
const STACKED: f32 = 640.0;
/// Parts of the width for patient, eye, lens, approach, state, findings.
const PARTS: [f32; 6] = [0.23, 0.12, 0.19, 0.17, 0.17, 0.12];

/// Where the columns stand.
pub(super) struct Columns {
    width: f32,
    widths: Option<[f32; 6]>,
}

impl Columns {
    pub(super) fn within(width: f32) -> Self {
        let inner = width - 2.0 * PAD;
        Self {
            width,
            widths: (STACKED <= width).then(|| PARTS.map(|part| part * inner)),
        }
    }
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

/// Shows the row; a click, or Enter on it, opens the case.
pub(super) fn show(ui: &mut Ui, columns: &Columns, case: &DayCase, open: Chosen) -> Response {
    let (words, said) = (in_use(ui), Said::of(ui, case));
    let ink = Palette::current(ui).ink;
    let set = |text: &str, family: FontFamily, width: f32| {
        let font = FontId::new(measures::BODY, family);
        typed_galley(ui.painter(), (text, ink), font, width - PAD)
    };
    let plain = || FontFamily::Proportional;
    // Its printed sheet may still be in the notes.
    let is_changed = case.row.sheet.is_some() && case.row.state != State::Signed;
    let weight = if is_changed { bold() } else { plain() };
    let widths = columns.widths.unwrap_or([columns.width - PAD; 6]);
    let spoken_findings = findings(words, case);
    // Each cell: its lines, and in which column it stands.
    let mut patient = vec![
        set(&said.name, bold(), widths[0]),
        set(&said.number, plain(), widths[0]),
    ];
    let mut cells: Vec<(usize, Vec<Arc<Galley>>)> = Vec::new();
    if columns.widths.is_some() {
        cells.extend([
            (1, vec![set(&said.eye, bold(), widths[1])]),
            (2, vec![set(&said.lens, plain(), widths[2])]),
            (3, vec![set(&said.approach, plain(), widths[3])]),
            (4, vec![set(&said.state, weight, widths[4])]),
        ]);
    } else {
        let rest = said.rest(&spoken_findings);
        patient.push(set(&rest, plain(), widths[0]));
    }
    cells.push((0, patient));
    let height = cells
        .iter()
        .map(|(_, lines)| high(lines))
        .fold(0.0, f32::max);
    let (_, rect) = ui.allocate_space(vec2(columns.width, height + 2.0 * 7.0));
    let id = Id::unique(("day row", &case.row.case.0));
    let response = ui
        .interact(rect, id, Sense::click())
        .on_hover_cursor(CursorIcon::PointingHand);
    back(ui, rect, &response, open);
    for (column, lines) in cells {
        let left = rect.left() + PAD + widths.iter().take(column).sum::<f32>();
        let mut top = rect.top() + 7.0;
        for line in lines {
            let tall = line.size().y;
            ui.painter()
                .galley(pos2(left, top), line, Color32::PLACEHOLDER);
            top += tall;
        }
    }
    if columns.widths.is_some() {
        let left = rect.left() + PAD + widths.iter().take(5).sum::<f32>();
        let cell = Rect::from_min_max(pos2(left, rect.top() + 7.0), rect.right_bottom());
        show_findings(ui, cell, case, &spoken_findings);
    }
    response.widget_info(|| {
        let patient = say::patient_spoken(words, &said.name, &said.number);
        let text = say::row(words, patient, said.rest(&spoken_findings));
        WidgetInfo::selected(Role::Button, true, open == Chosen::Yes, text)
    });
    response
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
