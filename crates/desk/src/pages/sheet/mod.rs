//! The page that theatre gets: which sheet is looked at, what theatre needs beside lens and incision, the
//! signature, the sheets signed so far, and the page as it prints.

mod looked_at;
mod preview;
mod signing;
mod theatre;

use egui::Ui;
use millrace_core::case::Command;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::signing::SheetNumber;

use super::CaseView;
use crate::exchange::{CaseId, PagesOf, Place, SheetRow, Which};
use crate::frame::Action;
use crate::settings::Settings;
use crate::widgets::heading;
use crate::widgets::waiting::Waiting;

/// What the page remembers of a case beside its draft.
#[derive(Default)]
pub struct SheetState {
    theatre: theatre::TheatreState,
    role: String,
    target: Option<HundredthDiopters>,
    /// Sheets signed so far; nothing before they were asked for.
    pub(crate) sheets: Option<Vec<SheetRow>>,
    /// Why the last signature was refused.
    pub(crate) refused: Vec<String>,
    /// Which sheet is looked at; the draft, or the current sheet, while none was chosen.
    shown: Option<Shown>,
    pub(crate) preview: preview::Preview,
    writes: Option<String>,
}

/// What is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Shown {
    /// The print of the draft.
    Draft,
    /// A signed sheet.
    Sheet(SheetNumber),
}

/// What the page asks the executable for.
#[derive(Clone, Debug, PartialEq)]
pub enum SheetAsk {
    /// Which sheets were signed for this case.
    List,
    /// To sign what is stored.
    Sign {
        /// Role of the person at the desk.
        role: String,
        /// The consented target, entered again.
        target: HundredthDiopters,
    },
    /// The pages of a sheet.
    Show(PagesOf),
    /// The sheet as a file.
    Write(Which, Place),
    /// The sheet in the system's viewer.
    View(Which),
    /// The sheet on paper.
    Print(Which),
}

/// What a person did on the page.
#[derive(Default)]
pub struct Asked {
    /// Changes of the case.
    pub commands: Vec<Command>,
    /// For the executable.
    pub asks: Vec<SheetAsk>,
    /// For the desk.
    pub actions: Vec<Action>,
}

/// What the page is shown beside the case.
#[derive(Clone, Copy)]
pub struct SheetView<'a> {
    /// The case.
    pub case: CaseView<'a>,
    /// Whether everything of it is stored.
    pub is_saved: bool,
    /// Its name in the register.
    pub of_case: &'a CaseId,
    /// What stands in its fields and is not taken.
    pub waiting: &'a [Waiting],
    /// Counts the changes of the draft.
    pub version: u64,
    /// The person's settings; the paper is one of them.
    pub settings: &'a Settings,
}

impl SheetState {
    /// The sheet that was just signed is looked at, and nothing typed for it is kept.
    pub fn signed(&mut self, sheets: Vec<SheetRow>) {
        self.shown = sheets.last().map(|sheet| Shown::Sheet(sheet.number));
        self.target = None;
        self.refused = Vec::new();
        self.sheets = Some(sheets);
    }
}

/// Shows the page.
pub fn sheet_page(ui: &mut Ui, view: &SheetView<'_>, state: &mut SheetState) -> Asked {
    let mut asked = Asked::default();
    if state.sheets.is_none() {
        state.sheets = Some(Vec::new());
        asked.asks.push(SheetAsk::List);
    }
    heading(ui, "Sheet");
    let shown = looked_at::show(ui, view, state, &mut asked);
    theatre::show(ui, &view.case, &mut state.theatre, &mut asked.commands);
    signing::show(ui, view, state, &mut asked);
    preview::show(ui, view, shown, (&mut state.preview, &mut asked));
    asked
}
