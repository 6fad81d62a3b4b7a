//! How sure: what the refraction after each power may turn out to be, what it rests on, and what a
//! repeated measurement would gain.

mod basis;
mod budget;
mod closely;

use millrace_core::certainty::{Distribution, Level};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::plan::{BANDS_SOURCE, HYPEROPIC, Plan, PlanCertainty, SHOWN_BANDS};
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::text::{certainty as say, plan as say_of_plan};
use millrace_wording::{Show as _, Words, quantity};

use super::chance;
use crate::page::{Page, UNBREAKABLE};

pub(super) fn write(page: &mut Page, plan: &Plan, planned_by: Option<Formula>) {
    let (Ok(ladder), Some(certainty)) = (&plan.ladder, &plan.certainty) else {
        return;
    };
    let words = page.words();
    page.heading(say::heading(words));
    let columns = &certainty.ladder.columns;
    let speaking = columns.iter().filter(|column| column.basis.is_ok()).count();
    let withheld = &certainty.ladder.withheld;
    if !withheld.is_empty() {
        let reasons = words.clauses(withheld);
        page.hanging(" ▲ ", 3, &say::withheld(words, reasons));
        let sources: Vec<_> = withheld.iter().map(|because| because.source()).collect();
        let cited = page.cite(&sources);
        page.hanging(" ", 3, &say_of_plan::source(words, cited));
    } else if speaking == 0 {
        page.paragraph(1, say::no_distribution(words));
    } else {
        write_rungs(page, ladder, certainty, speaking);
        if let Some(closely) = &certainty.closely {
            closely::write(page, closely, ladder.target, planned_by);
            basis::write_tendencies(page, columns);
            budget::write(page, closely);
        }
        basis::write(page, certainty);
    }
    basis::write_silent(page, columns);
}

/// What all formulas say together of every power.
fn write_rungs(page: &mut Page, ladder: &Ladder, certainty: &PlanCertainty, count: usize) {
    let words = page.words();
    let (text, mean) = if count == 1 {
        (
            say::one_formula(words, ladder.target, HYPEROPIC),
            say::predicted(words).to_owned(),
        )
    } else {
        (
            say::formulas_together(words, count, ladder.target, HYPEROPIC),
            say::mean_of(words, count),
        )
    };
    page.paragraph(1, &text);
    let header: Vec<String> = [say::column_power(words), &mean, say::range_80(words)]
        .map(str::to_owned)
        .into_iter()
        .chain(band_names(words))
        .collect();
    let chosen = certainty.closely.as_ref().map(|closely| closely.power);
    let rows: Vec<_> = ladder
        .rungs
        .iter()
        .zip(&certainty.ladder.pooled)
        .filter_map(|(rung, pooled)| {
            let pooled = pooled.as_ref()?;
            let mark = if chosen == Some(rung.power) {
                "▶"
            } else {
                " "
            };
            let power = rung.power.show(words);
            let mut row = vec![format!("{mark} {power}")];
            row.push(pooled.mean().show(words).into_owned());
            row.push(range(pooled, Level::Eighty, words));
            row.extend(chances(pooled, ladder.target));
            Some(row)
        })
        .collect();
    page.table(&header, &rows);
    page.hanging(" ", 3, &say::bands(words, BANDS_SOURCE));
}

/// Two lines over each column of chances.
fn band_names(words: Words) -> impl Iterator<Item = String> {
    let bands = SHOWN_BANDS.map(|band| say::within(words, quantity::unsigned(words, band)));
    bands.into_iter().chain([say::over(words, HYPEROPIC)])
}

/// The lower end without its unit, which the upper one says.
fn range(distribution: &Distribution, level: Level, words: Words) -> String {
    let [low, high] = distribution.interval(level);
    say::range(words, words.signed(low.d(), 2), high).replace(' ', UNBREAKABLE)
}

fn chances(distribution: &Distribution, target: HundredthDiopters) -> Vec<String> {
    let mut texts: Vec<_> = SHOWN_BANDS
        .iter()
        .map(|band| chance(distribution.chance_within(target.diopters(), band.diopters())))
        .collect();
    texts.push(chance(distribution.chance_over(HYPEROPIC.diopters())));
    texts
}
