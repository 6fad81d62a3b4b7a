//! The second eye: conditions of the refinement by the first eye's error, and both predictions.

use egui::{Id, Ui};
use millrace_core::case::{Command, SecondEyeChoice};
use millrace_core::finding::Outcome;
use millrace_core::plan::Plan;
use millrace_core::second_eye::{Condition, Offer, SHARE, SOURCE, SecondEyeRefinement};
use millrace_wording::{Show as _, Words, rules as say, terms};

use crate::widgets::{Segments, muted, said, section, small};
use crate::words;

pub(super) fn show(ui: &mut Ui, plan: &Plan, ground: Id, commands: &mut Vec<Command>) {
    let Some(second) = &plan.second_eye else {
        return;
    };
    section(ui, "Second eye");
    said(
        ui,
        format!(
            "{}, operated on before: {}",
            terms::eye_head(words::in_use(ui), second.first_eye),
            say::prediction_error(words::in_use(ui), second.error)
        ),
    );
    small(
        ui,
        format!(
            "{}. The refinement adds {:.0} % of it to the prediction, where every condition is met.",
            words::sentence(say::error_convention(Words::ENGLISH)),
            SHARE * 100.0
        ),
    );
    for condition in &second.conditions {
        ui.label(in_words(condition));
    }
    match second.offer {
        Offer::Offered => {}
        Offer::ConditionNotMet => {
            ui.label("Not offered, since a condition is not met");
        }
        Offer::CannotBeTold => {
            ui.label("Not offered, since a condition cannot be told");
        }
    }
    if second.offer == Offer::Offered || second.choice.is_some() {
        let options = [
            (SecondEyeChoice::Unrefined, "unrefined"),
            (SecondEyeChoice::Refined, "refined"),
        ];
        let id = ground.with("second eye");
        let chosen = Segments::new(id, "Prediction of the second eye", &options, second.choice);
        commands.extend(
            chosen
                .show(ui)
                .map(|choice| Command::ChooseSecondEye(Some(choice))),
        );
    }
    both(ui, second);
    small(ui, format!("Source: {SOURCE}"));
}

fn in_words(condition: &Condition) -> String {
    let asks = words::sentence(&condition.asks.show(Words::ENGLISH));
    let standing = condition.asks.source().standing;
    match condition.outcome {
        Outcome::Met(found) => format!("met: {asks}: {} [{standing}]", found.show(Words::ENGLISH)),
        Outcome::NotMet(found) => {
            format!(
                "NOT MET: {asks}: {} [{standing}]",
                found.show(Words::ENGLISH)
            )
        }
        Outcome::CannotBeTold(lacking) => {
            let lacking = lacking.show(Words::ENGLISH);
            format!("cannot be told: {asks}: needs {lacking} [{standing}]")
        }
    }
}

fn both(ui: &mut Ui, second: &SecondEyeRefinement) {
    let Some(pair) = second.refined.as_ref().and_then(|refined| refined.chosen) else {
        return;
    };
    said(
        ui,
        format!(
            "Power {}: {} unrefined, {} refined",
            pair.power, pair.unrefined, pair.refined
        ),
    );
    muted(
        ui,
        "Ladder, proposal and rules keep the unrefined prediction whatever is decided; no distribution \
         is given for the refined one.",
    );
}
