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

use crate::page::{HEADING, Page};
use figures::{astigmatism, residual};

/// "−0.26 D / −0.46 D × 148°".
pub(super) fn leaves(left: &Residual, words: Words) -> String {
    residual(left, words)
}

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let lens = &draft.lens;
    let is_toric = |record: &millrace_core::lens::LensRecord| record.toric.is_some();
    let toric = lens.record.as_ref().is_some_and(is_toric) || lens.toric.is_some();
    page.heading(&if toric {
        format!("Astigmatism and toric lens for the {}", plan.side)
    } else {
        format!("Astigmatism of the {}", plan.side)
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
            let text = format!("What a cylinder leaves is not computed: {refusal}");
            page.hanging(" ✕ ", 3, &text);
            sources::write_terms(page, &plan.toric);
        }
    }
}

/// A term is not known, so nothing after it is.
fn write_not_computed(page: &mut Page, draft: &Draft, toric: &ToricPlan) {
    if draft.lens.toric.is_some() {
        write_chosen(page, draft, None);
    }
    if toric.terms.front.is_ok() {
        let text = "Astigmatism after the operation, what any cylinder leaves, and the incision on \
             the steep meridian: not computed, since a term is not known.";
        page.hanging(" ✕ ", 3, text);
    }
}

/// What was chosen, what is suggested, and what would leave none.
fn write_summary(page: &mut Page, draft: &Draft, plan: &Plan, prediction: &ToricPrediction) {
    write_chosen(page, draft, Some(prediction));
    let name = prediction.formula.name();
    let exact = prediction.exact.cylinder;
    let text = match prediction.suggested_axis {
        Some(axis) => format!(
            "Suggested: marks of the lens at {axis}, facing the patient: the steep meridian of the \
             cornea after the operation ({} at the index of {name}). Exact cylinder {exact}: would \
             leave none.",
            astigmatism(prediction.net, page.words())
        ),
        None => {
            "No axis is suggested: the cornea after the operation has no astigmatism.".to_owned()
        }
    };
    page.hanging(" ", 3, &text);
    if let Some(largest) = beyond_the_estimate(&plan.toric, prediction) {
        let text = format!(
            "Exact cylinder lies beyond {largest}, up to which the estimate of the posterior cornea is \
             published"
        );
        page.hanging(" ▲ ", 3, &text);
    }
    let (Some(power), Some(record)) = (draft.lens.power, &draft.lens.record) else {
        return;
    };
    let label = record.toric.as_ref().map_or_else(
        || "which has no toric entry".to_owned(),
        |steps| format!("whose label names the {}", steps.label()),
    );
    let text = format!(
        "Planned for {power} of {}, model {}, {label}.",
        record.name, record.model
    );
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
    let Some(choice) = draft.lens.toric else {
        page.line(&format!(" {HEADING}No cylinder chosen{HEADING:#}"));
        return;
    };
    let chosen = prediction.and_then(|prediction| prediction.chosen.as_ref());
    let leaves = match chosen.map(|chosen| &chosen.outcome) {
        None => String::new(),
        Some(Ok(left)) => format!(
            "   leaves {}, spherical equivalent (mean of both meridians) {}",
            residual(left, page.words()),
            left.spherical_equivalent()
        ),
        Some(Err(refusal)) => format!("   ✕ what it leaves is not computed: {refusal}"),
    };
    let text = format!(
        "{HEADING}Chosen cylinder {}, marks of the lens at {}{HEADING:#}{leaves}",
        choice.cylinder, choice.axis
    );
    page.hanging(" ", 3, &text);
}

/// Cylinders that a term of the cornea does not allow, under one reason.
fn write_refused(page: &mut Page, refused: &[(HundredthDiopters, ToricRefusal)]) {
    let (Some((first, reason)), Some((last, _))) = (refused.first(), refused.last()) else {
        return;
    };
    let which = if first == last {
        first.to_string()
    } else {
        format!("{first} to {last}")
    };
    page.hanging(" ✕ ", 3, &format!("{which}: {reason}"));
}
