//! "Use mine": a surgeon's own way put into the case, by hand and visibly.
//!
//! Each function shows a button where there is something to offer, and nothing where not; what it
//! returns is an ordinary command, undone as any other.

use egui::Ui;
use millrace_core::case::Command;
use millrace_wording::desk::settings as say;

use super::CaseView;
use crate::words::in_use;

/// Offers the surgeon's own convention.
pub fn convention(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let command = view.own.convention_for(view.draft)?;
    let words = in_use(ui);
    let mine = say::use_mine(words, view.own.convention?);
    ui.button(mine).clicked().then_some(command)
}

/// Offers the effect of the surgeon's own incision for the approach of the case.
pub fn incision(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let command = view.own.incision_for(view.draft)?;
    let mine = view.own.incision(view.draft.approach.approach?)?;
    let words = in_use(ui);
    let mine = say::incision(words, mine.flattening(), mine.scatter(), mine.eyes());
    let mine = say::use_mine(words, mine);
    ui.button(mine).clicked().then_some(command)
}
