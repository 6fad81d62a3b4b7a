//! What the chosen cylinder leaves when the lens turns after the operation.

use millrace_core::astigmatism::ToricPrediction;
use millrace_core::astigmatism::rotation::share_lost;
use millrace_core::plan::ToricPlan;

use super::figures::cylinder_cell;
use crate::page::Page;

/// Turns shown, degrees.
const SHOWN: [u16; 8] = [1, 2, 3, 5, 10, 15, 20, 30];

pub(super) fn write(page: &mut Page, toric: &ToricPlan, prediction: &ToricPrediction) {
    let Some(chosen) = &prediction.chosen else {
        return;
    };
    let choice = chosen.choice;
    page.blank();
    if toric.rotations.is_empty() {
        page.hanging(" ✕ ", 3, "What a turn of the lens leaves is not computed.");
        return;
    }
    let header = [
        "Lens turned by",
        "counter-clockwise",
        "clockwise",
        "share lost",
    ];
    let rows = toric
        .rotations
        .iter()
        .filter(|turn| SHOWN.contains(&turn.degrees))
        .map(|turn| {
            vec![
                format!("{:>4}°", turn.degrees),
                cylinder_cell(turn.counter_clockwise.spectacles()),
                cylinder_cell(turn.clockwise.spectacles()),
                format!("{:.1} %", share_lost(turn.degrees) * 100.0),
            ]
        })
        .collect();
    page.table(&header.map(str::to_owned), rows, &[]);
    page.blank();
    let text = format!(
        "Residual cylinder of {} after a turn from {}, facing the patient; share of the lens's own \
         cylinder ({} at the cornea) that the turn takes.",
        choice.cylinder,
        choice.axis,
        prediction.at_corneal_plane(choice.cylinder.diopters())
    );
    page.paragraph(1, &text);
}
