//! The section of the chamber, the room for the pieces and the choice of approach.

use egui::Ui;
use millrace_core::case::Command;

use super::CaseView;
use crate::widgets::{heading, muted};

/// What the page remembers beside the draft.
#[derive(Debug, Default)]
pub struct ApproachState {}

/// Shows the page.
pub fn approach_page(
    ui: &mut Ui,
    _view: &CaseView<'_>,
    _state: &mut ApproachState,
) -> Vec<Command> {
    heading(ui, "Approach");
    muted(
        ui,
        "The section of the chamber, the room for the pieces and the choice of approach come with the next step of this release",
    );
    Vec::new()
}
