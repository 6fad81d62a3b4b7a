//! What was seen of the eye. A sign nobody looked for is "not recorded", never "no".

use egui::Ui;
use millrace_core::biometry::EyeState;
use millrace_core::case::Command;

use super::{BiometryState, EyePage, nucleus, signs, surgery};
use crate::widgets::section;

pub(super) fn show(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    section(ui, &format!("State of the {}", page.side));
    let before: &EyeState = &page.eye.state;
    let mut next = before.clone();
    nucleus::show(ui, page, &mut next, state.nucleus_scale.get_mut(page.side));
    signs::show(ui, page, &mut next);
    surgery::show(ui, page, &mut next, state.surgery.get_mut(page.side));
    signs::numbers(ui, page, &mut next);
    if next != *before {
        page.commands
            .push(Command::SetState(page.side, Box::new(next)));
    }
}
