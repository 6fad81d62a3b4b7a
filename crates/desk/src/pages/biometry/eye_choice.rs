//! Which eye. Chosen freely while nothing is measured; afterwards changed only by a recorded act.

use egui::Ui;
use millrace_core::biometry::Side;
use millrace_core::case::{Command, EyeChange};
use millrace_core::rules::Severity;

use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::{
    Commit, Field, Segments, cell, minor_button, muted, notice, problem, said, small, text_field,
};
use crate::words::{in_use, sentence};

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, changes: &mut bool) -> Vec<Command> {
    let mut commands = Vec::new();
    let draft = view.draft;
    let is_measured = !(draft.eyes.right.is_blank() && draft.eyes.left.is_blank());
    ui.add_space(measures::TIGHT);
    match draft.operation.eye {
        Some(from) if is_measured => commands.extend(fixed(ui, view, from, changes)),
        chosen => {
            *changes = false;
            ui.horizontal(|ui| {
                cell(ui, 144.0, |ui| ui.label("Operated eye"));
                let options = [(Side::Right, "Right eye"), (Side::Left, "Left eye")];
                let id = view.ground.with("operated eye");
                let choice = Segments::new(id, "Operated eye", &options, chosen);
                if let Some(side) = choice.show(ui) {
                    commands.push(Command::ChooseEye(side));
                }
            });
            if chosen.is_none() {
                muted(
                    ui,
                    "Measurements are entered once the operated eye is chosen",
                );
            }
        }
    }
    for change in &draft.eye_changes {
        small(
            ui,
            format!(
                "Changed from the {} to the {} by {} on {}: {}",
                change.from,
                change.to,
                change.by,
                in_use(ui).day(change.on),
                change.reason
            ),
        );
    }
    commands
}

fn fixed(ui: &mut Ui, view: &CaseView<'_>, from: Side, changes: &mut bool) -> Option<Command> {
    if !*changes {
        ui.horizontal_wrapped(|ui| {
            let text = format!("The {from} is operated; fixed, since measurements exist");
            small(ui, text);
            if minor_button(ui, "Change the operated eye…").clicked() {
                *changes = true;
            }
        });
        return None;
    }
    notice(ui, Severity::Stop, |ui| {
        let to = from.other();
        said(
            ui,
            format!("Change the operated eye from the {from} to the {to}"),
        );
        muted(
            ui,
            "Target, consent, power, axis, approach and every recorded reason are cleared; measurements stay with their eyes; the change and its reason are kept for good",
        );
        let command = reason(ui, view, from);
        if ui.button(format!("Keep the {from}")).clicked() || command.is_some() {
            *changes = false;
        }
        command
    })
}

fn reason(ui: &mut Ui, view: &CaseView<'_>, from: Side) -> Option<Command> {
    if view.author.is_empty() {
        muted(
            ui,
            "Set your name in the settings first; the change is signed",
        );
        return None;
    }
    let label = ui.label("Reason for the change");
    let id = view.ground.with("reason for the eye");
    let field = Field::by(id, label.id, "Reason for the change");
    let width = ui.available_width().min(420.0);
    let entered = text_field(ui, field, None, "reason", width);
    if let Some(why) = entered.problem {
        problem(ui, &why);
    }
    small(
        ui,
        sentence(&format!(
            "{}, {}; Enter records it",
            view.author,
            in_use(ui).day(view.today)
        )),
    );
    let Some(Commit::Entered(reason)) = entered.commit else {
        return None;
    };
    Some(Command::ChangeEye(EyeChange {
        from,
        to: from.other(),
        reason,
        by: view.author.to_owned(),
        on: view.today,
    }))
}
