//! Both principal meridians: readings in mm or in D with the index, meridians, method.

mod details;

use egui::{Id, Ui};
use millrace_core::biometry::{CornealReading, Item, Keratometry, Slot};
use millrace_core::case::Command;
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::desk::biometry as say;
use millrace_wording::measurements::{at_meridian, head as row_head};
use millrace_wording::{Show as _, Words, quantity};

use super::circumstances::Circumstances;
use super::keratometry_entry::{KeratometryEntry, MeasuredKeratometry, ReadingUnit};
use super::keratometry_fields::{Which, meridian_field, reading_field};
use super::row::{asks_details, circumstances, more_cell, other_cell, turn_details};
use super::{BiometryState, EyePage};
use crate::theme::measures;
use crate::widgets::quantity_kind::{INDEX, in_words};
use crate::widgets::value_order::{self, Step};
use crate::widgets::{Commit, Named, NumberField, Segments, cell, muted};
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
    /// The fields of its four numbers.
    fn fields(self) -> [Id; 4] {
        let id = |which, what| self.page.id((self.slot.item, which, what));
        [
            id(Which::Flat, "reading"),
            id(Which::Flat, "meridian"),
            id(Which::Steep, "reading"),
            id(Which::Steep, "meridian"),
        ]
    }

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
    if asks_details(ui, &here.fields()) {
        turn_details(state, key);
    }
    let entered = || {
        let kept = state.keratometry.get(&key).cloned();
        let sitting = state.sitting.get(page.side);
        kept.unwrap_or_default().in_sitting(sitting, slot.item)
    };
    let before = here.current.map_or_else(entered, KeratometryEntry::of);
    let mut next = before.clone();
    let mut problems = Vec::new();
    head(ui, here, &mut next, state, &mut problems);
    for which in [Which::Flat, Which::Steep] {
        meridian(ui, here, which, &mut next, &mut problems);
    }
    foot(ui, here, &next, &problems);
    if exchange(ui, here, &next) {
        next = next.exchanged();
    }
    let changes = details::show(ui, here, &mut next, state);
    let mut changes: Vec<_> = changes.into_iter().collect();
    changes.extend(take(here, state, &before, next));
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
    let sitting = state.sitting.get_mut(here.page.side);
    if here.current.is_none() && here.slot.item == Item::Keratometry {
        (sitting.unit, sitting.index) = (next.unit, next.index);
    }
    let whole = next.whole(here.current, sitting);
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

fn head(
    ui: &mut Ui,
    here: Here<'_>,
    next: &mut KeratometryEntry,
    state: &mut BiometryState,
    problems: &mut Vec<String>,
) {
    let page = here.page;
    let place = page.columns;
    ui.horizontal(|ui| {
        let index = here.other.and_then(|other| index_of(page.words, other));
        let index = index.unwrap_or_default();
        if place.is_turned {
            other_cell(
                ui,
                page,
                &row_head(page.words, here.slot.item),
                Some(&index),
            );
        }
        cell(ui, place.label, |ui| {
            ui.label(row_head(page.words, here.slot.item))
        });
        let width = place.own() - place.label - place.more - 2.0 * measures::NEAR;
        cell(ui, width, |ui| {
            unit_and_index(ui, here, next, state, problems);
        });
        let name = here.name(say::circumstances_head, say::circumstances);
        more_cell(ui, page, state, (here.slot.item, &name));
        if !place.is_turned {
            other_cell(
                ui,
                page,
                &row_head(page.words, here.slot.item),
                Some(&index),
            );
        }
    });
}

/// What the readings are in: asked once, with an index that already says "D"; then it is text.
fn unit_and_index(
    ui: &mut Ui,
    here: Here<'_>,
    next: &mut KeratometryEntry,
    state: &BiometryState,
    problems: &mut Vec<String>,
) {
    let (page, words) = (here.page, here.page.words);
    let is_open = state.details.contains(&(page.side, here.slot.item));
    let is_said = next.unit == Some(ReadingUnit::Power) && next.index.is_some();
    if next.unit != Some(ReadingUnit::Radius) {
        match next.index.filter(|_| !is_open) {
            Some(index) => {
                muted(ui, say::in_diopters(words));
                muted(ui, say::at_index(words, index));
            }
            None => index_field(ui, here, next, problems),
        }
    } else if next.has_readings() {
        muted(ui, say::in_millimeters(words));
    }
    let is_said = is_said || next.unit == Some(ReadingUnit::Power) && next.index.is_some();
    if next.has_readings() || (is_said && !is_open) {
        return;
    }
    // The unit is chosen before the first reading; a reading is never turned into another unit.
    let units = [(ReadingUnit::Radius, "mm"), (ReadingUnit::Power, "D")];
    let id = page.id((here.slot.item, "unit"));
    let name = here.name(say::in_unit_head, say::in_unit);
    muted(ui, say::in_unit(words));
    let chosen = Segments::new(id, &name, &units, next.unit).show(ui);
    value_order::pass_choice(ui, id, next.unit.as_ref());
    if let Some(unit) = chosen {
        next.unit = Some(unit);
        next.index = next.index.filter(|_| unit == ReadingUnit::Power);
    }
}

fn index_field(
    ui: &mut Ui,
    here: Here<'_>,
    next: &mut KeratometryEntry,
    problems: &mut Vec<String>,
) {
    let page = here.page;
    muted(ui, say::index(page.words));
    let name = here.name(say::index_head, say::index);
    let id = page.id((here.slot.item, "index"));
    let check = |index| {
        let again = next.at_index(index).map(|_| ());
        again.map_err(in_words(page.words))
    };
    let field = NumberField::new(id, Named::As(&name), &INDEX, next.index).check(&check);
    let entered = field.width(72.0).show(ui);
    problems.extend(entered.problem);
    match entered.commit {
        Some(Commit::Entered(index)) => {
            if let Ok(again) = next.at_index(index) {
                *next = again;
                next.unit = Some(ReadingUnit::Power);
            }
        }
        Some(Commit::Cleared) if !next.has_readings() => {
            (next.unit, next.index) = (None, None);
        }
        Some(Commit::Cleared) | None => {}
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
        Which::Flat => say::k1(page.words),
        Which::Steep => say::k2(page.words),
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
            other_cell(ui, page, label.trim_start(), other.as_deref());
        }
        cell(ui, place.label, |ui| ui.label(&label));
        let entered = cell(ui, place.field, |ui| reading_field(ui, here, which, next));
        problems.extend(entered.problem);
        let (reading, meridian) = match which {
            Which::Flat => (&mut next.flat, &mut next.flat_meridian),
            Which::Steep => (&mut next.steep, &mut next.steep_meridian),
        };
        if let Some(commit) = entered.commit {
            *reading = commit.value();
            if let (None, Some(CornealReading::Radius(_))) = (next.unit, &reading) {
                next.unit = Some(ReadingUnit::Radius);
            }
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
            other_cell(ui, page, label.trim_start(), other.as_deref());
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

/// Under the rows: what is wrong, what is missing, and how it came to be.
fn foot(ui: &mut Ui, here: Here<'_>, next: &KeratometryEntry, problems: &[String]) {
    let (page, words) = (here.page, here.page.words);
    for why in problems {
        page.wrong(ui, why);
    }
    let current = here.current.map(Circumstances::of);
    let other = here.other.map(|other| {
        let (flat, steep) = (other.value.flat, other.value.steep);
        let texts = [flat, steep].map(|at| at_meridian(words, at.reading, at.meridian));
        words.list(texts)
    });
    if let Some(current) = here.current {
        page.tell(ui, &derived(words, current));
    }
    circumstances(ui, page, current.as_ref(), other.as_deref());
    match next.contradiction() {
        Some(error) => page.wrong(ui, &error.show(words)),
        None if next.has_numbers() && here.current.is_none() => {
            page.tell(ui, &sentence(&next.why_not_whole(words)));
        }
        None => {}
    }
}

/// Where K1 is the steeper one: the offer to exchange both; whether it is taken.
fn exchange(ui: &mut Ui, here: Here<'_>, next: &KeratometryEntry) -> bool {
    let (page, words) = (here.page, here.page.words);
    if next.contradiction().is_none() || next.exchanged().contradiction().is_some() {
        return false;
    }
    ui.horizontal(|ui| {
        ui.add_space(page.columns.indent() + page.columns.label + measures::NEAR);
        let name = here.name(say::exchange_head, say::exchange);
        let id = page.id((here.slot.item, "exchange"));
        let button = value_order::act(ui, id, say::exchange_head(words), Step::Act);
        let is_taken = button.clicked();
        if is_taken {
            let first = page.id((here.slot.item, Which::Flat, "reading"));
            ui.memory_mut(|memory| memory.request_focus(first));
        }
        button.accessible_name(name);
        is_taken
    })
    .inner
}

/// "cylinder 0.75 D", from the two readings at 1.3375.
fn derived(words: Words, measured: &MeasuredKeratometry) -> String {
    let astigmatism = measured.value.radii().astigmatism();
    say::cylinder(words, quantity::computed_unsigned(words, astigmatism))
}
