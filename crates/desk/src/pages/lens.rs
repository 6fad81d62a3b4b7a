//! Target, lens, power and axis.

use egui::Ui;
use millrace_core::case::Command;

use super::CaseView;
use crate::widgets::{heading, muted};

/// What the page remembers beside the draft.
#[derive(Debug, Default)]
pub struct LensState {}

/// Shows the page.
pub fn lens_page(ui: &mut Ui, _view: &CaseView<'_>, _state: &mut LensState) -> Vec<Command> {
    heading(ui, "Lens");
    muted(
        ui,
        "Target, lens, power and axis come with the next step of this release",
    );
    Vec::new()
}
