//! Target, lens, power and axis: what the formulas say, how sure they are, and what that rests on.

mod budget;
mod choice;
mod choices;
mod ladder;
mod ladder_row;
mod refused;
mod second_eye;
mod spare;
mod toric;
mod toric_steps;

use egui::{Id, Ui};
use millrace_core::case::Command;
use millrace_core::iol_power::Formula;

use super::CaseView;
use crate::widgets::{Commit, Kind, Named, NumberField, cell, heading, muted, problem};

/// What the page remembers beside the draft.
#[derive(Debug, Default)]
pub struct LensState {}

/// Width of the names in front of fields.
const NAMES: f32 = 132.0;

/// Shows the page.
pub fn lens_page(ui: &mut Ui, view: &CaseView<'_>, _state: &mut LensState) -> Vec<Command> {
    let mut commands = Vec::new();
    heading(ui, "Lens");
    choice::show(ui, view, &mut commands);
    let Ok(plan) = view.plan else {
        muted(
            ui,
            "Which eye is operated on is not recorded: nothing is computed before it is.",
        );
        return commands;
    };
    match &plan.ladder {
        Ok(found) => {
            ladder::show(ui, view, plan, found, &mut commands);
            budget::show(ui, plan);
        }
        Err(missing) => {
            muted(ui, format!("No ladder yet: {missing}."));
        }
    }
    refused::show(ui, plan);
    second_eye::show(ui, plan, view.ground, &mut commands);
    toric::show(ui, view, plan, &mut commands);
    spare::show(ui, view, plan, &mut commands);
    commands
}

/// Short enough for a column of a ladder.
fn column_name(formula: Formula) -> &'static str {
    match formula {
        Formula::DoubleKNoHistory => "Double-K, no history",
        Formula::DoubleKKnownCorrection => "Double-K, known corr.",
        Formula::HaigisModifiedRadius => "Haigis, mod. radius",
        other => other.name(),
    }
}

/// A name, a field for one quantity and its unit; what is wrong with the text is added to
/// `problems`, to be said under the row.
fn field<T: Copy + PartialEq>(
    ui: &mut Ui,
    (id, name, width): (Id, &str, f32),
    (kind, value): (&Kind<T>, Option<T>),
    problems: &mut Vec<String>,
) -> Option<Commit<T>> {
    let label = cell(ui, width, |ui| ui.label(name));
    let fielded = NumberField::new(id, Named::By(label.id), kind, value).show(ui);
    ui.label(kind.unit);
    problems.extend(fielded.problem);
    fielded.commit
}

/// Says what was not taken.
fn say(ui: &mut Ui, problems: &[String]) {
    for text in problems {
        problem(ui, text);
    }
}
