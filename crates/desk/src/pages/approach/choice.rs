//! Approach, incision and capsulorhexis.

use egui::Ui;
use millrace_core::case::{Approach, Command};
use millrace_wording::{Show as _, Words};

use super::{CaseView, LABEL, SECOND_LABEL, under_field, unit};
use crate::theme::measures;
use crate::widgets::quantity_kind::{DIRECTION, LENGTH};
use crate::widgets::{FormRows, Segments, small};
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
    let mut form = FormRows::new(view.ground, LABEL);
    ui.horizontal(|ui| {
        let field = form.name(ui, LABEL, "Incision width");
        form.of_number(ui, field, &LENGTH, &mut width);
        unit(ui, "mm");
        let field = form.name(ui, SECOND_LABEL, "Direction");
        form.of_number(ui, field, &DIRECTION, &mut direction);
        unit(ui, "°");
    });
    under_field(ui, &place(view));
    if let Some(usual) = usual_width(view) {
        under_field(ui, &usual);
    }
    form.say(ui);
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
            let place = sentence(&side.sector(direction).show(Words::ENGLISH));
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
    let recorded = view.draft.approach.capsulorhexis;
    let mut diameter = recorded;
    let mut form = FormRows::new(view.ground, LABEL);
    ui.horizontal(|ui| {
        let field = form.name(ui, LABEL, "Capsulorhexis");
        form.of_number(ui, field, &LENGTH, &mut diameter);
        unit(ui, "mm");
        if recorded.is_none() {
            small(ui, "Not recorded");
        }
    });
    form.say(ui);
    (diameter != recorded).then_some(Command::SetCapsulorhexis(diameter))
}
