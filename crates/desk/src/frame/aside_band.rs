//! A case that is set aside, and the way back; and the question why it is to be.

use egui::{Id, Ui};
use millrace_core::case::{Command, SetAside};
use millrace_core::rules::Severity;
use millrace_wording::desk::aside as say;

use crate::message::Message;
use crate::pages::CaseView;
use crate::widgets::{Decided, DecisionField, Field, notice, typed};
use crate::words::in_use;

/// What the question lands on.
pub fn reason_id(ground: Id) -> Id {
    ground.with("reason for setting aside")
}

/// Tells that the case is set aside, and by whom and why.
pub fn show(ui: &mut Ui, said: &SetAside) -> Option<Message> {
    let words = in_use(ui);
    let mut messages = None;
    notice(ui, Severity::Review, |ui| {
        let (by, on) = (&said.by, said.on);
        let told = said.reason.as_ref().map_or_else(
            || say::is_discarded(words, by, on),
            |reason| say::is_set_aside(words, by, on, reason),
        );
        typed(ui, told);
        if ui.button(say::bring_back(words)).clicked() {
            messages = Some(Message::Change(Command::BringBack));
        }
    });
    messages
}

/// Asks for the reason.
pub fn ask(ui: &mut Ui, view: &CaseView<'_>) -> Option<Message> {
    let words = in_use(ui);
    let mut message = None;
    notice(ui, Severity::Review, |ui| {
        ui.label(say::means(words));
        if view.author.is_empty() {
            ui.label(say::name_first(words));
            return;
        }
        let name = say::reason(words);
        let label = ui.label(name).id;
        let decision = DecisionField {
            field: Field::by(reason_id(view.ground), label, name),
            what: "reason",
            width: ui.available_width(),
            act: say::set_it_aside(words),
            keep: say::go_on_planning(words),
        };
        message = match decision.show(ui) {
            Decided::Nothing => None,
            Decided::Kept => Some(Message::Leave),
            Decided::By(reason) => Some(Message::Change(Command::SetAside(SetAside {
                reason: Some(reason),
                by: view.author.to_owned(),
                on: view.today,
            }))),
        };
    });
    message
}
