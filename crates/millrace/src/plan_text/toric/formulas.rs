//! What each formula makes of the cornea and the chosen cylinder, and the ratio of the two planes.

use millrace_core::astigmatism::toric_eye::{PUBLISHED_RATIO, PUBLISHED_RATIO_SOURCE};
use millrace_core::astigmatism::{ToricPrediction, ToricRefusal};
use millrace_core::plan::Plan;

use super::figures::{NOTHING, residual_cell};
use crate::page::Page;

pub(super) fn write(page: &mut Page, plan: &Plan, planned: &ToricPrediction) {
    let mut header = ["By formula", "axis", "exact cylinder", "ratio"]
        .map(str::to_owned)
        .to_vec();
    if planned.chosen.is_some() {
        header.push("chosen leaves".to_owned());
    }
    let mut refused: Vec<(ToricRefusal, Vec<&str>)> = Vec::new();
    let mut rows = Vec::new();
    for column in &plan.toric.formulas {
        match &column.answer {
            Ok(answer) => rows.push(row(answer, planned)),
            Err(refusal) => match refused.iter_mut().find(|(known, _)| known == refusal) {
                Some((_, names)) => names.push(column.formula.name()),
                None => refused.push((*refusal, vec![column.formula.name()])),
            },
        }
    }
    page.blank();
    page.table(&header, &rows);
    page.blank();
    let [from, to] = PUBLISHED_RATIO;
    let ratio = planned.exact.ratio;
    let outside = if ratio < from || to < ratio {
        ", which this eye lies outside of"
    } else {
        ""
    };
    let text = format!(
        "▸ formula planned by. Ratio: cylinder at the lens plane for +1.00 D at the corneal plane, in \
         this eye with this power; published range {from} to {to} [{}]{outside}.",
        PUBLISHED_RATIO_SOURCE.standing
    );
    page.paragraph(1, &text);
    for (refusal, names) in refused {
        page.hanging(" ✕ ", 3, &format!("{}: {refusal}", names.join("; ")));
    }
}

fn row(answer: &ToricPrediction, planned: &ToricPrediction) -> Vec<String> {
    let mark = if answer.formula == planned.formula {
        "▸"
    } else {
        " "
    };
    let mut cells = vec![
        format!("{mark} {}", answer.formula.name()),
        answer
            .suggested_axis
            .map_or_else(|| NOTHING.to_owned(), |axis| axis.to_string()),
        answer.exact.cylinder.to_string(),
        format!("{:.2}", answer.exact.ratio),
    ];
    if let Some(chosen) = &answer.chosen {
        let left = chosen.outcome.as_ref().map(residual_cell);
        cells.push(left.unwrap_or_else(|_| NOTHING.to_owned()));
    }
    cells
}
