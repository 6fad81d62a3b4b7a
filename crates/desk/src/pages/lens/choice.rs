//! What is aimed at, with which lens, by which formula.

use egui::Ui;
use millrace_core::case::{Command, Slot};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_core::lens::LensRecord;
use millrace_wording::desk::lens as say;
use millrace_wording::{Show as _, Words};

use super::choices::pick_lens;
use super::{NAMES, field};
use crate::pages::{CaseView, use_mine};
use crate::theme::measures;
use crate::widgets::quantity_kind::POWER;
use crate::widgets::{FormRows, Pick, Segments, cell, section, small};
use crate::words::in_use;
use millrace_wording::sentence;

/// How a power may be proposed.
const CONVENTIONS: [Convention; 3] = [
    Convention::FirstMyopic,
    Convention::Nearest,
    Convention::FirstHyperopic,
];

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let words = in_use(ui);
    section(ui, say::target_and_lens(words));
    let lens = &view.draft.lens;
    targets(ui, view, commands);
    commands.extend(pick_lens(ui, view, Slot::Planned));
    if let Some(record) = lens.record() {
        about(ui, record);
    }
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label(say::planned_by(words)));
        let id = view.ground.with("formula");
        let formulas = formulas(words, view);
        let pick = Pick::new(id, say::planned_by(words), &formulas, lens.formula);
        let formula = pick.show(ui, 250.0);
        commands.extend(formula.map(|formula| Command::ChooseFormula(Some(formula))));
    });
    let id = view.ground.with("convention");
    let texts = CONVENTIONS.map(|it| (it, it.show(words).into_owned()));
    let options = texts
        .each_ref()
        .map(|(convention, text)| (*convention, text.as_str()));
    let name = say::proposes_power(words);
    let chosen = Segments::new(id, name, &options, lens.convention);
    let chosen = chosen.row(ui, name, NAMES);
    commands.extend(chosen.map(|convention| Command::ChooseConvention(Some(convention))));
    commands.extend(use_mine::convention(ui, view));
}

/// What is aimed at, and what the patient consented to: side by side, since they must agree.
fn targets(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let lens = &view.draft.lens;
    let (mut target, mut consented) = (lens.target, lens.consented_target);
    let (mut form, words) = (FormRows::new(view.ground, NAMES), in_use(ui));
    ui.horizontal(|ui| {
        field(ui, &mut form, say::target(words), &POWER, &mut target);
        ui.add_space(measures::APART);
        form.label = 118.0;
        let name = say::consented_target(words);
        field(ui, &mut form, name, &POWER, &mut consented);
    });
    form.say(ui);
    if target != lens.target {
        commands.push(Command::SetTarget(target));
    }
    if consented != lens.consented_target {
        commands.push(Command::SetConsentedTarget(consented));
    }
    under_names(ui, say::at_spectacles(words));
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

fn about(ui: &mut Ui, record: &LensRecord) {
    let words = in_use(ui);
    let about = say::about(
        words,
        sentence(&record.material.show(words)),
        record.haptic,
        record.optic_diameter,
        record.overall_length,
        record.site,
    );
    under_names(ui, &about);
    let constants = say::constants(words, record.constants_for, record.constants);
    under_names(ui, &constants);
}

/// An explanation that stands where the fields stand.
fn under_names(ui: &mut Ui, text: &str) {
    ui.horizontal_top(|ui| {
        ui.add_space(NAMES + measures::NEAR);
        ui.vertical(|ui| small(ui, text));
    });
}
