//! What the chosen cylinder leaves when the lens turns after the operation.

use millrace_core::astigmatism::ToricPrediction;
use millrace_core::astigmatism::rotation::{added_by_turn, no_better_from};
use millrace_core::plan::ToricPlan;
use millrace_wording::text::toric as say;

use super::figures::{cylinder_cell, size};
use crate::page::Page;

/// Turns shown, degrees.
const SHOWN: [u16; 8] = [1, 2, 3, 5, 10, 15, 20, 30];

pub(super) fn write(page: &mut Page, toric: &ToricPlan, prediction: &ToricPrediction) {
    let Some(chosen) = &prediction.chosen else {
        return;
    };
    let words = page.words();
    let choice = chosen.choice;
    let at_cornea = prediction.at_corneal_plane(choice.cylinder.diopters());
    page.blank();
    if toric.rotations.is_empty() {
        page.hanging(" ✕ ", 3, say::turn_not_computed(words));
        return;
    }
    let header = [
        say::column_turned,
        say::column_counter_clockwise,
        say::column_clockwise,
        say::column_error_added,
    ];
    let rows: Vec<_> = toric
        .rotations
        .iter()
        .filter(|turn| SHOWN.contains(&turn.degrees))
        .map(|turn| {
            vec![
                format!("{:>4}°", turn.degrees),
                cylinder_cell(turn.counter_clockwise.spectacles(), words),
                cylinder_cell(turn.clockwise.spectacles(), words),
                size(added_by_turn(at_cornea, turn.degrees), words),
            ]
        })
        .collect();
    page.table(&header.map(|column| column(words).to_owned()), &rows);
    page.blank();
    let helps = match no_better_from(prediction.net.cylinder(), at_cornea) {
        Some(degrees) => say::no_better_from(words, words.fixed(degrees, 0)),
        None => say::at_no_axis(words).to_owned(),
    };
    let at_cornea = size(at_cornea, words);
    let text = say::turn(words, choice.cylinder, choice.axis, at_cornea, helps);
    page.paragraph(1, &text);
}
