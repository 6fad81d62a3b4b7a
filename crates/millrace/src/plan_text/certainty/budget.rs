//! What makes the result unsure, and what measuring once more would gain.

use millrace_core::certainty::Item;
use millrace_core::plan::{PowerCertainty, STEP_SOURCE};
use millrace_wording::text::certainty as say;
use millrace_wording::{Show as _, Words, quantity};

use super::super::chance;
use crate::page::{HEADING, Page, UNBREAKABLE};

pub(super) fn write(page: &mut Page, closely: &PowerCertainty) {
    let budget = &closely.budget;
    let words = page.words();
    let whole = quantity::computed_unsigned(words, budget.distribution.deviation());
    page.blank();
    let title = format!(
        "{HEADING}{}{HEADING:#} {}",
        say::what_makes_it_unsure(words),
        say::share_of_variance(words, whole)
    );
    page.hanging(" ", 3, &title);
    let mut rows: Vec<Vec<String>> = budget
        .items
        .iter()
        .map(|item| {
            vec![
                item.source.show(words).into_owned(),
                spread(item, closely, words),
                chance(item.share),
                gain(item, closely, words),
            ]
        })
        .collect();
    if 1 < closely.predictions.len() {
        rows.push(vec![
            say::formulas_disagree(words).to_owned(),
            quantity::diopters(words, words.fixed(budget.disagreement.sqrt(), 3)),
            chance(budget.disagreement_share()),
            String::new(),
        ]);
    }
    let header = [
        say::column_source,
        say::column_deviation,
        say::column_share,
        say::column_again,
    ]
    .map(|column| column(words).to_owned());
    page.table_of_words(&header, rows, &[]);
    page.paragraph(1, say::measured_again(words));
    if let Some(step) = closely.step_alone {
        let step = quantity::computed_unsigned(words, step);
        let text = say::steps(words, step, STEP_SOURCE);
        page.hanging(" ", 3, &text);
    }
}

/// What measuring once more and taking the mean would do to the standard deviation.
fn gain(item: &Item, closely: &PowerCertainty, words: Words) -> String {
    if item.repeated.is_none() {
        return String::new();
    }
    match closely.gain(item) {
        Some([before, after]) => {
            let before = words.fixed(before.d(), 2);
            let after = quantity::computed_unsigned(words, after);
            say::from_to(words, before, after).replace(' ', UNBREAKABLE)
        }
        None => say::no_visible_gain(words).to_owned(),
    }
}

/// The spread of a source, the same for all formulas or from one to another.
fn spread(item: &Item, closely: &PowerCertainty, words: Words) -> String {
    let with_unit = |number: &str| {
        if item.source.is_length() {
            quantity::millimeters(words, number)
        } else {
            quantity::diopters(words, number)
        }
    };
    let Some(ends) = closely.spread(item.source) else {
        return String::new();
    };
    let [low, high] = ends.map(|value| words.fixed(value, 3));
    let text = if low == high {
        with_unit(&low)
    } else {
        say::range(words, low, with_unit(&high))
    };
    text.replace(' ', UNBREAKABLE)
}
