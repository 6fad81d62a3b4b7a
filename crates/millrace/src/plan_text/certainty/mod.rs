//! How sure: what the refraction after each power may turn out to be, what it rests on, and what a
//! repeated measurement would gain.

mod basis;
mod budget;
mod closely;

use millrace_core::certainty::{Distribution, Level};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::plan::{BANDS_SOURCE, HYPEROPIC, Plan, PlanCertainty, SHOWN_BANDS};
use millrace_core::quantity::{Diopters, HundredthDiopters};

use super::chance;
use crate::page::{Page, UNBREAKABLE};

pub(super) fn write(page: &mut Page, plan: &Plan, planned_by: Option<Formula>) {
    let (Ok(ladder), Some(certainty)) = (&plan.ladder, &plan.certainty) else {
        return;
    };
    page.heading("How sure is the predicted refraction?");
    let columns = &certainty.ladder.columns;
    let speaking = columns.iter().filter(|column| column.basis.is_ok()).count();
    if speaking == 0 {
        page.paragraph(
            1,
            "No formula has a distribution; see \"Refused, and why\".",
        );
    } else {
        write_rungs(page, ladder, certainty, speaking);
        if let Some(closely) = &certainty.closely {
            closely::write(page, closely, ladder.target, planned_by);
            budget::write(page, closely);
        }
        basis::write(page, certainty);
    }
    basis::write_silent(page, columns);
}

/// What all formulas say together of every power.
fn write_rungs(page: &mut Page, ladder: &Ladder, certainty: &PlanCertainty, count: usize) {
    let (who, mean) = if count == 1 {
        (
            "One formula: its prediction".to_owned(),
            "predicted".to_owned(),
        )
    } else {
        (
            format!(
                "{count} formulas together, each with equal weight: the mean of their predictions"
            ),
            format!("mean of {count}"),
        )
    };
    let text = format!(
        "{who}, the range that holds 80 % of eyes like this one under this model, the chance to end \
         within so much of the target {}, and the chance to end over {HYPEROPIC}, hyperopic whatever \
         the target.",
        ladder.target
    );
    page.paragraph(1, &text);
    let header = ["Power", &mean, "80 % range"]
        .map(str::to_owned)
        .into_iter()
        .chain(band_names())
        .collect::<Vec<_>>();
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
            let mut row = vec![format!("{mark} {}", rung.power), pooled.mean().to_string()];
            row.push(range(pooled, Level::Eighty));
            row.extend(chances(pooled, ladder.target));
            Some(row)
        })
        .collect();
    page.table(&header, &rows);
    page.hanging(" ", 3, &format!("Bands: {BANDS_SOURCE}"));
}

/// Two lines over each column of chances.
fn band_names() -> impl Iterator<Item = String> {
    let bands = SHOWN_BANDS.map(|band| format!("within\n±{:.2} D", band.diopters().d()));
    bands.into_iter().chain([format!("over\n{HYPEROPIC}")])
}

/// A refraction without its unit, where the heading or the next number says it.
fn bare(refraction: Diopters) -> String {
    let text = refraction.to_string();
    text.strip_suffix(" D").unwrap_or(&text).to_owned()
}

fn range(distribution: &Distribution, level: Level) -> String {
    let [low, high] = distribution.interval(level);
    format!("{} to {high}", bare(low)).replace(' ', UNBREAKABLE)
}

fn chances(distribution: &Distribution, target: HundredthDiopters) -> Vec<String> {
    let mut texts: Vec<_> = SHOWN_BANDS
        .iter()
        .map(|band| chance(distribution.chance_within(target.diopters(), band.diopters())))
        .collect();
    texts.push(chance(distribution.chance_over(HYPEROPIC.diopters())));
    texts
}
