//! Which sheet is looked at, what it says in one line, and what can be done with it.

use egui::{Button, RichText, TextEdit, Ui};

use super::{Asked, SheetAsk, SheetState, SheetView, Shown};
use crate::exchange::{Place, SheetRow, Standing, Which, eye_and_lens};
use crate::frame::Action;
use crate::settings::{Decimals, PaperSize, Settings};
use crate::theme::{Palette, section_style};
use crate::widgets::{Segments, minor_button, muted};

const PAPERS: [(PaperSize, &str); 2] = [(PaperSize::A4, "A4"), (PaperSize::Letter, "Letter")];

/// Shows the part; tells which sheet is looked at.
pub(super) fn show(
    ui: &mut Ui,
    view: &SheetView<'_>,
    state: &mut SheetState,
    asked: &mut Asked,
) -> Which {
    let sheets = state.sheets.as_deref().unwrap_or_default();
    let shown = match (state.shown, sheets.last()) {
        (Some(shown), _) => shown,
        (None, Some(sheet)) if sheet.is_current() => Shown::Sheet(sheet.number),
        (None, _) => Shown::Draft,
    };
    let row = match shown {
        Shown::Draft => None,
        Shown::Sheet(number) => sheets.iter().find(|row| row.number == number),
    };
    in_one_line(ui, view, row);
    let which = match shown {
        Shown::Draft => Which::Draft,
        Shown::Sheet(number) => Which::Signed(number),
    };
    ui.horizontal_wrapped(|ui| {
        if shown != Shown::Draft && minor_button(ui, "Look at the draft").clicked() {
            state.shown = Some(Shown::Draft);
        }
        let id = view.case.ground.with("paper");
        if let Some(paper) = Segments::new(id, "Paper", &PAPERS, Some(view.settings.paper)).show(ui)
        {
            asked.actions.push(Action::Follow(Settings {
                paper,
                ..view.settings.clone()
            }));
        }
        if ui.button("View…").clicked() {
            asked.asks.push(SheetAsk::View(which));
        }
        if ui.button("Print…").clicked() {
            asked.asks.push(SheetAsk::Print(which));
        }
        if ui.button("Save as…").clicked() {
            state.writes = match state.writes {
                None => Some(String::new()),
                Some(_) => None,
            };
        }
    });
    write_to(ui, which, state, asked);
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
fn write_to(ui: &mut Ui, which: Which, state: &mut SheetState, asked: &mut Asked) {
    let Some(path) = &mut state.writes else {
        return;
    };
    let mut place = None;
    ui.horizontal_wrapped(|ui| {
        let field = TextEdit::singleline(path)
            .hint_text("path of the PDF")
            .desired_width(320.0);
        ui.add(field).accessible_name("Path of the PDF");
        let is_named = !path.trim().is_empty();
        if ui.add_enabled(is_named, Button::new("Write")).clicked() {
            place = Some(Place::Path(path.trim().to_owned()));
        }
        if ui.button("Choose…").clicked() {
            place = Some(Place::Dialog);
        }
    });
    if let Some(place) = place {
        state.writes = None;
        asked.asks.push(SheetAsk::Write(which, place));
    }
}
