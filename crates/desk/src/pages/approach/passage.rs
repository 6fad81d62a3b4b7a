//! The nucleus of small-incision surgery: how it is delivered, and what capsulorhexis, tunnel and
//! chamber are asked.

use egui::Ui;
use millrace_core::case::Command;
use millrace_core::chamber::Delivery;
use millrace_wording::desk::approach as say;
use millrace_wording::text::proximity as estimate;

use super::texts::unparted;
use super::{CaseView, LABEL, under_field, unit};
use crate::widgets::quantity_kind::LENGTH;
use crate::widgets::{FormRows, Segments, section, small};
use crate::words::in_use;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>) -> Vec<Command> {
    let (plan, words) = (&view.draft.approach, in_use(ui));
    let mut commands = Vec::new();
    section(ui, say::small_incision_geometry(words));
    let deliveries = [
        (Some(Delivery::Whole), say::delivery_whole(words)),
        (Some(Delivery::Halves), say::delivery_halves(words)),
        (Some(Delivery::Thirds), say::delivery_thirds(words)),
        (None, say::delivery_not_chosen(words)),
    ];
    let name = say::delivery(words);
    let id = view.ground.with("delivery");
    let chosen = Segments::new(id, name, &deliveries, Some(plan.delivery)).row(ui, name, LABEL);
    commands.extend(chosen.map(Command::ChooseDelivery));
    commands.extend(lips(ui, view));
    let Ok(plan) = view.plan else {
        return commands;
    };
    if let Some(proximity) = plan.proximity() {
        let whole = estimate::whole(words, &proximity.whole);
        let gained = estimate::retreat_available(words);
        ui.label(unparted(&format!("{whole}. {gained}")));
    }
    if let Some(passage) = &plan.passage {
        ui.label(unparted(&estimate::passage(words, passage)));
        small(ui, estimate::whole_reading(words));
    } else {
        ui.label(say::cannot_be_estimated(words, say::size_not_stated(words)));
    }
    commands
}

fn lips(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let recorded = view.draft.approach.tunnel_lips;
    let mut lips = recorded;
    let mut form = FormRows::new(view.ground, LABEL);
    let words = in_use(ui);
    ui.horizontal(|ui| {
        let field = form.name(ui, LABEL, say::tunnel_lips(words));
        form.of_number(ui, field, &LENGTH, &mut lips);
        unit(ui, "mm");
    });
    under_field(ui, say::what_lips_are(words));
    form.say(ui);
    (lips != recorded).then_some(Command::SetTunnelLips(lips))
}
