//! Who sits here, how the desk looks and writes, how this surgeon plans, and what the clinic plans
//! by: its limits and its lens records.

mod at_the_desk;
mod incision;
mod kinds;
mod lenses;
mod limits;
mod own_ways;

use egui::{Id, Ui};

use crate::desk::Surroundings;
use crate::frame::Action;
use crate::settings::Settings;
use crate::theme::measures;
use crate::widgets::{Segments, heading};

/// What the page is shown.
#[derive(Clone, Copy)]
pub struct SettingsView<'a> {
    /// The person's settings.
    pub settings: &'a Settings,
    /// Limits, lens records, today.
    pub around: &'a Surroundings,
}

/// What the page remembers: the part in front, what is half entered, and what can be taken back.
#[derive(Debug, Default)]
pub struct SettingsState {
    part: Part,
    own_ways: own_ways::OwnWaysState,
    limits: limits::LimitsState,
    lenses: lenses::LensesState,
    /// Ctrl+Z was pressed.
    pub(crate) asks_to_undo: bool,
}

/// A part of the settings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
enum Part {
    #[default]
    AtTheDesk,
    OwnWays,
    Limits,
    Lenses,
}

const PARTS: [(Part, &str); 4] = [
    (Part::AtTheDesk, "At the desk"),
    (Part::OwnWays, "My ways"),
    (Part::Limits, "Limits"),
    (Part::Lenses, "Lens records"),
];

/// Shows the settings; returns what is to be kept.
pub fn settings_page(
    ui: &mut Ui,
    view: &SettingsView<'_>,
    state: &mut SettingsState,
) -> Vec<Action> {
    heading(ui, "Settings");
    ui.add_space(measures::TIGHT);
    let id = Id::unique("settings part");
    let parts = Segments::new(id, "Part of the settings", &PARTS, Some(state.part));
    if let Some(part) = parts.show(ui) {
        state.part = part;
    }
    let undo = core::mem::take(&mut state.asks_to_undo);
    let around = view.around;
    let action = match state.part {
        Part::AtTheDesk => at_the_desk::show(ui, view.settings).map(Action::Follow),
        Part::OwnWays => own_ways::show(ui, view.settings, &mut state.own_ways).map(Action::Follow),
        Part::Limits => limits::show(ui, &around.limits, (&mut state.limits, undo))
            .map(|limits| Action::KeepLimits(Box::new(limits))),
        Part::Lenses => lenses::show(ui, around, (&mut state.lenses, undo)).map(Action::KeepLenses),
    };
    action.into_iter().collect()
}
