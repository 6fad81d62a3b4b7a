//! What each formula makes of the cornea and the chosen cylinder, and the ratio of the two planes.

use std::borrow::Cow;

use millrace_core::astigmatism::toric_eye::{PUBLISHED_RATIO, PUBLISHED_RATIO_SOURCE};
use millrace_core::astigmatism::{ToricPrediction, ToricRefusal};
use millrace_core::plan::Plan;
use millrace_wording::text::toric as say;
use millrace_wording::{Show as _, Words};

use super::figures::{NOTHING, residual_cell};
use crate::page::Page;

pub(super) fn write(page: &mut Page, plan: &Plan, planned: &ToricPrediction) {
    let words = page.words();
    let mut header = [
        say::column_by_formula,
        say::column_axis,
        say::column_exact,
        say::column_ratio,
    ]
    .map(|column| column(words).to_owned())
    .to_vec();
    if planned.chosen.is_some() {
        header.push(say::column_leaves(words).to_owned());
    }
    let mut refused: Vec<(ToricRefusal, Vec<Cow<'_, str>>)> = Vec::new();
    let mut rows = Vec::new();
    for column in &plan.toric.formulas {
        match &column.answer {
            Ok(answer) => rows.push(row(answer, planned, words)),
            Err(refusal) => match refused.iter_mut().find(|(known, _)| known == refusal) {
                Some((_, names)) => names.push(column.formula.show(words)),
                None => refused.push((*refusal, vec![column.formula.show(words)])),
            },
        }
    }
    page.blank();
    page.table(&header, &rows);
    page.blank();
    let [from, to] = PUBLISHED_RATIO;
    let ratio = planned.exact.ratio;
    let say_ratio = if ratio < from || to < ratio {
        say::ratio_outside
    } else {
        say::ratio
    };
    let [from, to] = [from, to].map(|end| words.number(&end.to_string()).into_owned());
    let text = say_ratio(words, from, to, PUBLISHED_RATIO_SOURCE.standing);
    page.paragraph(1, &text);
    for (refusal, names) in refused {
        page.hanging(
            " ✕ ",
            3,
            &format!("{}: {}", names.join("; "), refusal.show(words)),
        );
    }
}

fn row(answer: &ToricPrediction, planned: &ToricPrediction, words: Words) -> Vec<String> {
    let mark = if answer.formula == planned.formula {
        "▸"
    } else {
        " "
    };
    let mut cells = vec![
        format!("{mark} {}", answer.formula.show(words)),
        answer
            .suggested_axis
            .map_or_else(|| NOTHING.to_owned(), |axis| axis.show(words).into_owned()),
        answer.exact.cylinder.show(words).into_owned(),
        words.fixed(answer.exact.ratio, 2),
    ];
    if let Some(chosen) = &answer.chosen {
        let left = chosen
            .outcome
            .as_ref()
            .map(|left| residual_cell(left, words));
        cells.push(left.unwrap_or_else(|_| NOTHING.to_owned()));
    }
    cells
}
