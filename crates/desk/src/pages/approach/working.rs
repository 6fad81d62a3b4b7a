//! Where the pieces are worked on, what irrigation adds, and how the size of the nucleus is known.

use egui::Ui;
use millrace_core::case::Command;
use millrace_core::chamber::{NucleusSize, WorkingPlane};
use millrace_wording::desk::approach as say;

use super::kinds::DEEPENING;
use super::{CaseView, LABEL, under_field, unit};
use crate::theme::measures;
use crate::widgets::{FormRows, Segments};
use crate::words::in_use;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>) -> Vec<Command> {
    let (plan, words) = (&view.draft.approach, in_use(ui));
    let mut commands = Vec::new();
    ui.add_space(measures::NEAR);
    let planes = [
        (Some(WorkingPlane::Bag), say::in_the_bag(words)),
        (Some(WorkingPlane::Pupil), say::pupil_plane(words)),
        (Some(WorkingPlane::Chamber), say::mid_chamber(words)),
        (None, say::plane_not_chosen(words)),
    ];
    let name = say::working_plane(words);
    let id = view.ground.with("working plane");
    let chosen = Segments::new(id, name, &planes, Some(plan.working_plane)).row(ui, name, LABEL);
    commands.extend(chosen.map(Command::ChoosePlane));
    let sizes = [
        (Some(NucleusSize::Measured), say::size_measured(words)),
        (Some(NucleusSize::Guessed), say::size_guessed(words)),
        (None, say::size_not_said(words)),
    ];
    if plan.nucleus.is_some() {
        let name = say::size_known(words);
        let id = view.ground.with("size of the nucleus");
        let chosen = Segments::new(id, name, &sizes, Some(plan.nucleus_size)).row(ui, name, LABEL);
        commands.extend(chosen.map(Command::SetNucleusSize));
        if plan.nucleus_size.is_none() {
            under_field(ui, say::size_not_said_counts(words));
        }
    }
    commands.extend(deepening(ui, view));
    commands
}

fn deepening(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let recorded = view.draft.approach.deepening;
    let mut deepening = recorded;
    let mut form = FormRows::new(view.ground, LABEL);
    let words = in_use(ui);
    ui.horizontal(|ui| {
        let field = form.name(ui, LABEL, say::deepening(words));
        form.of_number(ui, field, &DEEPENING, &mut deepening);
        unit(ui, "mm");
    });
    under_field(ui, say::what_deepening_is(words));
    form.say(ui);
    (deepening != recorded).then_some(Command::SetDeepening(deepening))
}
