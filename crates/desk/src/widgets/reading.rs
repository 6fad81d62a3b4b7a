//! A text of reference that is asked for where its subject is shown, and read in front of the page.

use egui::{Context, Id, Response, Ui};
use millrace_core::iol_power::{Formula, FormulaConstants};

use super::layout::minor_button;

/// What is read about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Topic {
    Formula(Formula),
    /// How sure a prediction is; lens positions calibrated for these constants.
    Uncertainty(FormulaConstants),
}

fn asked() -> Id {
    Id::unique("text of reference")
}

/// A button that asks for the text, called `name`.
pub fn reads(ui: &mut Ui, name: &str, topic: Topic) -> Response {
    let button = minor_button(ui, name);
    if button.clicked() {
        ui.data_mut(|data| data.insert_temp(asked(), topic));
        ui.request_repaint();
    }
    button
}

/// What was asked for since the last pass.
pub fn take(ctx: &Context) -> Option<Topic> {
    ctx.data_mut(|data| {
        let topic = data.get_temp(asked());
        data.remove::<Topic>(asked());
        topic
    })
}
