//! The second eye: the refinement by the first eye's error, its conditions, and both predictions
//! side by side.

use millrace_core::case::SecondEyeChoice;
use millrace_core::evidence::Source;
use millrace_core::finding::Outcome;
use millrace_core::plan::Plan;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::rules::Group;
use millrace_core::second_eye::{Condition, Offer, Refined, SHARE, SOURCE, SecondEyeRefinement};

use millrace_wording::rules::{error_convention, prediction_error};
use millrace_wording::text::second_eye as say;
use millrace_wording::{Show as _, Words, sentence, terms};

use super::findings;
use crate::page::{HEADING, Page};

/// Column in which the text of a condition starts.
const TEXT: usize = 20;

pub(super) fn write(page: &mut Page, plan: &Plan) {
    let words = page.words();
    let Some(second) = &plan.second_eye else {
        findings::write_if_any(page, plan, say::heading(words), &[Group::SecondEye]);
        return;
    };
    page.heading(say::heading(words));
    let eye = terms::eye_head(words, second.first_eye);
    page.paragraph(
        1,
        &say::first_eye(
            words,
            eye,
            prediction_error(words, second.error),
            error_convention(words),
        ),
    );
    let percent = words.fixed(SHARE * 100.0, 0);
    page.paragraph(1, &say::refinement(words, percent));
    for condition in &second.conditions {
        write_condition(page, condition);
    }
    let not_told = format!("   ○ {} ", say::cannot_be_told(words));
    page.hanging(&not_told, TEXT, say::same_model_not_told(words));
    let state = format!("{HEADING}{}{HEADING:#}", state(second, words));
    page.hanging(" ", 3, &state);
    if let Some(refined) = &second.refined {
        write_refined(page, refined);
    }
    let mut sources = vec![SOURCE];
    sources.extend(condition_sources(second));
    let cited = page.cite(&sources);
    page.hanging(" ", 3, &say::source(words, cited));
    findings::write_without_sources(page, plan, Group::SecondEye);
}

/// Each source of a condition once.
fn condition_sources(second: &SecondEyeRefinement) -> Vec<Source> {
    let mut sources: Vec<Source> = Vec::new();
    for condition in &second.conditions {
        if !sources.contains(&condition.asks.source()) {
            sources.push(condition.asks.source());
        }
    }
    sources
}

fn write_condition(page: &mut Page, condition: &Condition) {
    let words = page.words();
    let (shape, word, found) = match condition.outcome {
        Outcome::Met(found) => ("✓", say::met(words), found.show(words).into_owned()),
        Outcome::NotMet(found) => ("✗", say::not_met(words), found.show(words).into_owned()),
        Outcome::CannotBeTold(lacking) => {
            let needs = say::needs(words, lacking);
            ("?", say::cannot_be_told(words), needs)
        }
    };
    let asks = sentence(&condition.asks.show(words));
    let text = say::asks_found(words, asks, found, condition.asks.source().standing);
    page.hanging(&format!("   {shape} {word:<14} "), TEXT, &text);
}

/// Whether the refinement is offered, and what was decided.
fn state(second: &SecondEyeRefinement, words: Words) -> &'static str {
    use Offer::{CannotBeTold, ConditionNotMet, Offered};
    use SecondEyeChoice::{Refined, Unrefined};
    match (second.offer, second.choice) {
        (Offered, None) => say::offered(words),
        (Offered, Some(Refined)) => say::offered_refined(words),
        (Offered, Some(Unrefined)) => say::offered_unrefined(words),
        (ConditionNotMet, Some(Refined)) => say::chosen_not_met(words),
        (CannotBeTold, Some(Refined)) => say::chosen_not_told(words),
        (ConditionNotMet, _) => say::not_offered_not_met(words),
        (CannotBeTold, _) => say::not_offered_not_told(words),
    }
}

fn write_refined(page: &mut Page, refined: &Refined) {
    let words = page.words();
    if refined.rungs.is_empty() {
        page.paragraph(1, &say::nothing_to_refine(words, refined.formula));
        return;
    }
    let chosen = refined.chosen.map(|pair| pair.power);
    let star = |power, proposed| if proposed == Some(power) { "*" } else { " " };
    let rows: Vec<_> = refined
        .rungs
        .iter()
        .map(|pair| {
            let mark = if chosen == Some(pair.power) {
                "▶"
            } else {
                " "
            };
            let unrefined = star(pair.power, refined.proposed_unrefined);
            let with_share = star(pair.power, refined.proposed_refined);
            vec![
                format!("{mark} {}", pair.power.show(words)),
                format!("{}{unrefined}", pair.unrefined.show(words)),
                format!("{}{with_share}", pair.refined.show(words)),
            ]
        })
        .collect();
    page.blank();
    let header = [
        say::column_power,
        say::column_unrefined,
        say::column_refined,
    ]
    .map(|column| column(words).to_owned());
    page.table(&header, &rows);
    page.blank();
    let unrefined = proposed(refined.proposed_unrefined, words);
    let with_share = proposed(refined.proposed_refined, words);
    page.paragraph(
        1,
        &say::legend(words, refined.formula, unrefined, with_share),
    );
    if let Some(pair) = refined.chosen {
        let text = say::of_chosen(words, pair.power, pair.unrefined, pair.refined);
        page.paragraph(1, &text);
    }
}

fn proposed(power: Option<HundredthDiopters>, words: Words) -> String {
    power.map_or_else(
        || say::none(words).to_owned(),
        |power| power.show(words).into_owned(),
    )
}
