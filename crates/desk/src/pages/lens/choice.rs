//! What is aimed at, with which lens, by which formula.

use egui::Ui;
use millrace_core::case::{Command, Slot};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_wording::desk::lens as say;
use millrace_wording::desk::reference;
use millrace_wording::{Show as _, Words};

use super::choices::{Widths, pick_lens};
use super::field;
use crate::pages::{CaseView, use_mine};
use crate::theme::measures;
use crate::widgets::quantity_kind::POWER;
use crate::widgets::reading::{Topic, reads};
use crate::widgets::{FormRows, Pick, Segments, cell, section, small};
use crate::words::in_use;
use millrace_wording::sentence;

/// How a power may be proposed.
const CONVENTIONS: [Convention; 3] = [
    Convention::FirstMyopic,
    Convention::Nearest,
    Convention::FirstHyperopic,
];

/// Width of the names in front of the fields, and of "Consented target".
const LABEL: f32 = 84.0;
const CONSENTED: f32 = 118.0;
/// Width of "Formula", and of the list behind it.
const FORMULA: [f32; 2] = [56.0, 148.0];
/// Width from which the proposal stands beside the lens; of both without the list of lenses.
const BESIDE: f32 = 690.0;
const WITHOUT_LENS: f32 = 488.0;
/// Widths of the list of lenses.
const LENSES: [f32; 2] = [200.0, 340.0];

/// What is aimed at and by which formula; with which lens, and how its power is proposed: two rows where the
/// window is wide, three where it is not.
pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let width = ui.available_width();
    let is_wide = BESIDE <= width;
    let mut form = FormRows::new(view.ground, LABEL);
    ui.horizontal(|ui| {
        targets(ui, view, &mut form, commands);
        if is_wide {
            formula(ui, view, commands);
        }
    });
    form.say(ui);
    let room = if is_wide {
        width - WITHOUT_LENS
    } else {
        width - LABEL - FORMULA[0] - FORMULA[1] - 4.0 * measures::NEAR
    };
    let [least, most] = LENSES;
    let widths = Widths {
        name: LABEL,
        list: room.clamp(least, most),
    };
    ui.horizontal(|ui| {
        commands.extend(pick_lens(ui, view, Slot::Planned, widths));
        if is_wide {
            convention(ui, view, commands);
        } else {
            formula(ui, view, commands);
        }
    });
    if !is_wide {
        ui.horizontal(|ui| convention(ui, view, commands));
    }
    commands.extend(use_mine::usual(ui, view));
}

fn formula(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let words = in_use(ui);
    let [name, list] = FORMULA;
    cell(ui, name, |ui| ui.label(say::planned_by(words)));
    let id = view.ground.with("formula");
    let formulas = formulas(words, view);
    let chosen = view.draft.lens.formula;
    let pick = Pick::new(id, say::planned_by(words), &formulas, chosen);
    let formula = pick.show(ui, list);
    commands.extend(formula.map(|formula| Command::ChooseFormula(Some(formula))));
}

fn convention(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let words = in_use(ui);
    let id = view.ground.with("convention");
    let texts = CONVENTIONS.map(|it| (it, it.show(words).into_owned()));
    let options = texts
        .each_ref()
        .map(|(convention, text)| (*convention, text.as_str()));
    let name = say::proposes_power(words);
    ui.label(name);
    let chosen = Segments::new(id, name, &options, view.draft.lens.convention);
    let chosen = chosen.show(ui);
    commands.extend(chosen.map(|convention| Command::ChooseConvention(Some(convention))));
}

/// What is aimed at, and what the patient consented to: side by side, since they must agree.
fn targets(ui: &mut Ui, view: &CaseView<'_>, form: &mut FormRows, commands: &mut Vec<Command>) {
    let (lens, words) = (&view.draft.lens, in_use(ui));
    let (mut target, mut consented) = (lens.target, lens.consented_target);
    field(ui, form, say::target(words), &POWER, &mut target);
    form.label = CONSENTED;
    let name = say::consented_target(words);
    field(ui, form, name, &POWER, &mut consented);
    if target != lens.target {
        commands.push(Command::SetTarget(target));
    }
    if consented != lens.consented_target {
        commands.push(Command::SetConsentedTarget(consented));
    }
}

/// The formulas of the ladder, or the five for untouched corneas while there is none.
fn formulas(words: Words, view: &CaseView<'_>) -> Vec<(Formula, String)> {
    let ladder = view.plan.ok().and_then(|plan| plan.ladder.as_ref().ok());
    let Some(ladder) = ladder else {
        let names = Formula::THIN_LENS.map(|formula| (formula, formula.show(words).into_owned()));
        return names.to_vec();
    };
    ladder
        .columns
        .iter()
        .map(|column| {
            let name = if column.answer.is_ok() {
                column.formula.show(words).into_owned()
            } else {
                say::refused_formula(words, column.formula)
            };
            (column.formula, name)
        })
        .collect()
}

/// What the lens is, and what the formulas are given of it.
pub(super) fn about_lens(ui: &mut Ui, view: &CaseView<'_>) {
    let words = in_use(ui);
    let Some(record) = view.draft.lens.record() else {
        return;
    };
    let about = say::about(
        words,
        sentence(&record.material.show(words)),
        record.haptic,
        record.optic_diameter,
        record.overall_length,
        record.site,
    );
    section(ui, say::about_lens(words));
    small(ui, about);
    let constants = say::constants(words, record.constants_for, record.constants);
    small(ui, constants);
    if let Some(formula) = view.draft.lens.formula {
        let name = reference::about_formula(words, formula);
        reads(ui, &name, Topic::Formula(formula));
    }
}
