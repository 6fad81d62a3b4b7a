//! Both principal meridians: readings in mm or in D with the index, meridians, method.

mod details;

use egui::Ui;
use millrace_core::biometry::{CornealRadius, CornealReading, Item, Keratometry, Slot};
use millrace_core::case::Command;
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::desk::biometry as say;
use millrace_wording::desk::widgets::range as range_of;
use millrace_wording::measurements::{at_meridian, head as row_head};
use millrace_wording::{Show as _, Words, quantity};

use super::keratometry_entry::{KeratometryEntry, MeasuredKeratometry, ReadingUnit};
use super::keratometry_fields::{Which, meridian_field, reading_field};
use super::row::{other_cell, said};
use super::{BiometryState, EyePage};
use crate::theme::measures;
use crate::widgets::quantity_kind::{CORNEAL_RADIUS, INDEX, in_words};
use crate::widgets::{
    Commit, Named, NumberField, Pick, Segments, cell, low_row, minor_button, muted, problem, small,
};
use millrace_wording::sentence;

/// The place of one of the two keratometries.
pub(super) type KeratometrySlot = Slot<Keratometry, HundredthDiopters>;

/// One of the two keratometries of an eye.
#[derive(Clone, Copy)]
pub(super) struct Here<'a> {
    pub(super) page: &'a EyePage<'a>,
    pub(super) slot: &'static KeratometrySlot,
    pub(super) current: Option<&'a MeasuredKeratometry>,
    pub(super) other: Option<&'a MeasuredKeratometry>,
}

/// A text of the wording.
type Text = fn(Words) -> &'static str;

impl Here<'_> {
    /// What a field is called: that of the second keratometry names it first.
    pub(super) fn name(self, plain: Text, second: Text) -> String {
        let page = self.page;
        let words = page.words;
        match self.slot.item {
            Item::SecondKeratometry => {
                let keratometry = row_head(words, self.slot.item);
                page.name(&say::second_name(words, keratometry, second(words)))
            }
            _ => page.name(plain(words)),
        }
    }
}

/// The second keratometry, which serves comparison alone: its rows open when they are wanted.
pub(super) fn show_second(
    ui: &mut Ui,
    page: &mut EyePage<'_>,
    state: &mut BiometryState,
    slot: &'static KeratometrySlot,
) {
    let is_open = *state.second_open.get(page.side);
    let is_there = [page.eye, page.other]
        .into_iter()
        .any(|eye| (slot.of)(eye).is_some());
    if is_open || is_there {
        show(ui, page, state, slot);
        return;
    }
    ui.horizontal(|ui| {
        ui.add_space(page.columns.indent());
        let name = say::second_keratometry(page.words);
        let button = minor_button(ui, name);
        if button.clicked() {
            *state.second_open.get_mut(page.side) = true;
            ui.request_repaint();
        }
        button.accessible_name(page.name(name));
    });
    ui.add_space(measures::TIGHT);
}

pub(super) fn show(
    ui: &mut Ui,
    page: &mut EyePage<'_>,
    state: &mut BiometryState,
    slot: &'static KeratometrySlot,
) {
    let here = Here {
        page,
        slot,
        current: (slot.of)(page.eye),
        other: (slot.of)(page.other),
    };
    let key = (page.side, slot.item);
    let kept = || state.keratometry.get(&key).cloned().unwrap_or_default();
    let before = here.current.map_or_else(kept, KeratometryEntry::of);
    let mut next = before.clone();
    if next.method.is_none() {
        let methods = slot.item.methods();
        // Two keratometries by one method are none to compare.
        next.method = state
            .sitting
            .method
            .filter(|method| methods.contains(method) && slot.item == Item::Keratometry);
    }
    let mut problems = Vec::new();
    head(ui, here, &mut next, &mut problems);
    for which in [Which::Flat, Which::Steep] {
        meridian(ui, here, which, &mut next, &mut problems);
    }
    foot(ui, here, &mut next, state);
    circumstances(ui, here, &next);
    let words = page.words;
    let contradiction = next.contradiction();
    problems.extend(contradiction.map(|error| error.show(words).into_owned()));
    for why in problems {
        problem(ui, &why);
    }
    if next.has_numbers() && here.current.is_none() && next.contradiction().is_none() {
        small(ui, sentence(&next.why_not_whole(words)));
    }
    let mut changes = Vec::from_iter(take(here, state, &before, next));
    if state.details.contains(&key)
        && let Some(current) = here.current
    {
        changes.extend(details::show(ui, here, current));
    }
    ui.add_space(measures::TIGHT);
    page.commands.extend(changes);
}

/// What became of the entry: recorded when whole, kept here until then.
fn take(
    here: Here<'_>,
    state: &mut BiometryState,
    before: &KeratometryEntry,
    next: KeratometryEntry,
) -> Option<Command> {
    if *before == next {
        return None;
    }
    let whole = next.whole(here.current, &state.sitting);
    let kept = if whole.is_some() {
        KeratometryEntry::default()
    } else {
        next
    };
    state
        .keratometry
        .insert((here.page.side, here.slot.item), kept);
    let changes = whole.is_some() || here.current.is_some();
    changes.then(|| Command::Measure(here.page.side, (here.slot.set)(whole)))
}

fn head(ui: &mut Ui, here: Here<'_>, next: &mut KeratometryEntry, problems: &mut Vec<String>) {
    let page = here.page;
    ui.horizontal(|ui| {
        ui.add_space(page.columns.indent());
        cell(ui, page.columns.label, |ui| {
            ui.label(row_head(page.words, here.slot.item))
        });
        unit_choice(ui, here, next);
        if next.unit != Some(ReadingUnit::Power) {
            return;
        }
        muted(ui, say::index(page.words));
        let name = here.name(say::index_head, say::index);
        let named = Named::As(&name);
        let id = page.id((here.slot.item, "index"));
        let check = |index| {
            let again = next.at_index(index).map(|_| ());
            again.map_err(in_words(page.words))
        };
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
fn unit_choice(ui: &mut Ui, here: Here<'_>, next: &mut KeratometryEntry) {
    let page = here.page;
    if next.has_readings() {
        let text = match next.unit {
            Some(ReadingUnit::Power) => say::in_diopters(page.words),
            _ => say::in_millimeters(page.words),
        };
        muted(ui, text);
        return;
    }
    let units = [(ReadingUnit::Radius, "mm"), (ReadingUnit::Power, "D")];
    let id = page.id((here.slot.item, "unit"));
    let name = here.name(say::in_unit_head, say::in_unit);
    if let Some(unit) = Segments::new(id, &name, &units, next.unit).show(ui) {
        next.unit = Some(unit);
    }
}

fn meridian(
    ui: &mut Ui,
    here: Here<'_>,
    which: Which,
    next: &mut KeratometryEntry,
    problems: &mut Vec<String>,
) {
    let page = here.page;
    let label = match which {
        Which::Flat => say::flat_meridian_head(page.words),
        Which::Steep => say::steep_meridian_head(page.words),
    };
    let label = format!("    {label}");
    let place = page.columns;
    let other = here.other.map(|measured| {
        let at = match which {
            Which::Flat => measured.value.flat,
            Which::Steep => measured.value.steep,
        };
        at_meridian(page.words, plain(page.words, at.reading), at.meridian)
    });
    ui.horizontal(|ui| {
        if place.is_turned {
            other_cell(ui, page, other.as_deref());
        }
        cell(ui, place.label, |ui| ui.label(label));
        let entered = cell(ui, place.field, |ui| reading_field(ui, here, which, next));
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
            let entered = meridian_field(ui, here, which, *meridian);
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
fn index_of(words: Words, measured: &MeasuredKeratometry) -> Option<String> {
    match measured.value.flat.reading {
        CornealReading::Power { index, .. } => Some(say::at_index(words, index)),
        CornealReading::Radius(_) => None,
    }
}

/// "44.25 D", without the index: the column is narrow, and the index stands under it.
fn plain(words: Words, reading: CornealReading) -> String {
    match reading {
        CornealReading::Power { power, .. } => quantity::unsigned(words, power),
        CornealReading::Radius(radius) => radius.show(words).into_owned(),
    }
}

fn foot(ui: &mut Ui, here: Here<'_>, next: &mut KeratometryEntry, state: &mut BiometryState) {
    let page = here.page;
    let place = page.columns;
    ui.horizontal(|ui| {
        // The other eye's index under its readings: the column is too narrow for both in a line.
        let index = here.other.and_then(|other| index_of(page.words, other));
        if place.is_turned {
            other_cell(ui, page, Some(index.as_deref().unwrap_or_default()));
        }
        cell(ui, place.label, |_| ());
        cell(ui, place.field + place.unit + measures::NEAR, |ui| {
            let derived = here.current.map(|current| derived(page.words, current));
            small(ui, derived.unwrap_or_default());
        });
        let methods = here.slot.item.methods().iter();
        let options: Vec<_> = methods
            .map(|method| (*method, sentence(&method.show(page.words))))
            .collect();
        let id = page.id((here.slot.item, "method"));
        let name = here.name(say::method_head, say::method);
        let width = place.method;
        let chosen = cell(ui, width, |ui| {
            Pick::new(id, &name, &options, next.method).show(ui, width)
        });
        if chosen.is_some() {
            next.method = chosen;
        }
        let key = (page.side, here.slot.item);
        cell(ui, place.more, |ui| {
            let button = ui
                .add_enabled_ui(here.current.is_some(), |ui| minor_button(ui, "…"))
                .inner;
            if button.clicked() && !state.details.remove(&key) {
                state.details.insert(key);
            }
            let name = here.name(say::circumstances_head, say::circumstances);
            button.accessible_name(name);
        });
        if !place.is_turned {
            other_cell(ui, page, Some(index.as_deref().unwrap_or_default()));
        }
    });
}

/// Under the rows: what an instrument can report, and who measured when.
fn circumstances(ui: &mut Ui, here: Here<'_>, entry: &KeratometryEntry) {
    let page = here.page;
    low_row(ui, |ui| {
        let place = page.columns;
        ui.add_space(place.indent() + place.label + measures::NEAR);
        let mut parts: Vec<_> = [
            range(page.words, entry),
            here.current.map(|current| said(page.words, current)),
        ]
        .into_iter()
        .flatten()
        .collect();
        if let (true, Some(other)) = (place.is_stacked, here.other) {
            let (flat, steep) = (other.value.flat, other.value.steep);
            let words = page.words;
            let texts = [flat, steep].map(|at| at_meridian(words, at.reading, at.meridian));
            parts.push(say::of_other(words, page.side.other(), words.list(texts)));
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
            let steepest = quantity::diopters(words, words.fixed(steepest, 2));
            Some(range_of(words, words.fixed(flattest, 2), steepest))
        }
        (ReadingUnit::Power, None) => None,
    }
}

/// "cylinder 0.75 D", from the two readings at 1.3375.
fn derived(words: Words, measured: &MeasuredKeratometry) -> String {
    let astigmatism = measured.value.radii().astigmatism();
    say::cylinder(words, quantity::computed_unsigned(words, astigmatism))
}
