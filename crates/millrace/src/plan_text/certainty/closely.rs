//! Each formula and all of them on one power.

use millrace_core::certainty::{Distribution, Level};
use millrace_core::iol_power::Formula;
use millrace_core::plan::{Because, DIFFERENCE_SAID, PowerCertainty, SHOWN_BANDS};
use millrace_core::quantity::{Diopters, HundredthDiopters};

use super::super::chance;
use super::super::ladder::column_name;
use super::{band_names, range};
use crate::page::{HEADING, Page};

pub(super) fn write(
    page: &mut Page,
    closely: &PowerCertainty,
    target: HundredthDiopters,
    planned_by: Option<Formula>,
) {
    page.blank();
    let because = match closely.because {
        Because::Chosen => "chosen",
        Because::Proposed => "proposed by the formula planned by; none is chosen",
    };
    let title = format!("{HEADING}Power {}{HEADING:#} ({because})", closely.power);
    page.hanging(" ", 3, &title);
    let header: Vec<String> = [
        "Formula",
        "predicted",
        "SD",
        "50 % range",
        "80 % range",
        "95 % range",
    ]
    .map(str::to_owned)
    .into_iter()
    .chain(band_names().nth(1))
    .collect();
    let mut predictions: Vec<_> = closely.predictions.iter().collect();
    // Stable: the others keep the order of every table.
    predictions.sort_by_key(|(formula, _)| Some(*formula) != planned_by);
    let mut rows: Vec<_> = predictions
        .iter()
        .map(|(formula, prediction)| {
            let mark = if Some(*formula) == planned_by {
                "▸"
            } else {
                " "
            };
            let name = format!("{mark} {}", column_name(*formula));
            row(name, &prediction.distribution(), target)
        })
        .collect();
    let pooled = &closely.budget.distribution;
    if 1 < rows.len() {
        rows.push(row(format!("  mean of {}", rows.len()), pooled, target));
    }
    page.table(&header, &rows);
    if let Some((formula, prediction)) = predictions.first()
        && Some(*formula) == planned_by
    {
        write_difference(page, *formula, &prediction.distribution(), pooled);
    }
}

fn row(name: String, distribution: &Distribution, target: HundredthDiopters) -> Vec<String> {
    let mut row = vec![
        name,
        distribution.mean().to_string(),
        format!("{:.2} D", distribution.deviation().d()),
    ];
    row.extend(Level::ALL.map(|level| range(distribution, level)));
    let [_, band, _] = SHOWN_BANDS;
    row.push(chance(
        distribution.chance_within(target.diopters(), band.diopters()),
    ));
    row
}

/// One power, two predictions: said where they differ enough to be taken for each other's error.
fn write_difference(page: &mut Page, formula: Formula, own: &Distribution, pooled: &Distribution) {
    let apart = Diopters::new((own.mean() - pooled.mean()).d().abs());
    if apart <= DIFFERENCE_SAID.diopters() {
        return;
    }
    let text = format!(
        "{}, which this plan goes by, predicts {}; the mean of all formulas is {}: {:.2} D apart (said \
         from {:.2} D, house value).",
        formula.name(),
        own.mean(),
        pooled.mean(),
        apart.d(),
        DIFFERENCE_SAID.diopters().d()
    );
    page.hanging(" ▲ ", 3, &text);
}
