//! How a keratometry came to be: readings, how far they lie apart, who and when.

use egui::Ui;
use millrace_core::case::Command;
use millrace_wording::desk::biometry as say;

use super::super::row::who_and_when;
use super::{Here, MeasuredKeratometry, Text};
use crate::theme::measures;
use crate::widgets::quantity_kind::{COUNT, UNSIGNED_POWER};
use crate::widgets::{Named, NumberField, muted, problem};

/// The circumstances, when they are open.
pub(super) fn show(ui: &mut Ui, here: Here<'_>, current: &MeasuredKeratometry) -> Option<Command> {
    let page = here.page;
    let mut next = current.clone();
    let mut problems = Vec::new();
    ui.horizontal_wrapped(|ui| {
        ui.add_space(page.columns.label + measures::NEAR);
        muted(ui, say::readings_taken(page.words));
        let name = here.name(say::number_of_readings_head, say::number_of_readings);
        let id = page.id((here.slot.item, "readings"));
        let field = NumberField::new(id, Named::As(&name), &COUNT, current.value.readings);
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
        who_and_when(ui, page, here.slot.item, &mut next, &mut problems);
    });
    for why in problems {
        problem(ui, &why);
    }
    (next != *current).then(|| Command::Measure(page.side, (here.slot.set)(Some(next))))
}
