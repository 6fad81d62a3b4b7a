//! Astigmatism of the posterior cornea: its size, and the meridian where its negative power is
//! strongest.

use egui::Ui;
use millrace_core::biometry::table::POSTERIOR_ASTIGMATISM as SLOT;
use millrace_core::biometry::{Measured, PosteriorAstigmatism};
use millrace_core::case::Command;
use millrace_core::quantity::{HundredthDiopters, Meridian};
use millrace_wording::Show as _;
use millrace_wording::desk::biometry as say;

use super::row::Row;
use super::{BiometryState, EyePage};
use crate::theme::measures;
use crate::widgets::quantity_kind::{MERIDIAN, POSTERIOR_MAGNITUDE, POSTERIOR_SPREAD};
use crate::widgets::{Commit, Named, NumberField, muted, small};

pub(super) fn show(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    let current = (SLOT.of)(page.eye).cloned();
    let steep = current
        .as_ref()
        .map(|measured| measured.value.steep())
        .or(*state.posterior_steep.get(page.side));
    let other = (SLOT.of)(page.other).map(|measured| measured.value);
    let row = Row {
        item: SLOT.item,
        kind: &POSTERIOR_MAGNITUDE,
        spread: Some(&POSTERIOR_SPREAD),
        current: current
            .as_ref()
            .map(|measured| measured.map(PosteriorAstigmatism::magnitude)),
        other: other.map(|value| value.show(page.words).into_owned()),
        first: steep.is_none().then(|| say::steep_first(page.words)),
    };
    let change = row.show(ui, page, state);
    let turned = meridian(ui, page, steep);
    ui.add_space(measures::TIGHT);
    let steep = match turned {
        Some(commit) => {
            let steep = commit.value();
            *state.posterior_steep.get_mut(page.side) = steep;
            steep
        }
        None if change.is_none() => return,
        None => steep,
    };
    let size = match change {
        Some(commit) => commit.value(),
        None => current.map(|measured| measured.map(PosteriorAstigmatism::magnitude)),
    };
    let next = size.and_then(|size| whole(&size, steep?));
    if next.as_ref() != (SLOT.of)(page.eye) {
        let measurement = (SLOT.set)(next);
        page.commands.push(Command::Measure(page.side, measurement));
    }
}

fn whole(
    size: &Measured<HundredthDiopters, HundredthDiopters>,
    steep: Meridian,
) -> Option<Measured<PosteriorAstigmatism, HundredthDiopters>> {
    let value = PosteriorAstigmatism::new(size.value, steep).ok()?;
    Some(size.map(|_| value))
}

fn meridian(ui: &mut Ui, page: &EyePage<'_>, steep: Option<Meridian>) -> Option<Commit<Meridian>> {
    let entered = ui
        .horizontal(|ui| {
            let place = page.columns;
            ui.add_space(place.indent() + place.label + measures::NEAR);
            small(ui, say::steep_at(page.words));
            let name = page.name(say::posterior_meridian(page.words));
            let id = page.id("posterior meridian");
            let field = NumberField::new(id, Named::As(&name), &MERIDIAN, steep);
            let entered = field.width(56.0).show(ui);
            muted(ui, "°");
            entered
        })
        .inner;
    if let Some(why) = entered.problem {
        page.wrong(ui, &why);
    }
    entered.commit
}
