//! Target, lens, power and axis: what the formulas say, how sure they are, and what that rests on.

mod backup;
mod budget;
mod choice;
mod choices;
mod length;
mod pinned;
mod refused;
mod second_eye;
mod table;
mod table_groups;
mod table_head;
mod table_row;
mod toric;
mod toric_steps;

use egui::Ui;
use millrace_core::case::Command;
use millrace_wording::desk::lens as say;

pub use pinned::pinned;

use super::CaseView;
use crate::widgets::{FormRows, Kind, muted};
use crate::words::in_use;

/// What the page remembers beside the draft.
#[derive(Debug, Default)]
pub struct LensState {
    table: table::TableState,
}

/// Width of the names in front of fields.
const NAMES: f32 = 142.0;

pub fn lens_page(ui: &mut Ui, view: &CaseView<'_>, state: &mut LensState) -> Vec<Command> {
    let mut commands = Vec::new();
    let words = in_use(ui);
    choice::show(ui, view, &mut commands);
    length::ultrasound_length(ui, view, &mut commands);
    let Ok(plan) = view.plan else {
        muted(ui, say::no_eye(words));
        return commands;
    };
    match &plan.ladder {
        Ok(found) => {
            commands.extend(table::show(ui, view, plan, found, &mut state.table));
            choice::about_lens(ui, view);
            length::thick_lens_length(ui, view, &mut commands);
            budget::show(ui, view, plan);
        }
        Err(missing) => {
            muted(ui, say::no_ladder(words, missing));
            choice::about_lens(ui, view);
            length::thick_lens_length(ui, view, &mut commands);
        }
    }
    refused::show(ui, plan);
    second_eye::show(ui, plan, view.ground, &mut commands);
    toric::show(ui, view, plan, &mut commands);
    backup::show(ui, view, plan, &mut commands);
    commands
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
