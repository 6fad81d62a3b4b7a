//! Patient and measurements.

use egui::Ui;
use millrace_core::case::Command;

use super::CaseView;
use crate::widgets::heading;

/// What the page remembers beside the draft.
#[derive(Debug, Default)]
pub struct BiometryState {}

/// Shows the page.
pub fn biometry_page(
    ui: &mut Ui,
    _view: &CaseView<'_>,
    _state: &mut BiometryState,
) -> Vec<Command> {
    heading(ui, "Biometry");
    Vec::new()
}
