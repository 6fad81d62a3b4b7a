//! What makes the result unsure, and what measuring once more would gain.

use millrace_core::certainty::Item;
use millrace_core::plan::{PowerCertainty, REPEAT_BAND, STEP_SOURCE};
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
    let header = [say::column_source, say::column_deviation, say::column_share]
        .map(|column| column(words).to_owned());
    let again = say::column_again(words, quantity::unsigned(words, REPEAT_BAND));
    let header: Vec<String> = header.into_iter().chain([again]).collect();
    page.table_of_words(&header, rows, &[]);
    page.paragraph(1, say::measured_again(words));
    write_worth(page, closely);
    if let Some(step) = closely.step_alone {
        let step = quantity::computed_unsigned(words, step);
        let text = say::steps(words, step, STEP_SOURCE);
        page.hanging(" ", 3, &text);
    }
}

/// The chance as it is and with this source measured once more.
fn gain(item: &Item, closely: &PowerCertainty, words: Words) -> String {
    closely
        .repeat(item.source)
        .map_or_else(String::new, |repeat| {
            let [before, after] = [repeat.chance, repeat.repeated].map(|it| tenths(words, it));
            say::from_to(words, before, after).replace(' ', UNBREAKABLE)
        })
}

/// A tenth of a percent shows what a repeat gains.
fn tenths(words: Words, chance: f64) -> String {
    format!("{} %", words.fixed(chance * 100.0, 1))
}

/// What is worth repeating, in one sentence, or that nothing is.
fn write_worth(page: &mut Page, closely: &PowerCertainty) {
    let words = page.words();
    let Some(most) = closely.repeats.first() else {
        return;
    };
    let [before, after] = [most.chance, most.repeated].map(|it| tenths(words, it));
    let gains = say::gain(words, before, after);
    let band = quantity::unsigned(words, REPEAT_BAND);
    let text = if most.is_worth_it() {
        say::worth_repeating(words, most.source, band, gains)
    } else {
        say::nothing_worth_repeating(words, band, most.source, gains)
    };
    page.paragraph(1, &text);
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
