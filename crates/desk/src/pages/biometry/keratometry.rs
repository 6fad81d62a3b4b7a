//! Both principal meridians: readings in mm or in D with the index, meridians, method.

use egui::Ui;
use millrace_core::biometry::{CornealRadius, CornealReading, Method};
use millrace_core::case::{Command, Measurement};
use millrace_wording::Words;

use super::keratometry_entry::{KeratometryEntry, MeasuredKeratometry, ReadingUnit};
use super::keratometry_fields::{Which, meridian_field, reading_field};
use super::row::{other_cell, said, who_and_when};
use super::{BiometryState, EyePage, Item};
use crate::theme::measures;
use crate::widgets::quantity_kind::{CORNEAL_RADIUS, COUNT, INDEX, UNSIGNED_POWER};
use crate::widgets::{
    Commit, Named, NumberField, Pick, Segments, cell, low_row, minor_button, muted, problem, small,
};
use crate::words::{in_use, sentence};

const METHODS: [Method; 5] = [
    Method::Optical,
    Method::Keratometer,
    Method::Topographer,
    Method::Tomographer,
    Method::Manual,
];

pub(super) fn show(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    let current = page.eye.keratometry.clone();
    let before = current.as_ref().map_or_else(
        || state.keratometry.get(page.side).clone(),
        KeratometryEntry::of,
    );
    let mut next = before.clone();
    if next.method.is_none() {
        next.method = state
            .sitting
            .method
            .filter(|method| METHODS.contains(method));
    }
    let mut problems = Vec::new();
    head(ui, page, &mut next, &mut problems);
    for which in [Which::Flat, Which::Steep] {
        meridian(ui, page, (which, &mut next), &mut problems);
    }
    foot(ui, page, &mut next, (state, current.as_ref()));
    circumstances(ui, page, &next, current.as_ref());
    problems.extend(next.contradiction());
    for why in problems {
        problem(ui, &why);
    }
    if next.has_numbers() && current.is_none() && next.contradiction().is_none() {
        small(ui, sentence(&next.why_not_whole()));
    }
    take(page, state, (before, next), current.as_ref());
    if state.details.contains(&(page.side, Item::Keratometry))
        && let Some(current) = &current
    {
        details(ui, page, current);
    }
    ui.add_space(measures::TIGHT);
}

/// What became of the entry: recorded when whole, kept here until then.
fn take(
    page: &mut EyePage<'_>,
    state: &mut BiometryState,
    (before, next): (KeratometryEntry, KeratometryEntry),
    current: Option<&MeasuredKeratometry>,
) {
    if before == next {
        return;
    }
    let side = page.side;
    let whole = next.whole(current, &state.sitting);
    let partial = state.keratometry.get_mut(side);
    if let Some(measured) = whole {
        *partial = KeratometryEntry::default();
        let measurement = Measurement::Keratometry(Some(Box::new(measured)));
        page.commands.push(Command::Measure(side, measurement));
        return;
    }
    *partial = next;
    if current.is_some() {
        let measurement = Measurement::Keratometry(None);
        page.commands.push(Command::Measure(side, measurement));
    }
}

fn head(ui: &mut Ui, page: &EyePage<'_>, next: &mut KeratometryEntry, problems: &mut Vec<String>) {
    ui.horizontal(|ui| {
        ui.add_space(page.columns.indent());
        cell(ui, page.columns.label, |ui| ui.label("Keratometry"));
        unit_choice(ui, page, next);
        if next.unit != Some(ReadingUnit::Power) {
            return;
        }
        muted(ui, "index");
        let name = page.name("Keratometric index");
        let named = Named::As(&name);
        let id = page.id("keratometric index");
        let check = |index| next.at_index(index).map(|_| ());
        let field = NumberField::new(id, named, &INDEX, next.index).check(&check);
        let entered = field.width(72.0).show(ui);
        problems.extend(entered.problem);
        if let Some(Commit::Entered(index)) = entered.commit
            && let Ok(again) = next.at_index(index)
        {
            *next = again;
        }
    });
}

/// The unit is chosen before the first reading; a reading is never turned into another unit.
fn unit_choice(ui: &mut Ui, page: &EyePage<'_>, next: &mut KeratometryEntry) {
    if next.has_readings() {
        let words = match next.unit {
            Some(ReadingUnit::Power) => "in D",
            _ => "in mm",
        };
        muted(ui, words);
        return;
    }
    let units = [(ReadingUnit::Radius, "mm"), (ReadingUnit::Power, "D")];
    let id = page.id("keratometry unit");
    let name = page.name("Keratometry in");
    if let Some(unit) = Segments::new(id, &name, &units, next.unit).show(ui) {
        next.unit = Some(unit);
    }
}

fn meridian(
    ui: &mut Ui,
    page: &EyePage<'_>,
    (which, next): (Which, &mut KeratometryEntry),
    problems: &mut Vec<String>,
) {
    let label = match which {
        Which::Flat => "    Flat meridian",
        Which::Steep => "    Steep meridian",
    };
    let place = page.columns;
    let other = page.other.keratometry.as_ref().map(|measured| {
        let at = match which {
            Which::Flat => measured.value.flat,
            Which::Steep => measured.value.steep,
        };
        format!("{} @ {}", plain(at.reading), at.meridian)
    });
    ui.horizontal(|ui| {
        if place.is_turned {
            other_cell(ui, page, other.as_deref());
        }
        cell(ui, place.label, |ui| ui.label(label));
        let entered = cell(ui, place.field, |ui| reading_field(ui, page, (which, next)));
        problems.extend(entered.problem);
        let (reading, meridian) = match which {
            Which::Flat => (&mut next.flat, &mut next.flat_meridian),
            Which::Steep => (&mut next.steep, &mut next.steep_meridian),
        };
        if let Some(commit) = entered.commit {
            *reading = commit.value();
        }
        let unit = match next.unit {
            Some(ReadingUnit::Radius) => "mm @",
            Some(ReadingUnit::Power) => "D @",
            None => "@",
        };
        cell(ui, place.unit, |ui| muted(ui, unit));
        let entered = cell(ui, place.method, |ui| {
            let entered = meridian_field(ui, page, (which, *meridian));
            muted(ui, "°");
            entered
        });
        problems.extend(entered.problem);
        if let Some(commit) = entered.commit {
            *meridian = commit.value();
        }
        cell(ui, place.more, |_| ());
        if !place.is_turned {
            other_cell(ui, page, other.as_deref());
        }
    });
}

/// "at 1.3375", of readings in diopters.
fn index_of(measured: &MeasuredKeratometry) -> Option<String> {
    let text = measured.value.flat.reading.to_string();
    text.split_once(" at ")
        .map(|(_, index)| format!("at {index}"))
}

/// "44.25 D", without the index: the column is narrow, and the index stands under it.
fn plain(reading: CornealReading) -> String {
    let text = reading.to_string();
    match text.split_once(" at ") {
        Some((number, _)) => number.to_owned(),
        None => text,
    }
}

fn foot(
    ui: &mut Ui,
    page: &EyePage<'_>,
    next: &mut KeratometryEntry,
    (state, current): (&mut BiometryState, Option<&MeasuredKeratometry>),
) {
    let place = page.columns;
    ui.horizontal(|ui| {
        // The other eye's index under its readings: the column is too narrow for both in a line.
        let other = page.other.keratometry.as_ref();
        let index = other.and_then(index_of);
        if place.is_turned {
            other_cell(ui, page, Some(index.as_deref().unwrap_or_default()));
        }
        cell(ui, place.label, |_| ());
        cell(ui, place.field + place.unit + measures::NEAR, |ui| {
            small(ui, current.map(derived).unwrap_or_default());
        });
        let options = METHODS.map(|method| (method, sentence(&method.to_string())));
        let id = page.id("keratometry method");
        let name = page.name("Keratometry, method");
        let width = place.method;
        let chosen = cell(ui, width, |ui| {
            Pick::new(id, &name, &options, next.method).show(ui, width)
        });
        if chosen.is_some() {
            next.method = chosen;
        }
        let key = (page.side, Item::Keratometry);
        cell(ui, place.more, |ui| {
            let button = ui
                .add_enabled_ui(current.is_some(), |ui| minor_button(ui, "…"))
                .inner;
            if button.clicked() && !state.details.remove(&key) {
                state.details.insert(key);
            }
            button.accessible_name(page.name("Keratometry, circumstances…"));
        });
        if !place.is_turned {
            other_cell(ui, page, Some(index.as_deref().unwrap_or_default()));
        }
    });
}

/// Under the rows: what an instrument can report, and who measured when.
fn circumstances(
    ui: &mut Ui,
    page: &EyePage<'_>,
    entry: &KeratometryEntry,
    measured: Option<&MeasuredKeratometry>,
) {
    low_row(ui, |ui| {
        let place = page.columns;
        ui.add_space(place.indent() + place.label + measures::NEAR);
        let mut parts: Vec<_> = [range(in_use(ui), entry), measured.map(said)]
            .into_iter()
            .flatten()
            .collect();
        if let (true, Some(other)) = (place.is_stacked, &page.other.keratometry) {
            let (flat, steep) = (other.value.flat, other.value.steep);
            let texts = [flat, steep].map(|at| format!("{} @ {}", at.reading, at.meridian));
            parts.push(format!("{} {}", page.side.other(), texts.join(", ")));
        }
        small(ui, parts.join("  ·  "));
    });
}

/// What an instrument can report, in the unit of the readings.
fn range(words: Words, entry: &KeratometryEntry) -> Option<String> {
    match (entry.unit?, entry.index) {
        (ReadingUnit::Radius, _) => Some((CORNEAL_RADIUS.range)(words)),
        (ReadingUnit::Power, Some(index)) => {
            let [flattest, steepest] = [CornealRadius::MAX, CornealRadius::MIN]
                .map(|radius| index.power(radius.millimeters()).d());
            Some(format!("{flattest:.2} to {steepest:.2} D"))
        }
        (ReadingUnit::Power, None) => None,
    }
}

/// "cylinder 0.75 D", from the two readings at 1.3375.
fn derived(measured: &MeasuredKeratometry) -> String {
    let cylinder_d = measured.value.radii().astigmatism().d();
    format!("cylinder {cylinder_d:.2} D")
}

fn details(ui: &mut Ui, page: &mut EyePage<'_>, current: &MeasuredKeratometry) {
    let mut next = current.clone();
    let mut problems = Vec::new();
    ui.horizontal_wrapped(|ui| {
        ui.add_space(page.columns.label + measures::NEAR);
        muted(ui, "readings");
        let name = page.name("Keratometry, number of readings");
        let id = page.id("keratometry readings");
        let field = NumberField::new(id, Named::As(&name), &COUNT, current.value.readings);
        let entered = field.width(44.0).show(ui);
        problems.extend(entered.problem);
        if let Some(commit) = entered.commit {
            next.value.readings = commit.value();
        }
        for (word, what, id, value) in [
            (
                "furthest apart",
                "Keratometry, largest difference",
                "repeat",
                &mut next.value.repeat_difference,
            ),
            (
                "SD",
                "Keratometry, SD of the mean",
                "spread",
                &mut next.spread,
            ),
        ] {
            muted(ui, word);
            let name = page.name(what);
            let id = page.id(("keratometry", id));
            let field = NumberField::new(id, Named::As(&name), &UNSIGNED_POWER, *value);
            let entered = field.width(56.0).show(ui);
            problems.extend(entered.problem);
            if let Some(commit) = entered.commit {
                *value = commit.value();
            }
            muted(ui, "D");
        }
        let on_by = (current.on, current.by.as_deref());
        let item = (&*page, Item::Keratometry, "Keratometry");
        (next.on, next.by) = who_and_when(ui, item, on_by, &mut problems);
    });
    for why in problems {
        problem(ui, &why);
    }
    if next != *current {
        let measurement = Measurement::Keratometry(Some(Box::new(next)));
        page.commands.push(Command::Measure(page.side, measurement));
    }
}
