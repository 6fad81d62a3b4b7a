//! Fields that show what is recorded and take nothing.

use egui::{Context, Id, Response, Ui};

use super::layout::minor_button;

/// Whether the fields that are shown next take anything.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Fields {
    #[default]
    Open,
    Locked,
}

/// What of its strength a locked choice keeps: it is read as before, and does not look like one to be used.
const STRENGTH: f32 = 0.8;

/// The fields shown from now on are like this.
pub fn hold(ctx: &Context, fields: Fields) {
    ctx.data_mut(|data| data.insert_temp(id(), fields));
}

pub(super) fn is_locked(ctx: &Context) -> bool {
    ctx.data(|data| data.get_temp(id())) == Some(Fields::Locked)
}

/// Shows a choice, which takes nothing while the fields are locked.
pub(super) fn held<R>(ui: &mut Ui, add: impl FnOnce(&mut Ui) -> R) -> R {
    if !is_locked(ui) {
        return add(ui);
    }
    ui.scope(|ui| {
        ui.visuals_mut().disabled_alpha = STRENGTH;
        ui.disable();
        add(ui)
    })
    .inner
}

/// A button that changes what fields hold: while they are locked it takes nothing, and looks so.
pub fn field_button(ui: &mut Ui, text: &str) -> Response {
    let is_open = !is_locked(ui);
    ui.add_enabled_ui(is_open, |ui| minor_button(ui, text))
        .inner
}

fn id() -> Id {
    Id::unique("whether fields are locked")
}
