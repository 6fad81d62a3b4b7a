//! The two fields of a meridian: its reading, in the unit of the instrument, and its direction.

use egui::Ui;
use millrace_core::biometry::CornealReading;
use millrace_core::quantity::{HundredthDiopters, Meridian};
use millrace_wording::Show as _;
use millrace_wording::desk::biometry as say;

use super::keratometry::Here;
use super::keratometry_entry::{KeratometryEntry, ReadingUnit};
use crate::widgets::quantity_kind::{CORNEAL_POWER, CORNEAL_RADIUS, MERIDIAN, in_words};
use crate::widgets::{Commit, Fielded, Kind, Named, NumberField};

/// One of the two meridians.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Which {
    Flat,
    Steep,
}

pub(super) fn reading_field(
    ui: &mut Ui,
    here: Here<'_>,
    which: Which,
    next: &KeratometryEntry,
) -> Fielded<CornealReading> {
    let page = here.page;
    let id = page.id((here.slot.item, which, "reading"));
    let name = match which {
        Which::Flat => here.name(say::flat_reading_head, say::flat_reading),
        Which::Steep => here.name(say::steep_reading_head, say::steep_reading),
    };
    let named = Named::As(&name);
    let reading = match which {
        Which::Flat => next.flat,
        Which::Steep => next.steep,
    };
    if next.unit == Some(ReadingUnit::Radius) {
        let value = match reading {
            Some(CornealReading::Radius(radius)) => Some(radius),
            _ => None,
        };
        let entered = NumberField::new(id, named, &CORNEAL_RADIUS, value).show(ui);
        return Fielded {
            commit: entered
                .commit
                .map(|commit| commit.map(CornealReading::Radius)),
            problem: entered.problem,
        };
    }
    let value = match reading {
        Some(CornealReading::Power { power, .. }) => Some(power),
        _ => None,
    };
    if next.unit.is_none() {
        // Pasted with its unit, a radius says what the readings are in.
        return NumberField::new(id, named, &READING_WITH_UNIT, None).show(ui);
    }
    let first = next.index.is_none().then(|| say::index_first(page.words));
    let check = |power: HundredthDiopters| match next.index {
        Some(index) => CornealReading::power(power, index)
            .map(|_| ())
            .map_err(in_words(page.words)),
        None => Ok(()),
    };
    let field = NumberField::new(id, named, &CORNEAL_POWER, value);
    let entered = field.after(first).check(&check).show(ui);
    let commit = entered
        .commit
        .and_then(|commit| match (commit, next.index) {
            (Commit::Cleared, _) => Some(Commit::Cleared),
            (Commit::Entered(power), Some(index)) => CornealReading::power(power, index)
                .ok()
                .map(Commit::Entered),
            (Commit::Entered(_), None) => None,
        });
    Fielded {
        commit,
        problem: entered.problem,
    }
}

/// A reading before it is said what readings are in: one that says it itself is taken.
const READING_WITH_UNIT: Kind<CornealReading> = Kind {
    unit: "",
    typed_units: &[],
    range: |words| say::unit_first(words).to_owned(),
    read: |text, words| {
        if text.ends_with("mm") {
            return CORNEAL_RADIUS
                .parse(text, words)
                .map(CornealReading::Radius);
        }
        CORNEAL_POWER.parse(text, words)?;
        let has_unit = text.ends_with(CORNEAL_POWER.unit);
        let first = if has_unit {
            say::index_first
        } else {
            say::unit_first
        };
        Err(first(words).to_owned())
    },
    write: |reading, words| reading.show(words).into_owned(),
};

pub(super) fn meridian_field(
    ui: &mut Ui,
    here: Here<'_>,
    which: Which,
    value: Option<Meridian>,
) -> Fielded<Meridian> {
    let id = here.page.id((here.slot.item, which, "meridian"));
    let name = match which {
        Which::Flat => here.name(say::flat_meridian_head, say::flat_meridian),
        Which::Steep => here.name(say::steep_meridian_head, say::steep_meridian),
    };
    let field = NumberField::new(id, Named::As(&name), &MERIDIAN, value);
    field.width(56.0).show(ui)
}
