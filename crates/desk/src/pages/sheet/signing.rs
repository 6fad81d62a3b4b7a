//! The signature: what stands against it, who signs as what, and the consented target once more.

use egui::{Button, RichText, Ui};
use millrace_core::rules::Severity;
use millrace_core::signing::ready;
use millrace_wording::desk::sheet as say;
use millrace_wording::{Show as _, Words};

use super::{SheetState, SheetView};
use crate::exchange::{Planned, Request, SheetUse, SignRequest, Standing, Which};
use crate::message::Message;
use crate::theme::{measures, strong_style};
use crate::widgets::quantity_kind::POWER;
use crate::widgets::{
    FormRows, cell, half_typed, minor_button, muted, notice, problem, section, small, text_field,
    typed,
};
use crate::words::in_use;
use millrace_wording::sentence;

const NAMES: f32 = 168.0;

pub(super) fn show(
    ui: &mut Ui,
    view: &SheetView<'_>,
    state: &mut SheetState,
    messages: &mut Vec<Message>,
) {
    let words = in_use(ui);
    section(ui, say::signature(words));
    let last = state.sheets.as_ref().and_then(|sheets| sheets.last());
    if let Some(sheet) = last.filter(|sheet| sheet.is_current()) {
        muted(ui, say::signed_as_it_stands(words, sheet.number));
        return;
    }
    let (severity, obstacles) = obstacles(view, words);
    if obstacles.is_empty() {
        muted(ui, say::nothing_against(words));
    } else {
        notice(ui, severity, |ui| {
            ui.label(say::before_signing(words));
            for obstacle in &obstacles {
                ui.label(say::obstacle(words, sentence(obstacle)));
            }
        });
    }
    // What is signed stands beside the signature, wherever the page is scrolled.
    let plans = Planned::of(view.case.draft).show(words).into_owned();
    ui.label(RichText::new(plans).text_style(strong_style()));
    // Who signs types it himself, each time.
    let asked = half_typed::apart(ui, |ui| sign(ui, view, state, &obstacles));
    messages.extend(asked);
    for why in &state.refused {
        problem(ui, &sentence(why));
    }
}

/// What stands against a signature, and how strongly: a Stop among it cannot be reasoned away.
fn obstacles(view: &SheetView<'_>, words: Words) -> (Severity, Vec<String>) {
    let plan = match view.case.plan {
        Ok(plan) => plan,
        Err(refused) => return (Severity::Stop, vec![refused.show(words).into_owned()]),
    };
    let found = ready(plan);
    let stops = found.iter().any(|it| it.severity() == Severity::Stop);
    let severity = if stops {
        Severity::Stop
    } else {
        Severity::Review
    };
    let mut said: Vec<_> = found.iter().map(|it| it.show(words).into_owned()).collect();
    let waiting = view.waiting.iter();
    said.extend(waiting.map(|it| say::is_not_taken(words, &it.what, &it.why)));
    (severity, said)
}

fn sign(
    ui: &mut Ui,
    view: &SheetView<'_>,
    state: &mut SheetState,
    obstacles: &[String],
) -> Option<Message> {
    let (ground, words) = (view.case.ground, in_use(ui));
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label(say::signed_by(words)));
        let author = view.case.author;
        ui.label(if author.is_empty() {
            say::no_author(words)
        } else {
            author
        });
    });
    let mut form = FormRows::new(ground, NAMES);
    ui.horizontal(|ui| {
        let field = form.name(ui, NAMES, say::role(words));
        let value = Some(role_of(view, state)).filter(|role| !role.is_empty());
        let entered = text_field(ui, field, value, "role", 200.0);
        form.problems.extend(entered.problem);
        if let Some(commit) = entered.commit {
            state.role = commit.value().unwrap_or_default();
        }
    });
    let mut is_typed = false;
    ui.horizontal(|ui| {
        let field = form.name(ui, NAMES, say::target_again(words));
        is_typed = field.is_typed_into(ui);
        form.of_number(ui, field, &POWER, &mut state.target);
        ui.label(POWER.unit);
    });
    small(ui, say::target_tip(words));
    form.say(ui);
    let mut signs = None;
    ui.horizontal(|ui| {
        ui.add_space(NAMES + measures::NEAR);
        let role = role_of(view, state).trim().to_owned();
        let is_whole = !role.is_empty() && !view.case.author.is_empty();
        // Pressing the button takes what is being typed: it is there once the button is let go.
        let is_entered = state.target.is_some() || is_typed;
        let can_sign = is_entered && obstacles.is_empty() && is_whole && view.is_saved();
        let button = ui.add_enabled(can_sign, Button::new(say::sign(words)));
        if button.clicked()
            && let Some(target) = state.target
        {
            state.refused = Vec::new();
            signs = Some(Message::Ask(Request::Sign(SignRequest {
                case: view.session.case().clone(),
                seen: view.session.revision().clone(),
                name: view.case.author.to_owned(),
                role,
                target,
                limits: Box::new(view.case.limits.clone()),
            })));
        }
        if !view.is_saved() {
            muted(ui, say::not_stored(words));
        }
    });
    small(ui, say::what_signing_does(words));
    signs
}

/// The role as it was typed for this signature, or that of the person's settings; it stands in its field.
fn role_of<'a>(view: &'a SheetView<'_>, state: &'a SheetState) -> &'a str {
    if state.role.is_empty() {
        &view.settings.role
    } else {
        &state.role
    }
}

/// The sheets signed so far, the newest first.
pub(super) fn sheets(
    ui: &mut Ui,
    view: &SheetView<'_>,
    state: &mut SheetState,
    messages: &mut Vec<Message>,
) {
    let Some(rows) = state.sheets.clone() else {
        return;
    };
    if rows.is_empty() {
        return;
    }
    let words = in_use(ui);
    section(ui, say::signed_sheets(words));
    for row in rows.iter().rev() {
        let number = row.number;
        ui.horizontal_wrapped(|ui| {
            let (by, at) = (&row.by, row.at);
            let signed = match row.standing {
                Standing::Current => say::row_current(words, number, by, at),
                Standing::ChangedSince => say::row_changed_since(words, number, by, at),
                Standing::Superseded(later) => say::row_superseded(words, number, by, at, later),
            };
            cell(ui, 420.0, |ui| typed(ui, signed));
            if minor_button(ui, say::look(words)).clicked() {
                state.shown = Some(Which::Signed(number));
            }
            for (word, sheet_use) in [
                (say::view(words), SheetUse::View),
                (say::print(words), SheetUse::Print),
            ] {
                let button = minor_button(ui, word);
                button
                    .clone()
                    .accessible_name(say::of_sheet(words, number, word));
                if button.clicked() {
                    messages.push(view.ask(Which::Signed(number), sheet_use));
                }
            }
        });
    }
}
