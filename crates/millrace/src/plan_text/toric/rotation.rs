//! What the chosen cylinder leaves when the lens turns after the operation.

use millrace_core::astigmatism::ToricPrediction;
use millrace_core::astigmatism::rotation::{added_by_turn, no_better_from};
use millrace_core::plan::ToricPlan;

use super::figures::{cylinder_cell, size};
use crate::page::Page;

/// Turns shown, degrees.
const SHOWN: [u16; 8] = [1, 2, 3, 5, 10, 15, 20, 30];

pub(super) fn write(page: &mut Page, toric: &ToricPlan, prediction: &ToricPrediction) {
    let Some(chosen) = &prediction.chosen else {
        return;
    };
    let choice = chosen.choice;
    let at_cornea = prediction.at_corneal_plane(choice.cylinder.diopters());
    page.blank();
    if toric.rotations.is_empty() {
        page.hanging(" ✕ ", 3, "What a turn of the lens leaves is not computed.");
        return;
    }
    let header = [
        "Lens turned by",
        "counter-clockwise",
        "clockwise",
        "error added",
    ];
    let rows: Vec<_> = toric
        .rotations
        .iter()
        .filter(|turn| SHOWN.contains(&turn.degrees))
        .map(|turn| {
            vec![
                format!("{:>4}°", turn.degrees),
                cylinder_cell(turn.counter_clockwise.spectacles()),
                cylinder_cell(turn.clockwise.spectacles()),
                size(added_by_turn(at_cornea, turn.degrees)),
            ]
        })
        .collect();
    page.table(&header.map(str::to_owned), &rows);
    page.blank();
    let helps = match no_better_from(prediction.net.cylinder(), at_cornea) {
        Some(degrees) => format!(
            "From {degrees:.0}° off the suggested axis the eye is no better off than without a cylinder \
             in the lens."
        ),
        None => "At no axis is the eye better off than without a cylinder in the lens.".to_owned(),
    };
    let text = format!(
        "Residual cylinder of {} after a turn from {}, facing the patient (the sense of a turn is the \
         same from the surgeon's seat). Error added: what the turn adds to the refraction, as a vector; \
         the lens corrects {} at the cornea. {helps}",
        choice.cylinder,
        choice.axis,
        size(at_cornea)
    );
    page.paragraph(1, &text);
}
