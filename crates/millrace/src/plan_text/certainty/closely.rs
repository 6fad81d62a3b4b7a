//! Each formula and all of them on one power.

use millrace_core::certainty::{Distribution, Level};
use millrace_core::iol_power::Formula;
use millrace_core::plan::{Because, DIFFERENCE_SAID, PowerCertainty, SHOWN_BANDS};
use millrace_core::quantity::{Diopters, HundredthDiopters};
use millrace_wording::iol_power::column_name;
use millrace_wording::text::certainty as say;
use millrace_wording::{Show as _, Words, quantity};

use super::super::chance;
use super::{band_names, range};
use crate::page::{HEADING, Page};

pub(super) fn write(
    page: &mut Page,
    closely: &PowerCertainty,
    target: HundredthDiopters,
    planned_by: Option<Formula>,
) {
    let words = page.words();
    page.blank();
    let because = match closely.because {
        Because::Chosen => say::power_chosen(words),
        Because::Proposed => say::power_proposed(words),
    };
    let power = say::power(words, closely.power);
    let title = format!("{HEADING}{power}{HEADING:#} ({because})");
    page.hanging(" ", 3, &title);
    let header: Vec<String> = [
        say::column_formula(words),
        say::predicted(words),
        say::column_deviation(words),
        say::range_50(words),
        say::range_80(words),
        say::range_95(words),
    ]
    .map(str::to_owned)
    .into_iter()
    .chain(band_names(words).nth(1))
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
            let name = format!("{mark} {}", column_name(words, *formula));
            row(name, &prediction.distribution(), target, words)
        })
        .collect();
    let pooled = &closely.budget.distribution;
    if 1 < rows.len() {
        let mean = say::mean_of(words, rows.len());
        rows.push(row(format!("  {mean}"), pooled, target, words));
    }
    page.table(&header, &rows);
    if let Some((formula, prediction)) = predictions.first()
        && Some(*formula) == planned_by
    {
        write_difference(page, *formula, &prediction.distribution(), pooled);
    }
}

fn row(
    name: String,
    distribution: &Distribution,
    target: HundredthDiopters,
    words: Words,
) -> Vec<String> {
    let mut row = vec![
        name,
        distribution.mean().show(words).into_owned(),
        quantity::computed_unsigned(words, distribution.deviation()),
    ];
    row.extend(Level::ALL.map(|level| range(distribution, level, words)));
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
    let words = page.words();
    let apart = quantity::computed_unsigned(words, apart);
    let limit = quantity::unsigned(words, DIFFERENCE_SAID);
    let text = say::differ(words, formula, own.mean(), pooled.mean(), apart, limit);
    page.hanging(" ▲ ", 3, &text);
}
