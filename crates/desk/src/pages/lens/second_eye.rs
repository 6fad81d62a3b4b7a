//! The second eye: conditions of the refinement by the first eye's error, and both predictions.

use egui::{Id, Ui};
use millrace_core::case::{Command, SecondEyeChoice};
use millrace_core::finding::Outcome;
use millrace_core::plan::Plan;
use millrace_core::second_eye::{Condition, Offer, SHARE, SOURCE, SecondEyeRefinement};
use millrace_wording::desk::lens as say;
use millrace_wording::{Show as _, Words, rules, terms};

use crate::widgets::{Segments, muted, section, small};
use crate::words::in_use;
use millrace_wording::sentence;

pub(super) fn show(ui: &mut Ui, plan: &Plan, ground: Id, commands: &mut Vec<Command>) {
    let Some(second) = &plan.second_eye else {
        return;
    };
    let words = in_use(ui);
    section(ui, say::second_eye(words));
    let eye = terms::eye_head(words, second.first_eye);
    let error = rules::prediction_error(words, second.error);
    ui.label(say::first_eye(words, eye, error));
    let convention = sentence(rules::error_convention(words));
    let share = words.fixed(SHARE * 100.0, 0);
    small(ui, say::refinement(words, convention, share));
    for condition in &second.conditions {
        ui.label(in_words(words, condition));
    }
    match second.offer {
        Offer::Offered => {}
        Offer::ConditionNotMet => {
            ui.label(say::not_offered_not_met(words));
        }
        Offer::CannotBeTold => {
            ui.label(say::not_offered_not_told(words));
        }
    }
    if second.offer == Offer::Offered || second.choice.is_some() {
        let options = [
            (SecondEyeChoice::Unrefined, say::column_unrefined(words)),
            (SecondEyeChoice::Refined, say::column_refined(words)),
        ];
        let id = ground.with("second eye");
        let chosen = Segments::new(
            id,
            say::second_eye_prediction(words),
            &options,
            second.choice,
        );
        commands.extend(
            chosen
                .show(ui)
                .map(|choice| Command::ChooseSecondEye(Some(choice))),
        );
    }
    both(ui, second);
    small(ui, say::source(words, SOURCE));
}

fn in_words(words: Words, condition: &Condition) -> String {
    let asks = sentence(&condition.asks.show(words));
    let standing = condition.asks.source().standing;
    match condition.outcome {
        Outcome::Met(found) => say::met(words, asks, found, standing),
        Outcome::NotMet(found) => say::not_met(words, asks, found, standing),
        Outcome::CannotBeTold(lacking) => say::cannot_be_told(words, asks, lacking, standing),
    }
}

fn both(ui: &mut Ui, second: &SecondEyeRefinement) {
    let Some(pair) = second.refined.as_ref().and_then(|refined| refined.chosen) else {
        return;
    };
    let words = in_use(ui);
    ui.label(say::both(words, pair.power, pair.unrefined, pair.refined));
    muted(ui, say::keeps_unrefined(words));
}
