//! The page that theatre gets: not yet here.

use egui::Ui;
use millrace_core::case::Command;

use crate::widgets::{heading, muted};

pub(super) fn sheet_page(ui: &mut Ui) -> Vec<Command> {
    heading(ui, "Sheet");
    muted(ui, "Signing and printing come with the next release");
    Vec::new()
}
