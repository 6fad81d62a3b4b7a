//! What was seen of the eye. A sign nobody looked for is "not recorded", never "no".

use egui::Ui;
use millrace_core::biometry::EyeState;
use millrace_core::case::Command;
use millrace_wording::Show as _;
use millrace_wording::desk::biometry as say;

use super::refraction::refraction;
use super::{BiometryState, EyePage, contact_lenses, nucleus, signs, surgery};
use crate::widgets::section;

pub(super) fn show(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    let words = page.words;
    section(ui, &say::state_of(words, page.side));
    let before: &EyeState = &page.eye.state;
    let mut next = before.clone();
    nucleus::show(ui, page, &mut next, state.sitting.get_mut(page.side));
    signs::show(ui, page, &mut next, state);
    contact_lenses::show(ui, page, &mut next);
    surgery::show(ui, page, &mut next, state.surgery.get_mut(page.side));
    signs::numbers(ui, page, &mut next);
    let half = state.refraction.get_mut(page.side);
    let other = page.other.state.refraction;
    let other = other.map(|other| other.show(words).into_owned());
    let entered = half.enter(before.refraction.as_ref(), |parts| {
        let line = page.line(say::refraction_today(words), other.as_deref());
        refraction(ui, line, parts);
    });
    if let Some(change) = entered.change {
        next.refraction = change.value();
    }
    if next != *before {
        page.commands
            .push(Command::SetState(page.side, Box::new(next)));
    }
}
