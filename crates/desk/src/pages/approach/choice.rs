//! Approach, incision and capsulorhexis.

use egui::Ui;
use millrace_core::case::{Approach, Command};

use super::{CaseView, LABEL, SECOND_LABEL, label, under_field, unit};
use crate::theme::measures;
use crate::widgets::quantity_kind::{DIRECTION, LENGTH};
use crate::widgets::{Commit, NumberField, Segments, problem, small};
use crate::words::sentence;

/// Each approach at an end, so that the arrow keys never pass through the other one.
const APPROACHES: [(Option<Approach>, &str); 3] = [
    (Some(Approach::Phacoemulsification), "Phacoemulsification"),
    (None, "Not decided"),
    (Some(Approach::SmallIncision), "Small incision (SICS)"),
];

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>) -> Vec<Command> {
    let mut commands = Vec::new();
    let plan = &view.draft.approach;
    let id = view.ground.with("approach");
    let chosen = Segments::new(id, "Approach", &APPROACHES, Some(plan.approach)).show(ui);
    commands.extend(chosen.map(Command::ChooseApproach));
    ui.add_space(measures::NEAR);
    commands.extend(incision(ui, view));
    commands.extend(capsulorhexis(ui, view));
    commands
}

fn incision(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let plan = &view.draft.approach;
    let (mut width, mut direction) = (plan.incision_width, plan.incision_direction);
    let mut problems = Vec::new();
    ui.horizontal(|ui| {
        let named = label(ui, LABEL, "Incision width");
        let id = view.ground.with("incision width");
        let entered = NumberField::new(id, named, &LENGTH, width).show(ui);
        width = entered.commit.map_or(width, Commit::value);
        problems.extend(entered.problem);
        unit(ui, "mm");
        let named = label(ui, SECOND_LABEL, "Direction");
        let id = view.ground.with("incision direction");
        let entered = NumberField::new(id, named, &DIRECTION, direction).show(ui);
        direction = entered.commit.map_or(direction, Commit::value);
        problems.extend(entered.problem);
        unit(ui, "°");
    });
    under_field(ui, &place(view));
    if let Some(usual) = usual_width(view) {
        under_field(ui, &usual);
    }
    for why in problems {
        problem(ui, &why);
    }
    ((width, direction) != (plan.incision_width, plan.incision_direction))
        .then_some(Command::SetIncision { width, direction })
}

fn place(view: &CaseView<'_>) -> String {
    match (
        view.draft.approach.incision_direction,
        view.draft.operation.eye,
    ) {
        (None, _) => "Place not recorded".to_owned(),
        (Some(direction), None) => format!("At {direction}; choose the eye for the place in words"),
        (Some(direction), Some(side)) => {
            let place = sentence(side.place(direction));
            format!("{place} at {direction}, ISO 8429 facing the patient")
        }
    }
}

/// What the clinic's limits call usual for the chosen approach.
fn usual_width(view: &CaseView<'_>) -> Option<String> {
    let limits = view.limits;
    let (narrowest, widest) = match view.draft.approach.approach? {
        Approach::Phacoemulsification => (
            limits.phaco_incision_narrowest,
            limits.phaco_incision_widest,
        ),
        Approach::SmallIncision => (
            limits.small_incision_narrowest,
            limits.small_incision_widest,
        ),
    };
    Some(format!(
        "Usual width {narrowest} to {widest} (limits of IN-01)"
    ))
}

fn capsulorhexis(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let diameter = view.draft.approach.capsulorhexis;
    let entered = ui
        .horizontal(|ui| {
            let named = label(ui, LABEL, "Capsulorhexis");
            let id = view.ground.with("capsulorhexis");
            let entered = NumberField::new(id, named, &LENGTH, diameter).show(ui);
            unit(ui, "mm");
            if diameter.is_none() {
                small(ui, "Not recorded");
            }
            entered
        })
        .inner;
    if let Some(why) = entered.problem {
        problem(ui, &why);
    }
    entered
        .commit
        .map(|commit| Command::SetCapsulorhexis(commit.value()))
}
