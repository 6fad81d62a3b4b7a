//! What is aimed at, with which lens, by which formula.

use egui::Ui;
use millrace_core::case::Command;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_core::lens::{LensRecord, LensSite};

use super::choices::pick_lens;
use super::{NAMES, field};
use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::quantity_kind::POWER;
use crate::widgets::{Segments, cell, pick, section, small};

/// How a power is proposed, in few words.
const CONVENTIONS: [(Convention, &str); 3] = [
    (Convention::FirstMyopic, "first myopic"),
    (Convention::Nearest, "nearest"),
    (Convention::FirstHyperopic, "first hyperopic"),
];

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    section(ui, "Target and lens");
    let lens = &view.draft.lens;
    let target = field(
        ui,
        (view.ground.with("target"), "Target"),
        (&POWER, lens.target),
        "spherical equivalent at the spectacle plane",
    );
    commands.extend(target.map(Command::SetTarget));
    let consented = field(
        ui,
        (view.ground.with("consented"), "Consented target"),
        (&POWER, lens.consented_target),
        "as the patient consented to",
    );
    commands.extend(consented.map(Command::SetConsentedTarget));
    commands.extend(
        pick_lens(ui, view, "Lens", LensSite::Bag, lens.record.as_ref()).map(Command::ChooseLens),
    );
    if let Some(record) = &lens.record {
        about(ui, record);
    }
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label("Planned by"));
        let id = (view.ground.with("formula"), "Planned by");
        let formula = pick(ui, id, &formulas(view), lens.formula, 250.0);
        commands.extend(formula.map(|formula| Command::ChooseFormula(Some(formula))));
    });
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label("Proposes"));
        let id = view.ground.with("convention");
        let chosen = Segments::new(id, "Proposes the power", &CONVENTIONS, lens.convention).show(ui);
        commands.extend(chosen.map(|convention| Command::ChooseConvention(Some(convention))));
    });
    if let Some(convention) = lens.convention {
        under_names(ui, means(convention));
    }
}

/// What the convention means.
const fn means(convention: Convention) -> &'static str {
    match convention {
        Convention::FirstMyopic => {
            "Weakest power predicted at the target or on its myopic side is marked as proposed"
        }
        Convention::Nearest => "Power predicted nearest to the target is marked as proposed",
        Convention::FirstHyperopic => {
            "Strongest power predicted at the target or on its hyperopic side is marked as proposed"
        }
    }
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
            let refused = if column.answer.is_ok() { "" } else { " (refused)" };
            (column.formula, format!("{}{refused}", column.formula.name()))
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
    let constants = format!("Constants for {}: {}", record.constants_for, record.constants);
    under_names(ui, &constants);
}

/// An explanation that stands where the fields stand.
fn under_names(ui: &mut Ui, text: &str) {
    ui.horizontal_top(|ui| {
        ui.add_space(NAMES + measures::NEAR);
        ui.vertical(|ui| small(ui, text));
    });
}
