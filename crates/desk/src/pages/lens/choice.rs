//! What is aimed at, with which lens, by which formula.

use egui::Ui;
use millrace_core::case::Command;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_core::lens::{LensRecord, LensSite};

use super::choices::pick_lens;
use super::{NAMES, field};
use crate::pages::{CaseView, use_mine};
use crate::theme::measures;
use crate::widgets::quantity_kind::POWER;
use crate::widgets::{FormRows, Pick, Segments, cell, section, small};

/// How a power is proposed, in few words.
const CONVENTIONS: [(Convention, &str); 3] = [
    (Convention::FirstMyopic, "first myopic"),
    (Convention::Nearest, "nearest"),
    (Convention::FirstHyperopic, "first hyperopic"),
];

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    section(ui, "Target and lens");
    let lens = &view.draft.lens;
    targets(ui, view, commands);
    let picked = pick_lens(ui, view, "Lens", LensSite::Bag, lens.record.as_ref());
    commands.extend(picked.map(|picked| Command::ChooseLens(picked.value())));
    if let Some(record) = &lens.record {
        about(ui, record);
    }
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label("Planned by"));
        let id = view.ground.with("formula");
        let formulas = formulas(view);
        let formula = Pick::new(id, "Planned by", &formulas, lens.formula).show(ui, 250.0);
        commands.extend(formula.map(|formula| Command::ChooseFormula(Some(formula))));
    });
    let id = view.ground.with("convention");
    let chosen = Segments::new(id, "Proposes the power", &CONVENTIONS, lens.convention);
    let chosen = chosen.row(ui, "Proposes", NAMES);
    commands.extend(chosen.map(|convention| Command::ChooseConvention(Some(convention))));
    commands.extend(use_mine::convention(ui, view));
}

/// What is aimed at, and what the patient consented to: side by side, since they must agree.
fn targets(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let lens = &view.draft.lens;
    let (mut target, mut consented) = (lens.target, lens.consented_target);
    let mut form = FormRows::new(view.ground, NAMES);
    ui.horizontal(|ui| {
        field(ui, &mut form, "Target", &POWER, &mut target);
        ui.add_space(measures::APART);
        form.label = 118.0;
        field(ui, &mut form, "Consented target", &POWER, &mut consented);
    });
    form.say(ui);
    if target != lens.target {
        commands.push(Command::SetTarget(target));
    }
    if consented != lens.consented_target {
        commands.push(Command::SetConsentedTarget(consented));
    }
    under_names(ui, "Spherical equivalent at the spectacle plane");
}

/// The formulas of the ladder, or the five for untouched corneas while there is none.
fn formulas(view: &CaseView<'_>) -> Vec<(Formula, String)> {
    let ladder = view.plan.ok().and_then(|plan| plan.ladder.as_ref().ok());
    let Some(ladder) = ladder else {
        let names = Formula::THIN_LENS.map(|formula| (formula, formula.name().to_owned()));
        return names.to_vec();
    };
    ladder
        .columns
        .iter()
        .map(|column| {
            let refused = if column.answer.is_ok() {
                ""
            } else {
                " (refused)"
            };
            (
                column.formula,
                format!("{}{refused}", column.formula.name()),
            )
        })
        .collect()
}

fn about(ui: &mut Ui, record: &LensRecord) {
    under_names(
        ui,
        &format!(
            "{}, {}, optic {}, length {}, for the {}",
            crate::words::sentence(&record.material.to_string()),
            record.haptic,
            record.optic_diameter,
            record.overall_length,
            record.site
        ),
    );
    let constants = format!(
        "Constants for {}: {}",
        record.constants_for, record.constants
    );
    under_names(ui, &constants);
}

/// An explanation that stands where the fields stand.
fn under_names(ui: &mut Ui, text: &str) {
    ui.horizontal_top(|ui| {
        ui.add_space(NAMES + measures::NEAR);
        ui.vertical(|ui| small(ui, text));
    });
}
