//! Powers of the lenses that lie ready, chosen on the Lens page; cylinder and axis of toric ones.

use std::collections::BTreeMap;

use egui::Ui;
use millrace_core::case::{ChosenLens, Command, Slot};
use millrace_core::lens::{ToricChoice, ToricSteps};
use millrace_core::quantity::{HundredthDiopters, Meridian};
use millrace_wording::desk::sheet as say;
use millrace_wording::{Show as _, sentence};

use super::theatre::NAMES;
use crate::pages::CaseView;
use crate::widgets::quantity_kind::{MERIDIAN, POWER};
use crate::widgets::{Commit, Field, FormRows, HalfEntered, Parts, Pick, cell, muted};
use crate::words::in_use;

/// Cylinders and axes that were entered without the other.
pub(super) type HalfToric = BTreeMap<Slot, HalfEntered<ToricParts>>;

/// Cylinder and axis, as entered so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct ToricParts {
    cylinder: Option<HundredthDiopters>,
    axis: Option<Meridian>,
}

impl Parts for ToricParts {
    type Whole = ToricChoice;

    fn of(whole: &ToricChoice) -> Self {
        Self {
            cylinder: Some(whole.cylinder),
            axis: Some(whole.axis),
        }
    }

    fn whole(&self) -> Option<ToricChoice> {
        let (cylinder, axis) = (self.cylinder?, self.axis?);
        Some(ToricChoice { cylinder, axis })
    }
}

pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    form: &mut FormRows,
    half: &mut HalfToric,
) -> Vec<Command> {
    let mut commands = Vec::new();
    for (slot, lens) in view.draft.lens.lenses.iter() {
        if slot == Slot::Planned {
            continue;
        }
        commands.extend(power(ui, form, slot, lens));
        if let Some(made) = &lens.record.toric {
            let half = half.entry(slot).or_default();
            let entered = half.enter(lens.toric.as_ref(), |parts| {
                toric(ui, form, slot, made, parts);
            });
            let change = entered.change.map(Commit::value);
            commands.extend(change.map(|toric| Command::ChooseToric(slot, toric)));
        }
    }
    commands
}

fn power(ui: &mut Ui, form: &mut FormRows, slot: Slot, lens: &ChosenLens) -> Option<Command> {
    let words = in_use(ui);
    let title = sentence(&slot.show(words));
    let (name, mut next) = (say::power_of(words, &title), lens.power);
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label(&title));
        let field = Field::called(form.ground.with(&name), &name);
        form.of_number(ui, field, &POWER, &mut next);
        muted(ui, say::of_lens(words, &lens.record.name));
    });
    (next != lens.power).then_some(Command::ChoosePower(slot, next))
}

/// Cylinder and axis, which are recorded together.
fn toric(ui: &mut Ui, form: &mut FormRows, slot: Slot, made: &ToricSteps, parts: &mut ToricParts) {
    let words = in_use(ui);
    let title = sentence(&slot.show(words));
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| muted(ui, say::cylinder(words)));
        let name = say::cylinder_of(words, &title);
        let cylinders = made.cylinders().iter();
        let options: Vec<_> = cylinders
            .map(|cylinder| (*cylinder, cylinder.show(words).into_owned()))
            .collect();
        let pick = Pick::new(form.ground.with(&name), &name, &options, parts.cylinder);
        parts.cylinder = pick.show(ui, 120.0).or(parts.cylinder);
        muted(ui, say::axis(words));
        let name = say::axis_of(words, &title);
        let field = Field::called(form.ground.with(&name), &name);
        form.of_number(ui, field, &MERIDIAN, &mut parts.axis);
        if parts.cylinder.is_some() != parts.axis.is_some() {
            muted(ui, say::both_or_none(words));
        }
    });
}
