//! Which sheet is looked at, what it says in one line, and what can be done with it.

use egui::{Button, RichText, TextEdit, Ui};
use millrace_wording::Show as _;
use millrace_wording::desk::sheet as say;

use super::{SheetState, SheetView};
use crate::exchange::{Place, Planned, Request, SheetRow, SheetUse, Standing, Which};
use crate::message::Message;
use crate::settings::{PaperSize, Settings};
use crate::theme::{Palette, section_style};
use crate::widgets::{Segments, minor_button, muted};
use crate::words::in_use;

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
    let words = in_use(ui);
    ui.horizontal_wrapped(|ui| {
        if which != Which::Draft && minor_button(ui, say::look_at_draft(words)).clicked() {
            state.shown = Some(Which::Draft);
        }
        let id = view.case.ground.with("paper");
        let papers = [
            (PaperSize::A4, "A4"),
            (PaperSize::Letter, say::letter(words)),
        ];
        let papers = Segments::new(id, say::paper(words), &papers, Some(view.settings.paper));
        if let Some(paper) = papers.show(ui) {
            messages.push(Message::Ask(Request::KeepSettings(Settings {
                paper,
                ..view.settings.clone()
            })));
        }
        if ui.button(say::view(words)).clicked() {
            messages.push(view.ask(which, SheetUse::View));
        }
        if ui.button(say::print(words)).clicked() {
            messages.push(view.ask(which, SheetUse::Print));
        }
        if ui.button(say::save_as(words)).clicked() {
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
    let words = in_use(ui);
    let plans = row.map_or_else(|| Planned::of(view.case.draft), |row| row.plans.clone());
    ui.label(RichText::new(plans.show(words)).text_style(section_style()));
    let palette = Palette::current(ui);
    let Some(row) = row else {
        muted(ui, say::is_the_draft(words));
        return;
    };
    let number = row.number;
    let (text, ink) = match row.standing {
        Standing::Current => (say::is_current(words, number), palette.muted),
        Standing::ChangedSince => (say::is_changed_since(words, number), palette.stop),
        Standing::Superseded(by) => (say::is_superseded(words, number, by), palette.stop),
    };
    ui.label(RichText::new(text).color(ink));
}

/// Where the file goes: a path that is typed, or the system's dialog.
fn write_to(ui: &mut Ui, state: &mut SheetState) -> Option<Place> {
    let path = state.writes.as_mut()?;
    let (mut place, words) = (None, in_use(ui));
    ui.horizontal_wrapped(|ui| {
        let field = TextEdit::singleline(path)
            .hint_text(say::path_hint(words))
            .desired_width(320.0);
        ui.add(field).accessible_name(say::path(words));
        let is_named = !path.trim().is_empty();
        if ui
            .add_enabled(is_named, Button::new(say::write(words)))
            .clicked()
        {
            place = Some(Place::Typed(path.trim().to_owned()));
        }
        if ui.button(say::choose(words)).clicked() {
            place = Some(Place::Dialog);
        }
    });
    if place.is_some() {
        state.writes = None;
    }
    place
}
