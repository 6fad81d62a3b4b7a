//! Going against a finding: the reason that stands, and the one being written.

use egui::Ui;
use millrace_core::case::{Command, RecordedReason};
use millrace_core::plan::ReasonState;
use millrace_core::rules::Severity;
use millrace_wording::desk::findings as say;
use millrace_wording::{rules, sentence};

use super::{FindingsState, Found, key};
use crate::pages::CaseView;
use crate::widgets::{Decided, DecisionField, Field, minor_button, muted, small, typed};
use crate::words::in_use;

/// Shows what is recorded, and what can be done about it.
pub(super) fn reason(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut FindingsState,
    found: Found<'_>,
) -> Vec<Command> {
    let evaluated = found.evaluated;
    let rule = evaluated.rule;
    let (mut commands, words) = (Vec::new(), in_use(ui));
    match &evaluated.reason {
        ReasonState::None => {}
        ReasonState::Standing(recorded) => {
            let (by, on, why) = (&recorded.by, recorded.on, &recorded.reason);
            typed(ui, say::reason(words, by, on, why));
            let withdraw = say::withdraw(words);
            let button = minor_button(ui, withdraw);
            if button.clicked() {
                commands.push(Command::WithdrawReason {
                    rule: rule.id.to_owned(),
                    backup: evaluated.backup,
                });
            }
            let name = rules::id(words, rule.id, evaluated.backup);
            button.accessible_name(say::of_rule(words, withdraw, name));
        }
        ReasonState::Outdated(recorded) => {
            muted(
                ui,
                say::outdated(words, &recorded.by, recorded.on, &recorded.reason),
            );
        }
    }
    // No reason lifts a Stop.
    if evaluated.is_open() && rule.severity == Severity::Review {
        commands.extend(write_reason(ui, view, state, found));
    }
    commands
}

fn write_reason(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut FindingsState,
    found: Found<'_>,
) -> Option<Command> {
    let (key, finding) = (key(found.evaluated), found.finding);
    let words = in_use(ui);
    let id = rules::id(words, key.0, key.1);
    let field = view.ground.with(("reason", key));
    if state.writing != Some(key) {
        let button = ui.button(say::record(words));
        if button.clicked() {
            state.writing = Some(key);
            ui.memory_mut(|memory| memory.request_focus(field));
        }
        button.accessible_name(say::record_for(words, id));
        return None;
    }
    if view.author.is_empty() {
        muted(ui, say::name_first(words));
        return None;
    }
    let name = say::reason_for(words, id);
    let field = Field::called(field, &name);
    let records = say::recorded_as(words, view.author, view.today);
    small(ui, sentence(&records));
    let decision = DecisionField {
        field,
        what: "reason",
        width: ui.available_width(),
        act: say::record_it(words),
        keep: say::record_none(words),
    };
    let decided = decision.show(ui);
    if decided != Decided::Nothing {
        state.writing = None;
    }
    let Decided::By(reason) = decided else {
        return None;
    };
    Some(Command::RecordReason(RecordedReason {
        rule: key.0.to_owned(),
        backup: key.1,
        measured: finding.measured.clone(),
        limit: finding.limit.clone(),
        reason,
        by: view.author.to_owned(),
        on: view.today,
    }))
}
