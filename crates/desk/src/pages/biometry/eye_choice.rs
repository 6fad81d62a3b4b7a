//! Which eye. Chosen freely while nothing is measured; afterwards changed only by a recorded act.

use egui::{Id, Ui};
use millrace_core::biometry::Side;
use millrace_core::case::{Command, EyeChange};
use millrace_core::rules::Severity;
use millrace_wording::desk::biometry as say;
use millrace_wording::terms;

use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::value_order::{self, Step};
use crate::widgets::{
    Decided, DecisionField, Field, Segments, cell, minor_button, muted, notice, small,
};
use crate::words::in_use;
use millrace_wording::sentence;

/// Whether the eye is to be another one.
#[derive(Debug, Default)]
pub(super) struct EyeQuestion {
    is_open: bool,
    /// The eye was kept: back to what asked.
    was_kept: bool,
}

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, asks: &mut EyeQuestion) -> Vec<Command> {
    let mut commands = Vec::new();
    let (draft, words) = (view.draft, in_use(ui));
    let is_measured = !(draft.eyes.right.is_blank() && draft.eyes.left.is_blank());
    ui.add_space(measures::TIGHT);
    match draft.operation.eye {
        Some(from) if is_measured => commands.extend(fixed(ui, view, from, asks)),
        chosen => {
            *asks = EyeQuestion::default();
            ui.horizontal(|ui| {
                cell(ui, 144.0, |ui| ui.label(say::operated_eye(words)));
                let options =
                    [Side::Right, Side::Left].map(|side| (side, terms::eye_head(words, side)));
                let id = view.ground.with("operated eye");
                let choice = Segments::new(id, say::operated_eye(words), &options, chosen);
                if let Some(side) = choice.show(ui) {
                    commands.push(Command::ChooseEye(side));
                }
                value_order::pass(ui, id, id, Step::Value);
            });
            if chosen.is_none() {
                muted(ui, say::eye_first(words));
            }
        }
    }
    for change in &draft.eye_changes {
        let (by, on) = (&change.by, change.on);
        let text = say::changed(words, change.from, change.to, by, on, &change.reason);
        small(ui, text);
    }
    commands
}

fn fixed(ui: &mut Ui, view: &CaseView<'_>, from: Side, asks: &mut EyeQuestion) -> Option<Command> {
    let words = in_use(ui);
    if !asks.is_open {
        ui.horizontal_wrapped(|ui| {
            small(ui, say::fixed(words, from));
            let button = minor_button(ui, say::change_eye(words));
            if core::mem::take(&mut asks.was_kept) {
                button.request_focus();
            }
            if button.clicked() {
                asks.is_open = true;
                ui.memory_mut(|memory| memory.request_focus(reason_id(view)));
            }
        });
        return None;
    }
    notice(ui, Severity::Stop, |ui| {
        let to = from.other();
        ui.label(say::change_from(words, from, to));
        muted(ui, say::what_a_change_clears(words));
        let decided = reason(ui, view, from);
        asks.is_open = decided == Decided::Nothing;
        asks.was_kept = decided == Decided::Kept;
        match decided {
            Decided::By(reason) => Some(Command::ChangeEye(EyeChange {
                from,
                to,
                reason,
                by: view.author.to_owned(),
                on: view.today,
            })),
            Decided::Nothing | Decided::Kept => None,
        }
    })
}

fn reason_id(view: &CaseView<'_>) -> Id {
    view.ground.with("reason for the eye")
}

fn reason(ui: &mut Ui, view: &CaseView<'_>, from: Side) -> Decided {
    let words = in_use(ui);
    if view.author.is_empty() {
        muted(ui, say::name_first(words));
        let keeps = ui.button(say::keep_eye(words, from)).clicked();
        return if keeps {
            Decided::Kept
        } else {
            Decided::Nothing
        };
    }
    let name = say::reason_for_change(words);
    let label = ui.label(name);
    let records = say::recorded_as(words, view.author, view.today);
    small(ui, sentence(&records));
    let field = DecisionField {
        field: Field::by(reason_id(view), label.id, name),
        what: "reason",
        width: ui.available_width().min(420.0),
        act: &say::change_to(words, from.other()),
        keep: &say::keep_eye(words, from),
    };
    field.show(ui)
}
