//! Which sheet is looked at, what it says in one line, and what can be done with it.

use egui::{Button, RichText, TextEdit, Ui};

use super::{SheetState, SheetView};
use crate::exchange::{Place, Request, SheetRow, SheetUse, Standing, Which, eye_and_lens};
use crate::message::Message;
use crate::settings::{Decimals, PaperSize, Settings};
use crate::theme::{Palette, section_style};
use crate::widgets::{Segments, minor_button, muted};

const PAPERS: [(PaperSize, &str); 2] = [(PaperSize::A4, "A4"), (PaperSize::Letter, "Letter")];

/// Shows the part; tells which sheet is looked at.
pub(super) fn show(
    ui: &mut Ui,
    view: &SheetView<'_>,
    state: &mut SheetState,
    messages: &mut Vec<Message>,
) -> Which {
    let sheets = state.sheets.as_deref().unwrap_or_default();
    let which = match (state.shown, sheets.last()) {
        (Some(shown), _) => shown,
        (None, Some(sheet)) if sheet.is_current() => Which::Signed(sheet.number),
        (None, _) => Which::Draft,
    };
    let row = match which {
        Which::Draft => None,
        Which::Signed(number) => sheets.iter().find(|row| row.number == number),
    };
    in_one_line(ui, view, row);
    ui.horizontal_wrapped(|ui| {
        if which != Which::Draft && minor_button(ui, "Look at the draft").clicked() {
            state.shown = Some(Which::Draft);
        }
        let id = view.case.ground.with("paper");
        if let Some(paper) = Segments::new(id, "Paper", &PAPERS, Some(view.settings.paper)).show(ui)
        {
            messages.push(Message::Ask(Request::KeepSettings(Settings {
                paper,
                ..view.settings.clone()
            })));
        }
        if ui.button("View…").clicked() {
            messages.push(view.ask(which, SheetUse::View));
        }
        if ui.button("Print…").clicked() {
            messages.push(view.ask(which, SheetUse::Print));
        }
        if ui.button("Save as…").clicked() {
            state.writes = match state.writes {
                None => Some(String::new()),
                Some(_) => None,
            };
        }
    });
    let write = write_to(ui, state).map(SheetUse::Write);
    messages.extend(write.map(|write| view.ask(which, write)));
    which
}

/// Eye, power and lens as they are signed, or as the draft has them, and what that is worth.
fn in_one_line(ui: &mut Ui, view: &SheetView<'_>, row: Option<&SheetRow>) {
    let plans = row.map_or_else(|| eye_and_lens(view.case.draft), |row| row.plans.clone());
    let plans = Decimals::current(ui).write(&plans);
    ui.label(RichText::new(plans).text_style(section_style()));
    let palette = Palette::current(ui);
    let Some(row) = row else {
        muted(
            ui,
            "The draft: not signed, and printed without a lens power",
        );
        return;
    };
    let (words, ink) = match &row.standing {
        Standing::Current => ("the one to work by".to_owned(), palette.muted),
        Standing::ChangedSince => (
            "the case was changed since: do not work by it".to_owned(),
            palette.stop,
        ),
        Standing::Superseded(by) => (
            format!("superseded by sheet {by}: do not work by it"),
            palette.stop,
        ),
    };
    ui.label(RichText::new(format!("Sheet {}, {words}", row.number)).color(ink));
}

/// Where the file goes: a path that is typed, or the system's dialog.
fn write_to(ui: &mut Ui, state: &mut SheetState) -> Option<Place> {
    let path = state.writes.as_mut()?;
    let mut place = None;
    ui.horizontal_wrapped(|ui| {
        let field = TextEdit::singleline(path)
            .hint_text("path of the PDF")
            .desired_width(320.0);
        ui.add(field).accessible_name("Path of the PDF");
        let is_named = !path.trim().is_empty();
        if ui.add_enabled(is_named, Button::new("Write")).clicked() {
            place = Some(Place::Typed(path.trim().to_owned()));
        }
        if ui.button("Choose…").clicked() {
            place = Some(Place::Dialog);
        }
    });
    if place.is_some() {
        state.writes = None;
    }
    place
}
