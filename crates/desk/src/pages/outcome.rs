//! What became of the operation: not yet here.

use egui::Ui;
use millrace_core::case::Command;
use millrace_wording::desk::{frame, outcome};

use crate::widgets::{heading, muted};
use crate::words::in_use;

pub(super) fn outcome_page(ui: &mut Ui) -> Vec<Command> {
    let words = in_use(ui);
    heading(ui, frame::outcome(words));
    muted(ui, outcome::comes_later(words));
    Vec::new()
}
