//! How a keratometry came to be: readings, how far they lie apart, who and when.

use egui::Ui;
use millrace_core::case::Command;
use millrace_wording::desk::biometry as say;
use millrace_wording::measurements::head;

use super::super::BiometryState;
use super::super::keratometry_entry::KeratometryEntry;
use super::super::row::{method_id, method_list, who_and_when};
use super::{Here, MeasuredKeratometry, Text};
use crate::theme::measures;
use crate::widgets::quantity_kind::{COUNT, UNSIGNED_POWER};
use crate::widgets::{Named, NumberField, muted, value_order};

/// The method and, of what is recorded, the circumstances: when they are open, and the method also while
/// nothing but it is missing.
pub(super) fn show(
    ui: &mut Ui,
    here: Here<'_>,
    next: &mut KeratometryEntry,
    state: &mut BiometryState,
) -> Option<Command> {
    let (page, item) = (here.page, here.slot.item);
    let is_open = state.details.contains(&(page.side, item));
    let is_asked = next.lacks_the_method_alone();
    if !is_open && !is_asked && !value_order::is_in_list(ui, method_id(page, item)) {
        return None;
    }
    let mut changed = None;
    let mut problems = Vec::new();
    ui.horizontal_wrapped(|ui| {
        ui.add_space(page.columns.indent() + page.columns.label + measures::NEAR);
        let name = head(page.words, item);
        if let Some(chosen) = method_list(ui, page, (item, &name), next.method) {
            next.method = Some(chosen);
            if here.current.is_none() {
                let sitting = state.sitting.get_mut(page.side);
                sitting.methods.insert(item, chosen);
            }
        }
        if let Some(current) = here.current.filter(|_| is_open) {
            let mut measured = current.clone();
            readings(ui, here, &mut measured, &mut problems);
            who_and_when(ui, page, item, &mut measured, &mut problems);
            changed = Some(measured).filter(|measured| measured != current);
        }
    });
    for why in problems {
        page.wrong(ui, &why);
    }
    changed.map(|changed| Command::Measure(page.side, (here.slot.set)(Some(changed))))
}

/// How many readings, and how far they lie apart.
fn readings(
    ui: &mut Ui,
    here: Here<'_>,
    next: &mut MeasuredKeratometry,
    problems: &mut Vec<String>,
) {
    let page = here.page;
    muted(ui, say::readings_taken(page.words));
    let name = here.name(say::number_of_readings_head, say::number_of_readings);
    let id = page.id((here.slot.item, "readings"));
    let field = NumberField::new(id, Named::As(&name), &COUNT, next.value.readings);
    let entered = field.width(44.0).show(ui);
    problems.extend(entered.problem);
    if let Some(commit) = entered.commit {
        next.value.readings = commit.value();
    }
    let names: [[Text; 3]; 2] = [
        [
            say::furthest_apart,
            say::largest_difference_head,
            say::largest_difference,
        ],
        [
            say::deviation,
            say::mean_deviation_head,
            say::mean_deviation,
        ],
    ];
    for ([word, what, second], (key, value)) in names.into_iter().zip([
        ("largest difference", &mut next.value.repeat_difference),
        ("SD of the mean", &mut next.spread),
    ]) {
        muted(ui, word(page.words));
        let name = here.name(what, second);
        let id = page.id((here.slot.item, key));
        let field = NumberField::new(id, Named::As(&name), &UNSIGNED_POWER, *value);
        let entered = field.width(56.0).show(ui);
        problems.extend(entered.problem);
        if let Some(commit) = entered.commit {
            *value = commit.value();
        }
        muted(ui, "D");
    }
}
