//! Astigmatism: the terms of the cornea, and what each cylinder of the lens leaves. Short where the
//! lens has no cylinder.

mod certainty;
mod figures;
mod formulas;
mod plain_lens;
mod rotation;
mod sources;
mod steps;
mod terms;

use millrace_core::astigmatism::{Residual, ToricPrediction, ToricRefusal};
use millrace_core::case::Draft;
use millrace_core::plan::{Plan, ToricPlan};
use millrace_core::quantity::HundredthDiopters;

use millrace_wording::Words;
use millrace_wording::text::lens::model;
use millrace_wording::text::toric as say;

use crate::page::{HEADING, Page};
use figures::{astigmatism, residual};

/// "−0.26 D / −0.46 D × 148°".
pub(super) fn leaves(left: &Residual, words: Words) -> String {
    residual(left, words)
}

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let lens = &draft.lens;
    let is_toric = |record: &millrace_core::lens::LensRecord| record.toric.is_some();
    let toric = lens.record().is_some_and(is_toric) || lens.toric().is_some();
    let words = page.words();
    page.heading(&if toric {
        say::heading_toric(words, plan.side)
    } else {
        say::heading(words, plan.side)
    });
    terms::write(page, draft, plan);
    if plan.toric.cornea.is_err() {
        write_not_computed(page, draft, &plan.toric);
        sources::write_terms(page, &plan.toric);
        return;
    }
    if !toric {
        plain_lens::write(page, draft, plan);
        sources::write_plain(page, &plan.toric);
        return;
    }
    page.blank();
    match plan.toric.planned(lens.formula) {
        Ok(prediction) => {
            write_summary(page, draft, plan, prediction);
            steps::write(page, plan, prediction);
            formulas::write(page, plan, prediction);
            rotation::write(page, &plan.toric, prediction);
            certainty::write(page, &plan.toric);
            sources::write(page, &plan.toric);
        }
        Err(refusal) => {
            write_chosen(page, draft, None);
            page.hanging(" ✕ ", 3, &say::cylinder_not_computed(words, refusal));
            sources::write_terms(page, &plan.toric);
        }
    }
}

/// A term is not known, so nothing after it is.
fn write_not_computed(page: &mut Page, draft: &Draft, toric: &ToricPlan) {
    if draft.lens.toric().is_some() {
        write_chosen(page, draft, None);
    }
    if toric.terms.front.is_ok() {
        page.hanging(" ✕ ", 3, say::term_not_known(page.words()));
    }
}

/// What was chosen, what is suggested, and what would leave none.
fn write_summary(page: &mut Page, draft: &Draft, plan: &Plan, prediction: &ToricPrediction) {
    write_chosen(page, draft, Some(prediction));
    let words = page.words();
    let exact = prediction.exact.cylinder;
    let text = match prediction.suggested_axis {
        Some(axis) => {
            let net = astigmatism(prediction.net, words);
            say::suggested(words, axis, net, prediction.formula, exact)
        }
        None => say::none_suggested(words).to_owned(),
    };
    page.hanging(" ", 3, &text);
    if let Some(largest) = beyond_the_estimate(&plan.toric, prediction) {
        page.hanging(" ▲ ", 3, &say::beyond_estimate(words, largest));
    }
    let (Some(power), Some(record)) = (draft.lens.power(), draft.lens.record()) else {
        return;
    };
    let lens = model(words, &record.name, &record.model);
    let text = match &record.toric {
        Some(steps) => say::planned_for(words, power, lens, steps.label()),
        None => say::planned_for_not_toric(words, power, lens),
    };
    page.hanging(" ", 3, &text);
}

/// Largest lens cylinder of the posterior estimate, where the exact cylinder is larger.
fn beyond_the_estimate(
    toric: &ToricPlan,
    prediction: &ToricPrediction,
) -> Option<HundredthDiopters> {
    let largest = toric.terms.posterior.ok()?.largest_lens_cylinder?;
    (largest.diopters() < prediction.exact.cylinder).then_some(largest)
}

fn write_chosen(page: &mut Page, draft: &Draft, prediction: Option<&ToricPrediction>) {
    let words = page.words();
    let Some(choice) = draft.lens.toric() else {
        let text = say::no_cylinder_chosen(words);
        return page.line(&format!(" {HEADING}{text}{HEADING:#}"));
    };
    let chosen = prediction.and_then(|prediction| prediction.chosen.as_ref());
    let leaves = chosen.map(|chosen| match &chosen.outcome {
        Ok(left) => say::leaves(words, residual(left, words), left.spherical_equivalent()),
        Err(refusal) => say::leaves_not_computed(words, refusal),
    });
    let leaves = leaves.map_or_else(String::new, |text| format!("   {text}"));
    let text = say::chosen(words, choice.cylinder, choice.axis);
    page.hanging(" ", 3, &format!("{HEADING}{text}{HEADING:#}{leaves}"));
}

/// Cylinders that a term of the cornea does not allow, under one reason.
fn write_refused(page: &mut Page, refused: &[(HundredthDiopters, ToricRefusal)]) {
    let (Some((first, reason)), Some((last, _))) = (refused.first(), refused.last()) else {
        return;
    };
    let words = page.words();
    let text = if first == last {
        say::refused(words, first, reason)
    } else {
        say::refused(words, say::from_to(words, first, last), reason)
    };
    page.hanging(" ✕ ", 3, &text);
}
