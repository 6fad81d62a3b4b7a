//! The rows of measurements: those of a biometer's printout in its order, then what else there is.

use egui::Ui;
use millrace_core::biometry::table::{self, Slot};
use millrace_core::biometry::{Item, MeasuredLength};
use millrace_core::case::Command;
use millrace_wording::Show as _;
use millrace_wording::desk::biometry as say;

use super::row::Row;
use super::{BiometryState, EyePage, depth, keratometry, posterior};
use crate::theme::measures;
use crate::widgets::quantity_kind::{CORNEAL_THICKNESS, ENDOTHELIUM, Kind, LENGTH};
use crate::widgets::value_order::{self, Step};

/// In the order of a printout.
const PRINTOUT: [Item; 7] = [
    Item::AxialLength,
    Item::Keratometry,
    Item::ChamberDepth,
    Item::LensThickness,
    Item::CornealThickness,
    Item::CornealDiameter,
    Item::Endothelium,
];

/// What is not on every printout: its rows open when they are wanted.
const FURTHER: [&[Item]; 3] = [
    &[Item::SecondKeratometry],
    &[Item::PosteriorRadius, Item::PosteriorAstigmatism],
    &[Item::Pupil],
];

pub(super) fn show(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    for item in PRINTOUT {
        row(ui, page, state, item);
    }
    let is_open = |page: &EyePage<'_>, state: &BiometryState, items: &[Item]| {
        items.iter().any(|item| {
            let is_wanted = state.further.contains(&(page.side, *item));
            is_wanted || item.of(page.eye).is_some() || item.of(page.other).is_some()
        })
    };
    for items in FURTHER {
        if is_open(page, state, items) {
            for item in items {
                row(ui, page, state, *item);
            }
        }
    }
    let closed = FURTHER.into_iter().filter(|it| !is_open(page, state, it));
    let closed: Vec<_> = closed.collect();
    if closed.is_empty() {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.add_space(page.columns.indent());
        for items in closed {
            let name = match items {
                [Item::SecondKeratometry] => say::second_keratometry(page.words),
                [Item::Pupil] => say::pupil(page.words),
                _ => say::posterior_cornea(page.words),
            };
            let id = page.id(("further", name));
            let button = value_order::act(ui, id, name, Step::Choice);
            if button.clicked() {
                let wanted = items.iter().map(|item| (page.side, *item));
                state.further.extend(wanted);
                let first = match items {
                    [Item::SecondKeratometry] => page.id((Item::SecondKeratometry, "unit")),
                    [item, ..] => page.id(*item),
                    [] => continue,
                };
                ui.memory_mut(|memory| memory.request_focus(first));
            }
            button.accessible_name(page.name(name));
        }
    });
    ui.add_space(measures::TIGHT);
}

fn row(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState, item: Item) {
    match item {
        Item::AxialLength => length(ui, page, state, &table::AXIAL_LENGTH),
        Item::Keratometry => keratometry::show(ui, page, state, &table::KERATOMETRY),
        Item::SecondKeratometry => {
            keratometry::show(ui, page, state, &table::SECOND_KERATOMETRY);
        }
        Item::ChamberDepth => depth::show(ui, page, state),
        Item::LensThickness => length(ui, page, state, &table::LENS_THICKNESS),
        Item::CornealThickness => {
            let row = Row {
                spread: Some(&LENGTH),
                ..of(page, &table::CORNEAL_THICKNESS, &CORNEAL_THICKNESS)
            };
            record(ui, page, state, &table::CORNEAL_THICKNESS, row);
        }
        Item::CornealDiameter => length(ui, page, state, &table::CORNEAL_DIAMETER),
        Item::PosteriorRadius => length(ui, page, state, &table::POSTERIOR_RADIUS),
        Item::PosteriorAstigmatism => posterior::show(ui, page, state),
        Item::Pupil => length(ui, page, state, &table::PUPIL),
        Item::Endothelium => {
            let density = |eye| (table::ENDOTHELIUM.of)(eye).map(|measured| measured.value);
            let row = Row {
                // The column is too narrow for the unit, which stands beside the field.
                other: density(page.other).map(|density| density.per_mm2().to_string()),
                ..of(page, &table::ENDOTHELIUM, &ENDOTHELIUM)
            };
            record(ui, page, state, &table::ENDOTHELIUM, row);
        }
    }
}
/// A measurement that is one length.
fn length<T: MeasuredLength + PartialEq>(
    ui: &mut Ui,
    page: &mut EyePage<'_>,
    state: &mut BiometryState,
    slot: &Slot<T>,
) {
    let row = Row {
        spread: Some(&LENGTH),
        ..of(page, slot, &Kind::LENGTH)
    };
    record(ui, page, state, slot, row);
}

/// The row of a measurement that is one number.
fn of<'a, T: Clone, S: Clone>(
    page: &EyePage<'_>,
    slot: &Slot<T, S>,
    kind: &'a Kind<T>,
) -> Row<'a, T, S> {
    let other = slot.item.of(page.other);
    Row {
        item: slot.item,
        kind,
        spread: None,
        current: (slot.of)(page.eye).cloned(),
        other: other.map(|recorded| recorded.value.show(page.words).into_owned()),
        first: None,
    }
}

fn record<T: Copy + PartialEq, S: Copy + PartialEq>(
    ui: &mut Ui,
    page: &mut EyePage<'_>,
    state: &mut BiometryState,
    slot: &Slot<T, S>,
    row: Row<'_, T, S>,
) {
    if let Some(commit) = row.show(ui, page, state) {
        let measurement = (slot.set)(commit.value());
        page.commands.push(Command::Measure(page.side, measurement));
    }
}
