//! Approach, incision and capsulorhexis.

use egui::Ui;
use millrace_core::case::{Approach, Command};
use millrace_wording::desk::approach as say;
use millrace_wording::{Show as _, Words};

use super::{CaseView, LABEL, SECOND_LABEL, under_field, unit};
use crate::theme::measures;
use crate::widgets::quantity_kind::{DIRECTION, LENGTH};
use crate::widgets::{FormRows, Segments, small};
use crate::words::in_use;
use millrace_wording::sentence;

/// Each approach at an end, so that the arrow keys never pass through the other one.
fn approaches(words: Words) -> [(Option<Approach>, &'static str); 3] {
    [
        (
            Some(Approach::Phacoemulsification),
            say::phacoemulsification(words),
        ),
        (None, say::not_decided(words)),
        (Some(Approach::SmallIncision), say::small_incision(words)),
    ]
}

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>) -> Vec<Command> {
    let mut commands = Vec::new();
    let plan = &view.draft.approach;
    let id = view.ground.with("approach");
    let words = in_use(ui);
    let approaches = approaches(words);
    let segments = Segments::new(id, say::approach(words), &approaches, Some(plan.approach));
    let chosen = segments.show(ui);
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
    let words = in_use(ui);
    ui.horizontal(|ui| {
        let field = form.name(ui, LABEL, say::incision_width(words));
        form.of_number(ui, field, &LENGTH, &mut width);
        unit(ui, "mm");
        let field = form.name(ui, SECOND_LABEL, say::direction(words));
        form.of_number(ui, field, &DIRECTION, &mut direction);
        unit(ui, "°");
    });
    under_field(ui, &place(words, view));
    if let Some(usual) = usual_width(words, view) {
        under_field(ui, &usual);
    }
    form.say(ui);
    ((width, direction) != (plan.incision_width, plan.incision_direction))
        .then_some(Command::SetIncision { width, direction })
}

fn place(words: Words, view: &CaseView<'_>) -> String {
    match (
        view.draft.approach.incision_direction,
        view.draft.operation.eye,
    ) {
        (None, _) => say::place_missing(words).to_owned(),
        (Some(direction), None) => say::at_of_no_eye(words, direction),
        (Some(direction), Some(side)) => {
            let place = sentence(&side.sector(direction).show(words));
            say::place_at(words, place, direction)
        }
    }
}

/// What the clinic's limits call usual for the chosen approach.
fn usual_width(words: Words, view: &CaseView<'_>) -> Option<String> {
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
    Some(say::usual_width(words, narrowest, widest))
}

fn capsulorhexis(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let recorded = view.draft.approach.capsulorhexis;
    let mut diameter = recorded;
    let mut form = FormRows::new(view.ground, LABEL);
    let words = in_use(ui);
    ui.horizontal(|ui| {
        let field = form.name(ui, LABEL, say::capsulorhexis(words));
        form.of_number(ui, field, &LENGTH, &mut diameter);
        unit(ui, "mm");
        if recorded.is_none() {
            small(ui, say::not_recorded(words));
        }
    });
    form.say(ui);
    (diameter != recorded).then_some(Command::SetCapsulorhexis(diameter))
}
