//! What was decided, at a glance: the lines a reader in a hurry reads.

use millrace_core::case::Draft;
use millrace_core::plan::{HYPEROPIC, Plan, SHOWN_BANDS};
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::number::percent;
use millrace_wording::text::lens::model;
use millrace_wording::text::plan as say;
use millrace_wording::{Show as _, Words};

use super::approach::incision;
use super::toric::leaves;
use crate::page::{HEADING, Page};

/// Column in which what was decided starts.
const TEXT: usize = 13;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let words = page.words();
    page.blank();
    write_line(page, say::lens(words), &lens(draft, words));
    write_line(page, say::power(words), &power(draft, plan, words));
    if let Some(text) = cylinder(draft, plan, words) {
        write_line(page, say::cylinder(words), &text);
    }
    if let Some(text) = how_sure(draft, plan, words) {
        write_line(page, say::how_sure(words), &text);
    }
    write_line(page, say::approach(words), &approach(draft, plan, words));
}

pub(super) fn write_line(page: &mut Page, name: &str, text: &str) {
    page.hanging(&format!(" {name:<12}"), TEXT, text);
}

fn lens(draft: &Draft, words: Words) -> String {
    match draft.lens.record() {
        Some(record) => {
            let named = model(words, &record.name, &record.model);
            say::lens_and_site(words, named, record.site)
        }
        None => say::not_chosen(words).to_owned(),
    }
}

fn power(draft: &Draft, plan: &Plan, words: Words) -> String {
    let target = |target: Option<HundredthDiopters>| {
        target.map_or_else(
            || say::not_set(words).to_owned(),
            |target| target.show(words).into_owned(),
        )
    };
    let (planned, consented) = (
        target(draft.lens.target),
        target(draft.lens.consented_target),
    );
    let target = say::target_consented(words, planned, consented);
    let Some(power) = draft.lens.power() else {
        return format!("{}; {target}", say::not_chosen(words));
    };
    let predicted = draft
        .lens
        .formula
        .zip(plan.predicted_for_chosen())
        .map_or_else(
            || say::no_prediction(words).to_owned(),
            |(formula, refraction)| say::predicted_by(words, refraction, formula),
        );
    let power = power.show(words);
    format!("{HEADING}{power}{HEADING:#}; {predicted}; {target}")
}

/// Nothing for a lens that has none.
fn cylinder(draft: &Draft, plan: &Plan, words: Words) -> Option<String> {
    let toric = draft
        .lens
        .record()
        .is_some_and(|record| record.toric.is_some());
    let Some(choice) = draft.lens.toric() else {
        return toric.then(|| say::not_chosen(words).to_owned());
    };
    let left = plan.toric.chosen.as_ref().map_or_else(
        || say::leaves_not_computed(words).to_owned(),
        |step| say::leaves(words, leaves(&step.residual, words)),
    );
    let chosen = say::marks_at(words, choice.cylinder, choice.axis);
    Some(format!("{HEADING}{chosen}{HEADING:#}; {left}"))
}

fn how_sure(draft: &Draft, plan: &Plan, words: Words) -> Option<String> {
    let target = draft.lens.target?;
    let closely = plan.certainty.as_ref()?.closely.as_ref()?;
    let together = &closely.budget.distribution;
    let [_, band, _] = SHOWN_BANDS;
    let within = together.chance_within(target.diopters(), band.diopters());
    let over = together.chance_over(HYPEROPIC.diopters());
    Some(say::chances(
        words,
        closely.power,
        words.fixed(band.diopters().d(), 2),
        percent(words, within),
        HYPEROPIC,
        percent(words, over),
        say::formulas_together(words, closely.predictions.len()),
    ))
}

fn approach(draft: &Draft, plan: &Plan, words: Words) -> String {
    let Some(approach) = draft.approach.approach else {
        return say::not_chosen(words).to_owned();
    };
    let (width, place) = incision(draft, plan, words);
    let incision = say::incision_of(words, width, place);
    format!("{HEADING}{}{HEADING:#}; {incision}", approach.show(words))
}
