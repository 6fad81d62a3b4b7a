//! A scrolled area goes where the focus goes.

use egui::{Id, Ui};

use crate::theme::measures;

/// Brings into sight what has just got the focus inside this scrolled area; by the Tab key it may well
/// be out of it.
pub fn follow_focus(ui: &Ui) {
    let last_seen = ui.scope_id().with("focus seen");
    let focused = ui.memory(egui::Memory::focused);
    let before = ui.data(|data| data.get_temp::<Option<Id>>(last_seen));
    if before == Some(focused) {
        return;
    }
    ui.data_mut(|data| data.insert_temp(last_seen, focused));
    let response = focused.and_then(|id| ui.ctx().read_response(id));
    if let Some(response) = response
        && response.layer_id == ui.layer_id()
        && ui.min_rect().contains(response.rect.center())
        && !ui.clip_rect().contains_rect(response.rect)
    {
        ui.scroll_to_rect(response.rect.expand(measures::NEAR), None);
    }
}
