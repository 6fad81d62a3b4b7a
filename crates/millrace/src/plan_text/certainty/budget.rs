//! What makes the result unsure, and what measuring once more would gain.

use millrace_core::certainty::Item;
use millrace_core::plan::{PowerCertainty, STEP_SOURCE};
use millrace_core::quantity::Diopters;

use super::super::chance;
use crate::page::{HEADING, Page, UNBREAKABLE};

pub(super) fn write(page: &mut Page, closely: &PowerCertainty) {
    let budget = &closely.budget;
    let whole_d = budget.distribution.deviation().d();
    page.blank();
    let title = format!(
        "{HEADING}What makes it unsure{HEADING:#} (share of the variance; together SD {whole_d:.2} D)"
    );
    page.hanging(" ", 3, &title);
    let mut rows: Vec<Vec<String>> = budget
        .items
        .iter()
        .map(|item| {
            let gain = item
                .repeated
                .map_or(String::new(), |after| gain(whole_d, after));
            vec![
                item.source.to_string(),
                spread(item, closely),
                chance(item.share),
                gain,
            ]
        })
        .collect();
    if 1 < closely.predictions.len() {
        rows.push(vec![
            "formulas disagree".to_owned(),
            format!("{:.3} D", budget.disagreement.sqrt()),
            chance(budget.disagreement_share()),
            String::new(),
        ]);
    }
    let header = ["Source", "SD", "share", "SD if measured again"].map(str::to_owned);
    page.table_of_words(&header, rows, &[]);
    page.paragraph(
        1,
        "Measured again: once more in the same way, and the mean of both taken.",
    );
    if let Some(step) = closely.step_alone {
        let text = format!(
            "Besides: steps of the labeled power alone make {:.2} D where the target may lie \
             anywhere within a step; no part of the budget, since the prediction of each power says \
             how far it lies from the target. {STEP_SOURCE}",
            step.d()
        );
        page.hanging(" ", 3, &text);
    }
}

/// What measuring once more and taking the mean would do to the standard deviation.
fn gain(whole_d: f64, repeated: Diopters) -> String {
    let [before, after] = [whole_d, repeated.d()].map(|d| format!("{d:.2}"));
    // Two decimals are shown: less than half a hundredth is no gain to work for, however it rounds.
    if before == after || whole_d - repeated.d() < 0.005 {
        return "no visible gain".to_owned();
    }
    format!("{before} → {after} D").replace(' ', UNBREAKABLE)
}

/// The spread of a source, the same for all formulas or from one to another.
fn spread(item: &Item, closely: &PowerCertainty) -> String {
    let unit = if item.source.is_length() { "mm" } else { "D" };
    let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
    for (_, prediction) in &closely.predictions {
        if let Ok(spread) = prediction.spreads.get(item.source)
            && prediction.linear.slope(item.source) != 0.0
        {
            least = least.min(spread.deviation);
            most = most.max(spread.deviation);
        }
    }
    let [low, high] = [least, most].map(|value| format!("{value:.3}"));
    let text = if low == high {
        format!("{low} {unit}")
    } else {
        format!("{low} to {high} {unit}")
    };
    text.replace(' ', UNBREAKABLE)
}
