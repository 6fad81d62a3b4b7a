//! What makes the result unsure, and what measuring once more would gain.

use millrace_core::certainty::Item;
use millrace_core::plan::{PowerCertainty, STEP_SOURCE};

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
            vec![
                item.source.to_string(),
                spread(item, closely),
                chance(item.share),
                gain(item, closely),
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
fn gain(item: &Item, closely: &PowerCertainty) -> String {
    if item.repeated.is_none() {
        return String::new();
    }
    match closely.gain(item) {
        Some([before, after]) => {
            format!("{:.2} → {:.2} D", before.d(), after.d()).replace(' ', UNBREAKABLE)
        }
        None => "no visible gain".to_owned(),
    }
}

/// The spread of a source, the same for all formulas or from one to another.
fn spread(item: &Item, closely: &PowerCertainty) -> String {
    let unit = if item.source.is_length() { "mm" } else { "D" };
    let Some(ends) = closely.spread(item.source) else {
        return String::new();
    };
    let [low, high] = ends.map(|value| format!("{value:.3}"));
    let text = if low == high {
        format!("{low} {unit}")
    } else {
        format!("{low} to {high} {unit}")
    };
    text.replace(' ', UNBREAKABLE)
}
