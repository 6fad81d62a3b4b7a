//! The signature: what stands against it, who signs as what, and the consented target once more.

use egui::{Button, Ui};
use millrace_core::rules::Severity;
use millrace_core::signing::ready;

use super::{SheetState, SheetView};
use crate::exchange::{Request, SheetUse, SignRequest, Standing, Which};
use crate::message::Message;
use crate::theme::measures;
use crate::widgets::quantity_kind::POWER;
use crate::widgets::{
    FormRows, cell, minor_button, muted, notice, problem, said, section, small, text_field,
};
use crate::words::sentence;

const NAMES: f32 = 168.0;

pub(super) fn show(
    ui: &mut Ui,
    view: &SheetView<'_>,
    state: &mut SheetState,
    messages: &mut Vec<Message>,
) {
    section(ui, "Signature");
    let last = state.sheets.as_ref().and_then(|sheets| sheets.last());
    if let Some(sheet) = last.filter(|sheet| sheet.is_current()) {
        let number = sheet.number;
        muted(
            ui,
            format!(
                "The case is signed as it stands, as sheet {number}; once it is changed it can be signed anew"
            ),
        );
        return sheets(ui, view, state, messages);
    }
    let (severity, obstacles) = obstacles(view);
    if obstacles.is_empty() {
        muted(ui, "Nothing of the plan stands against its signature");
    } else {
        notice(ui, severity, |ui| {
            ui.label("Before it can be signed");
            for obstacle in &obstacles {
                said(ui, format!("•  {}", sentence(obstacle)));
            }
        });
    }
    messages.extend(sign(ui, view, state, &obstacles));
    for why in &state.refused {
        problem(ui, &sentence(why));
    }
    sheets(ui, view, state, messages);
}

/// What stands against a signature, and how strongly: a Stop among it cannot be reasoned away.
fn obstacles(view: &SheetView<'_>) -> (Severity, Vec<String>) {
    let plan = match view.case.plan {
        Ok(plan) => plan,
        Err(refused) => return (Severity::Stop, vec![refused.to_string()]),
    };
    let found = ready(plan);
    let stops = found.iter().any(|it| it.severity() == Severity::Stop);
    let severity = if stops {
        Severity::Stop
    } else {
        Severity::Review
    };
    let mut words: Vec<_> = found.iter().map(ToString::to_string).collect();
    let waiting = view.waiting.iter();
    words.extend(waiting.map(|it| format!("{} is not taken: {}", it.what, it.why)));
    (severity, words)
}

fn sign(
    ui: &mut Ui,
    view: &SheetView<'_>,
    state: &mut SheetState,
    obstacles: &[String],
) -> Option<Message> {
    let ground = view.case.ground;
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label("Signed by"));
        let author = view.case.author;
        ui.label(if author.is_empty() {
            "your name is not set: settings, Your name"
        } else {
            author
        });
    });
    let mut form = FormRows::new(ground, NAMES);
    ui.horizontal(|ui| {
        let field = form.name(ui, NAMES, "Role");
        let value = Some(state.role.as_str()).filter(|role| !role.is_empty());
        let entered = text_field(ui, field, value, "role", 200.0);
        form.problems.extend(entered.problem);
        if let Some(commit) = entered.commit {
            state.role = commit.value().unwrap_or_default();
        }
    });
    ui.horizontal(|ui| {
        let field = form.name(ui, NAMES, "Consented target, again");
        form.of_number(ui, field, &POWER, &mut state.target);
        muted(ui, "D, read from the consent and not from the screen");
    });
    form.say(ui);
    let mut signs = None;
    ui.horizontal(|ui| {
        ui.add_space(NAMES + measures::NEAR);
        let is_whole = !state.role.trim().is_empty() && !view.case.author.is_empty();
        let target = state
            .target
            .filter(|_| obstacles.is_empty() && is_whole && view.is_saved());
        let button = ui.add_enabled(target.is_some(), Button::new("Sign this plan"));
        if button.clicked()
            && let Some(target) = target
        {
            state.refused = Vec::new();
            signs = Some(Message::Ask(Request::Sign(SignRequest {
                case: view.session.case().clone(),
                seen: view.session.revision().clone(),
                name: view.case.author.to_owned(),
                role: state.role.trim().to_owned(),
                target,
                limits: Box::new(view.case.limits.clone()),
            })));
        }
        if !view.is_saved() {
            muted(ui, "What changed last is not stored yet");
        }
    });
    small(
        ui,
        "Signing freezes the plan under a number; a later change needs a new signature, which supersedes it. \
         A typed name is no proof of a person: local rules on signatures prevail.",
    );
    signs
}

/// The sheets signed so far, the newest first.
fn sheets(ui: &mut Ui, view: &SheetView<'_>, state: &mut SheetState, messages: &mut Vec<Message>) {
    let Some(rows) = state.sheets.clone() else {
        return;
    };
    if rows.is_empty() {
        return;
    }
    section(ui, "Signed sheets");
    for row in rows.iter().rev() {
        let number = row.number;
        ui.horizontal_wrapped(|ui| {
            let standing = match &row.standing {
                Standing::Current => "current".to_owned(),
                Standing::ChangedSince => "the case was changed since".to_owned(),
                Standing::Superseded(by) => format!("superseded by sheet {by}"),
            };
            let signed = format!("Sheet {number}, {}, {}: {standing}", row.by, row.at);
            cell(ui, 420.0, |ui| ui.label(signed));
            if minor_button(ui, "Look at it").clicked() {
                state.shown = Some(Which::Signed(number));
            }
            for (word, sheet_use) in [("View…", SheetUse::View), ("Print…", SheetUse::Print)] {
                let button = minor_button(ui, word);
                button
                    .clone()
                    .accessible_name(format!("Sheet {number}, {word}"));
                if button.clicked() {
                    messages.push(view.ask(Which::Signed(number), sheet_use));
                }
            }
        });
    }
}
