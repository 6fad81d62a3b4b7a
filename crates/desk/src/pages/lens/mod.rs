//! Target, lens, power and axis: what the formulas say, how sure they are, and what that rests on.

mod backup;
mod budget;
mod choice;
mod choices;
mod ladder;
mod ladder_row;
mod length;
mod refused;
mod second_eye;
mod toric;
mod toric_steps;

use egui::{RichText, Ui};
use millrace_core::case::Command;
use millrace_wording::desk::lens as say;

use super::CaseView;
use crate::theme::section_style;
use crate::widgets::{FormRows, Kind, heading, muted};
use crate::words::in_use;

/// What the page remembers beside the draft.
#[derive(Debug, Default)]
pub struct LensState {}

/// Width of the names in front of fields.
const NAMES: f32 = 142.0;

pub fn lens_page(ui: &mut Ui, view: &CaseView<'_>, _state: &mut LensState) -> Vec<Command> {
    let mut commands = Vec::new();
    let words = in_use(ui);
    heading(ui, say::title(words));
    chosen(ui, view);
    choice::show(ui, view, &mut commands);
    length::show(ui, view, &mut commands);
    let Ok(plan) = view.plan else {
        muted(ui, say::no_eye(words));
        return commands;
    };
    match &plan.ladder {
        Ok(found) => {
            ladder::show(ui, view, plan, found, &mut commands);
            budget::show(ui, view, plan);
        }
        Err(missing) => {
            muted(ui, say::no_ladder(words, missing));
        }
    }
    refused::show(ui, plan);
    second_eye::show(ui, plan, view.ground, &mut commands);
    toric::show(ui, view, plan, &mut commands);
    backup::show(ui, view, plan, &mut commands);
    commands
}

/// What is chosen, at the head of the page: the ladder may lie below the window's edge.
fn chosen(ui: &mut Ui, view: &CaseView<'_>) {
    let (lens, words) = (&view.draft.lens, in_use(ui));
    let Some(power) = lens.power() else {
        muted(ui, say::no_power(words));
        return;
    };
    let ladder = view.plan.ok().and_then(|plan| plan.ladder.as_ref().ok());
    let formula = lens.formula.filter(|_| ladder.is_some());
    let predicted = formula.and_then(|formula| {
        let refraction = ladder?.predicted(formula, power)?;
        Some(say::chosen_predicted(words, power, refraction, formula))
    });
    let text = predicted.unwrap_or_else(|| say::chosen(words, power));
    ui.label(RichText::new(text).text_style(section_style()));
}

/// A name, a field for one quantity and its unit.
fn field<T: Copy + PartialEq>(
    ui: &mut Ui,
    form: &mut FormRows,
    name: &str,
    kind: &Kind<T>,
    value: &mut Option<T>,
) {
    let field = form.name(ui, form.label, name);
    form.of_number(ui, field, kind, value);
    ui.label(kind.unit);
}
