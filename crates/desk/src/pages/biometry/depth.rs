//! Depth of the anterior chamber, which says from which surface it was measured.

use egui::Ui;
use millrace_core::biometry::table::CHAMBER_DEPTH as SLOT;
use millrace_core::biometry::{ChamberDepth, DepthStart, Measured};
use millrace_core::case::Command;
use millrace_wording::Words;
use millrace_wording::desk::biometry as say;

use super::row::Row;
use super::{BiometryState, EyePage};
use crate::theme::measures;
use crate::widgets::quantity_kind::{CHAMBER_DEPTH, LENGTH};
use crate::widgets::{Commit, Segments, low_row, small};

pub(super) fn show(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    let current = page.eye.chamber_depth.clone();
    let start = current
        .as_ref()
        .map(|measured| measured.value.start)
        .or(*state.depth_start.get(page.side));
    let row = Row {
        item: SLOT.item,
        kind: &CHAMBER_DEPTH,
        spread: Some(&LENGTH),
        current: current.as_ref().map(|measured| measured.map(|at| at.depth)),
        other: page.other.chamber_depth.as_ref().map(|measured| {
            say::depth_from(
                page.words,
                measured.value.depth,
                short(page.words, measured.value.start),
            )
        }),
        first: start.is_none().then(|| say::surface_first(page.words)),
    };
    let change = row.show(ui, page, state);
    let chosen = start_choice(ui, page, start);
    aqueous(ui, page, current.as_ref());
    ui.add_space(measures::TIGHT);
    if let Some(chosen) = chosen {
        *state.depth_start.get_mut(page.side) = Some(chosen);
    }
    let next = match (change, chosen) {
        (Some(Commit::Cleared), _) => None,
        (Some(Commit::Entered(depth)), _) => {
            let Some(start) = chosen.or(start) else {
                return;
            };
            Some(depth.map(|depth| ChamberDepth { depth, start }))
        }
        (None, Some(start)) => {
            let Some(mut measured) = current else {
                return;
            };
            measured.value.start = start;
            Some(measured)
        }
        (None, None) => return,
    };
    let measurement = (SLOT.set)(next);
    page.commands.push(Command::Measure(page.side, measurement));
}

fn start_choice(ui: &mut Ui, page: &EyePage<'_>, start: Option<DepthStart>) -> Option<DepthStart> {
    ui.horizontal(|ui| {
        let place = page.columns;
        ui.add_space(place.indent() + place.label + measures::NEAR);
        let words = page.words;
        small(ui, say::from_the(words));
        let id = page.id("depth start");
        let name = page.name(say::depth_from_the(words));
        let starts = [
            (DepthStart::Epithelium, say::epithelium(words)),
            (DepthStart::Endothelium, say::endothelium(words)),
        ];
        Segments::new(id, &name, &starts, start).show(ui)
    })
    .inner
}

/// The aqueous depth, where it follows from the thickness.
fn aqueous(ui: &mut Ui, page: &EyePage<'_>, current: Option<&Measured<ChamberDepth>>) {
    let Some(measured) = current.filter(|depth| depth.value.start == DepthStart::Epithelium) else {
        return;
    };
    if let Some(depth) = measured.value.aqueous(page.eye.thickness()) {
        low_row(ui, |ui| {
            let place = page.columns;
            ui.add_space(place.indent() + place.label + measures::NEAR);
            small(ui, say::aqueous(page.words, depth));
        });
    }
}

fn short(words: Words, start: DepthStart) -> &'static str {
    match start {
        DepthStart::Epithelium => say::short_epithelium(words),
        DepthStart::Endothelium => say::short_endothelium(words),
    }
}
