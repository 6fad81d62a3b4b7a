//! Whether the nucleus counts as hard, why, and what somebody judged against that.

use egui::{Id, RichText, Ui};
use millrace_core::case::{Command, JudgedNucleus};
use millrace_core::rules::Severity;
use millrace_wording::desk::{approach as say, biometry};
use millrace_wording::sentence;

use super::CaseView;
use crate::theme::strong_style;
use crate::widgets::{
    Decided, DecisionField, Field, minor_button, muted, notice, open_ring, small,
};
use crate::words::in_use;

/// Shows the judgment; `judging` is the one somebody is about to give a reason for.
pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    judging: &mut Option<bool>,
) -> Option<Command> {
    let Ok(plan) = view.plan else { return None };
    let words = in_use(ui);
    let judged = view.draft.approach.nucleus_judged.as_ref();
    let mut command = None;
    let was_judging = *judging;
    ui.horizontal_wrapped(|ui| {
        if plan.nucleus.is_unclear() {
            open_ring(ui);
        }
        let text = sentence(&say::hard_nucleus(words, plan.nucleus));
        ui.label(RichText::new(text).text_style(strong_style()));
        if judged.is_some() {
            if minor_button(ui, say::withdraw_judgment(words)).clicked() {
                command = Some(Command::JudgeNucleus(None));
            }
        } else if judging.is_none() {
            for (hard, name) in [
                (true, say::judge_hard(words)),
                (false, say::judge_not_hard(words)),
            ] {
                if minor_button(ui, name).clicked() {
                    *judging = Some(hard);
                    ui.memory_mut(|memory| memory.request_focus(reason_id(view)));
                }
            }
        }
    });
    if let Some(JudgedNucleus { reason, by, on, .. }) = judged {
        small(ui, say::judged(words, by, *on, reason));
        return command;
    }
    // The field takes the focus in the next pass: in this one the click that asked for it lies elsewhere.
    let hard = was_judging?;
    notice(ui, Severity::Review, |ui| {
        ui.label(if hard {
            say::judge_hard(words)
        } else {
            say::judge_not_hard(words)
        });
        muted(ui, say::what_a_judgment_does(words));
        let decided = reason(ui, view);
        if decided != Decided::Nothing {
            *judging = None;
        }
        if let Decided::By(reason) = decided {
            command = Some(Command::JudgeNucleus(Some(JudgedNucleus {
                hard,
                reason,
                by: view.author.to_owned(),
                on: view.today,
            })));
        }
    });
    command
}

fn reason_id(view: &CaseView<'_>) -> Id {
    view.ground.with("reason for the nucleus")
}

/// The reason, and whether it is given.
fn reason(ui: &mut Ui, view: &CaseView<'_>) -> Decided {
    let words = in_use(ui);
    if view.author.is_empty() {
        muted(ui, biometry::name_first(words));
        let keeps = ui.button(say::keep_derived(words)).clicked();
        return if keeps {
            Decided::Kept
        } else {
            Decided::Nothing
        };
    }
    let name = say::reason_for_judgment(words);
    let label = ui.label(name);
    let records = biometry::recorded_as(words, view.author, view.today);
    small(ui, sentence(&records));
    let field = DecisionField {
        field: Field::by(reason_id(view), label.id, name),
        what: "reason",
        width: ui.available_width().min(420.0),
        act: say::record_judgment(words),
        keep: say::keep_derived(words),
    };
    field.show(ui)
}
