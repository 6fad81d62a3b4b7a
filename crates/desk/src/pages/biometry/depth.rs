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
use crate::widgets::{Commit, Segments, small, value_order};

pub(super) fn show(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    let current = page.eye.chamber_depth.clone();
    let recorded = current.as_ref().map(|measured| measured.value.start);
    let start = recorded.or(state.sitting.get(page.side).depth_start);
    // Asked before the number; once it is said, it is said of this eye.
    let chosen = start_choice(ui, page, state, start);
    if let (Some(chosen), None) = (chosen, recorded) {
        state.sitting.get_mut(page.side).depth_start = Some(chosen);
    }
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
    said(ui, page, current.as_ref(), start);
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

fn start_choice(
    ui: &mut Ui,
    page: &EyePage<'_>,
    state: &BiometryState,
    start: Option<DepthStart>,
) -> Option<DepthStart> {
    let id = page.id("depth start");
    let is_open = state.details.contains(&(page.side, SLOT.item));
    if start.is_some() && !is_open && !ui.memory(|memory| memory.has_focus(id)) {
        return None;
    }
    let words = page.words;
    let chosen = ui
        .horizontal(|ui| {
            let place = page.columns;
            ui.add_space(place.indent() + place.label + measures::NEAR);
            small(ui, say::from_the(words));
            let name = page.name(say::depth_from_the(words));
            let starts = [
                (DepthStart::Epithelium, say::epithelium(words)),
                (DepthStart::Endothelium, say::endothelium(words)),
            ];
            Segments::new(id, &name, &starts, start).show(ui)
        })
        .inner;
    value_order::pass_choice(ui, id, start.as_ref());
    chosen
}

/// Under the row: from which surface, and the aqueous depth where it follows from the thickness.
fn said(
    ui: &mut Ui,
    page: &EyePage<'_>,
    current: Option<&Measured<ChamberDepth>>,
    start: Option<DepthStart>,
) {
    let words = page.words;
    let Some(start) = start else {
        return;
    };
    let depth = current
        .filter(|_| start == DepthStart::Epithelium)
        .and_then(|depth| depth.value.aqueous(page.eye.thickness()));
    let from = match start {
        DepthStart::Epithelium => say::from_epithelium(words),
        DepthStart::Endothelium => say::from_endothelium(words),
    };
    let mut parts = vec![from.to_owned()];
    parts.extend(depth.map(|depth| say::aqueous(words, depth)));
    page.tell(ui, &parts.join("  ·  "));
}

fn short(words: Words, start: DepthStart) -> &'static str {
    match start {
        DepthStart::Epithelium => say::short_epithelium(words),
        DepthStart::Endothelium => say::short_endothelium(words),
    }
}
