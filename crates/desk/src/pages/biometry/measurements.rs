//! The rows of measurements, in the order of the table in the core.

use egui::Ui;
use millrace_core::biometry::table::{self, Slot};
use millrace_core::biometry::{Item, MeasuredLength};
use millrace_core::case::Command;
use millrace_wording::Show as _;

use super::row::Row;
use super::{BiometryState, EyePage, depth, keratometry, posterior};
use crate::widgets::quantity_kind::{CORNEAL_THICKNESS, ENDOTHELIUM, Kind, LENGTH};

pub(super) fn show(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    for item in Item::ALL {
        match item {
            Item::AxialLength => length(ui, page, state, &table::AXIAL_LENGTH),
            Item::Keratometry => keratometry::show(ui, page, state, &table::KERATOMETRY),
            Item::SecondKeratometry => {
                keratometry::show_second(ui, page, state, &table::SECOND_KERATOMETRY);
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
