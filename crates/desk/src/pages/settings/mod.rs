//! Who sits here, how the desk looks and writes, how this surgeon plans, and what the clinic plans
//! by: its limits and its lens records.

mod at_the_desk;
mod incision;
mod kinds;
mod lenses;
mod limits;
mod own_ways;

use egui::{Id, Ui};
use millrace_core::lens::LensRecord;
use millrace_wording::desk::settings as say;

use crate::exchange::{Request, Surroundings};
use crate::message::Message;
use crate::settings::Settings;
use crate::theme::measures;
use crate::widgets::{Segments, heading};
use crate::words::in_use;

/// What the page is shown.
#[derive(Clone, Copy)]
pub struct SettingsView<'a> {
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
}

impl SettingsState {
    /// Lens records that were read from a file come to the front, to be looked at before they are taken.
    pub(crate) fn look_at_lenses(&mut self, records: Vec<LensRecord>) {
        self.part = Part::Lenses;
        self.lenses.brought = Some(records);
    }

    /// Takes the last change of the part in front back, where it can be.
    pub(crate) const fn ask_to_undo(&mut self) {
        match self.part {
            Part::Limits => self.limits.asks_to_undo = true,
            Part::Lenses => self.lenses.asks_to_undo = true,
            Part::AtTheDesk | Part::OwnWays => {}
        }
    }
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

/// Shows the settings; returns what is to be kept.
pub fn settings_page(
    ui: &mut Ui,
    view: &SettingsView<'_>,
    state: &mut SettingsState,
) -> Option<Message> {
    let words = in_use(ui);
    heading(ui, say::title(words));
    ui.add_space(measures::TIGHT);
    let id = Id::unique("settings part");
    let parts = [
        (Part::AtTheDesk, say::at_the_desk(words)),
        (Part::OwnWays, say::own_ways(words)),
        (Part::Limits, say::limits(words)),
        (Part::Lenses, say::lens_records(words)),
    ];
    let parts = Segments::new(id, say::part(words), &parts, Some(state.part));
    if let Some(part) = parts.show(ui) {
        state.part = part;
    }
    let around = view.around;
    let request = match state.part {
        Part::AtTheDesk => {
            at_the_desk::show(ui, view.settings, &around.computer).map(Request::KeepSettings)
        }
        Part::OwnWays => {
            let state = &mut state.own_ways;
            own_ways::show(ui, view.settings, &around.lenses, state).map(Request::KeepSettings)
        }
        Part::Limits => limits::show(ui, &around.limits, &mut state.limits)
            .map(|limits| Request::KeepLimits(Box::new(limits))),
        Part::Lenses => return lenses::show(ui, around, &mut state.lenses),
    };
    request.map(Message::Ask)
}
