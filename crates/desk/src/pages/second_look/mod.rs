//! A second look: another person enters the critical numbers from the papers. Until that is done,
//! nothing on the desk shows a first number; then both stand side by side.

mod comparison;
mod entry;
mod form;

use egui::{Id, Ui};
use millrace_core::case::{Command, Draft};

use super::CaseView;
use entry::Entry;

/// What the page remembers beside the draft.
#[derive(Debug, Default)]
pub struct SecondLookState {
    takes_again: bool,
    entry: Entry,
}

impl SecondLookState {
    /// Whether numbers are being entered: then no first one may be in sight.
    pub const fn is_being_taken(&self, draft: &Draft) -> bool {
        self.takes_again || draft.second_look.is_none()
    }
}

/// What a person did on the page.
#[derive(Debug, Default)]
pub struct Asked {
    /// The second look, once it is whole.
    pub command: Option<Command>,
    /// Back to the case.
    pub leaves: bool,
}

/// Shows the page.
pub fn second_look_page(ui: &mut Ui, view: &CaseView<'_>, state: &mut SecondLookState) -> Asked {
    if !state.is_being_taken(view.draft) {
        return comparison::show(ui, view, &mut state.takes_again);
    }
    let asked = form::show(ui, view, &mut state.entry);
    if asked.command.is_some() || (asked.leaves && view.draft.second_look.is_some()) {
        state.takes_again = false;
    }
    if asked.command.is_some() {
        state.entry = Entry::default();
    }
    asked
}

/// What the ids of this page in this case start from.
fn ground(view: &CaseView<'_>) -> Id {
    view.ground.with("second look")
}
