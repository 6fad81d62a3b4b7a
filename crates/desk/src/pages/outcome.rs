//! What became of the operation: not yet here.

use egui::Ui;
use millrace_core::case::Command;

use crate::widgets::{heading, muted};

pub(super) fn outcome_page(ui: &mut Ui) -> Vec<Command> {
    heading(ui, "Outcome");
    muted(
        ui,
        "Refraction, acuity and cornea after the operation come with the next release",
    );
    Vec::new()
}
