//! The page that theatre gets: which sheet is looked at, what theatre needs beside lens and incision, the
//! signature, the sheets signed so far, and the page as it prints.

mod backups;
mod looked_at;
mod preview;
mod signing;
mod theatre;

use egui::Ui;
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::desk::sheet as say;

use super::CaseView;
use crate::exchange::{Request, SheetRequest, SheetRow, SheetUse, Which};
use crate::message::Message;
use crate::session::{SaveState, Session};
use crate::settings::Settings;
use crate::theme::measures;
use crate::widgets::waiting::Waiting;
use crate::widgets::{Fields, column, heading, hold};
use crate::words::in_use;

/// What the page remembers of a case beside its draft.
#[derive(Default)]
pub struct SheetState {
    theatre: theatre::TheatreState,
    role: String,
    target: Option<HundredthDiopters>,
    /// Sheets signed so far, the oldest first; nothing if they could not be read.
    pub(crate) sheets: Option<Vec<SheetRow>>,
    /// Why the last signature was refused.
    refused: Vec<String>,
    /// Which sheet is looked at; the draft, or the current sheet, while none was chosen.
    shown: Option<Which>,
    pub(crate) preview: preview::Preview,
    writes: Option<String>,
}

/// What the page is shown beside the case.
#[derive(Clone, Copy)]
pub struct SheetView<'a> {
    pub case: CaseView<'a>,
    pub session: &'a Session,
    /// What stands in its fields and is not taken.
    pub waiting: &'a [Waiting],
    /// The person's settings; the paper is one of them.
    pub settings: &'a Settings,
    /// Those of the case; what is done with a sheet is done with a signed one too.
    pub fields: Fields,
}

impl SheetView<'_> {
    fn is_saved(&self) -> bool {
        self.session.save_state() == SaveState::Saved
    }

    /// Asks for something to be done with a sheet.
    fn ask(&self, which: Which, sheet_use: SheetUse) -> Message {
        let sheet = SheetRequest {
            which,
            draft: Box::new(self.case.draft.clone()),
            limits: Box::new(self.case.limits.clone()),
            paper: self.settings.paper,
        };
        Message::Ask(Request::Sheet(sheet_use, sheet))
    }
}

impl SheetState {
    /// The sheet that was just signed is looked at, and nothing typed for it is kept; or what stood
    /// against it is told.
    pub(crate) fn signed(&mut self, sheets: Result<Vec<SheetRow>, Vec<String>>) {
        match sheets {
            Ok(sheets) => {
                self.shown = sheets.last().map(|sheet| Which::Signed(sheet.number));
                self.target = None;
                self.refused = Vec::new();
                self.sheets = Some(sheets);
            }
            Err(why) => self.refused = why,
        }
    }
}

/// Width of the form where the pages stand beside it: the longest row of it.
const FORM: f32 = 620.0;
/// From this width on there is room for both.
const WIDE: f32 = FORM + measures::FAR + 340.0;

/// Shows the page; returns what the person did. The pages stand beside the form, or under it where there is
/// no room.
pub fn sheet_page(ui: &mut Ui, view: &SheetView<'_>, state: &mut SheetState) -> Vec<Message> {
    let mut messages = Vec::new();
    heading(ui, say::title(in_use(ui)));
    let width = ui.available_width();
    if width < WIDE {
        let shown = form(ui, view, state, &mut messages);
        messages.extend(state.preview.show(ui, view, shown));
        return messages;
    }
    ui.horizontal_top(|ui| {
        let shown = column(ui, FORM, |ui| form(ui, view, state, &mut messages));
        ui.add_space(measures::FAR);
        let rest = ui.available_width();
        let asked = column(ui, rest, |ui| state.preview.show(ui, view, shown));
        messages.extend(asked);
    });
    messages
}

/// In the order it is read and filled in, with the signature at its end; tells which sheet is looked at.
fn form(
    ui: &mut Ui,
    view: &SheetView<'_>,
    state: &mut SheetState,
    messages: &mut Vec<Message>,
) -> Which {
    let shown = looked_at::show(ui, view, state, messages);
    hold(ui, view.fields);
    let changes = theatre::show(ui, &view.case, &mut state.theatre);
    hold(ui, Fields::Open);
    messages.extend(changes.into_iter().map(Message::Change));
    signing::sheets(ui, view, state, messages);
    signing::show(ui, view, state, messages);
    shown
}
