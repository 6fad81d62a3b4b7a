//! "Use mine": a surgeon's own way put into the case, by hand and visibly.
//!
//! Each function shows a button where there is something to offer, and nothing where not; what it
//! returns is an ordinary command, undone as any other.

use egui::Ui;
use millrace_core::astigmatism::IncisionEffect;
use millrace_core::case::Command;
use millrace_core::iol_power::ladder::Convention;

use super::CaseView;
use crate::settings::Decimals;

/// Offers the surgeon's own convention.
pub fn convention(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let command = view.own.convention_for(view.draft)?;
    let mine = view.own.convention.map(convention_words)?;
    button(ui, &format!("Use mine: {mine}")).then_some(command)
}

/// Offers the effect of the surgeon's own incision for the approach of the case.
pub fn incision(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let command = view.own.incision_for(view.draft)?;
    let mine = view.own.incision(view.draft.approach.approach?)?;
    button(ui, &format!("Use mine: {}", incision_words(mine))).then_some(command)
}

fn button(ui: &mut Ui, words: &str) -> bool {
    let words = Decimals::current(ui).write(words);
    ui.button(words).clicked()
}

/// A convention as the desk names it.
#[must_use]
pub const fn convention_words(convention: Convention) -> &'static str {
    match convention {
        Convention::FirstMyopic => "first myopic",
        Convention::FirstHyperopic => "first hyperopic",
        Convention::Nearest => "nearest",
    }
}

fn incision_words(effect: IncisionEffect) -> String {
    format!(
        "flattening {}, scatter {}, {} eyes",
        effect.flattening(),
        effect.scatter(),
        effect.eyes()
    )
}
