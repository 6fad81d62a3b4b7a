//! A lens without a cylinder: what it leaves, and the incision on the steep meridian. Short.

use millrace_core::astigmatism::IncisionTerm;
use millrace_core::case::Draft;
use millrace_core::plan::{AlternativePlan, Plan, SHOWN_CYLINDERS, StepCertainty};

use millrace_wording::Words;

use super::super::chance;
use super::figures::{astigmatism, residual, size};
use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let toric = &plan.toric;
    let prediction = match toric.planned(draft.lens.formula) {
        Ok(prediction) => prediction,
        Err(refusal) => {
            page.hanging(
                " ✕ ",
                3,
                &format!("What the lens leaves is not computed: {refusal}"),
            );
            write_alternative(page, plan);
            return;
        }
    };
    let name = prediction.formula.name();
    let power = draft
        .lens
        .power
        .map_or_else(String::new, |power| format!(" with {power}"));
    match toric.steps.first() {
        Some(step) => {
            let text = format!(
                "Residual refraction{power} and no cylinder, by {name}: {}; {}.",
                residual(&step.residual, page.words()),
                chances(step, page.words())
            );
            page.hanging(" ", 3, &text);
        }
        None => page.hanging(
            " ✕ ",
            3,
            "What the lens leaves is not computed for this eye.",
        ),
    }
    write_alternative(page, plan);
}

/// "cylinder at most 0.50 D in 41 %, …".
fn chances(step: &StepCertainty, words: Words) -> String {
    let shown: Vec<_> = SHOWN_CYLINDERS
        .iter()
        .zip(step.chances)
        .skip(1)
        .map(|(limit, found)| format!("{} {}", size(limit.diopters(), words), chance(found)))
        .collect();
    format!("chance of a cylinder up to {}", shown.join(", "))
}

fn write_alternative(page: &mut Page, plan: &Plan) {
    match &plan.toric.alternative {
        Err(refusal) => {
            let text = format!("Incision on the steep meridian: not computed: {refusal}");
            page.hanging(" ✕ ", 3, &text);
        }
        Ok(alternative) => {
            let text = incision_on_the_steep_meridian(plan, alternative, page.words());
            let leaves = match &alternative.without_cylinder {
                Ok(step) if !is_as_planned(plan, alternative) => {
                    format!(
                        "; it would leave {}",
                        residual(&step.residual, page.words())
                    )
                }
                _ => String::new(),
            };
            page.hanging(" ", 3, &format!("{text}{leaves}."));
        }
    }
}

/// Whether the planned incision lies on the steep meridian already.
pub(super) fn is_as_planned(plan: &Plan, moved: &AlternativePlan) -> bool {
    let planned = plan
        .toric
        .cornea
        .as_ref()
        .map(|terms| terms.incision.direction);
    planned == Ok(moved.alternative.direction)
}

/// Where it lies, what it makes of the cornea, and what is dubious about it alone.
pub(super) fn incision_on_the_steep_meridian(
    plan: &Plan,
    moved: &AlternativePlan,
    words: Words,
) -> String {
    if is_as_planned(plan, moved) {
        return "The incision lies on the steep meridian as planned".to_owned();
    }
    let incision = &moved.alternative.terms.incision;
    let cautions: Vec<_> = moved
        .cautions
        .iter()
        .filter(|caution| !plan.toric.cautions.contains(caution))
        .map(ToString::to_string)
        .collect();
    let dubious = if cautions.is_empty() {
        String::new()
    } else {
        format!(" (▲ {})", cautions.join("; "))
    };
    format!(
        "The same incision on the steep meridian, {} at {}{}{dubious}: cornea {}",
        incision.place,
        incision.direction,
        other_end(plan, incision),
        astigmatism(moved.alternative.terms.total(), words)
    )
}

/// The other end of its meridian, where the nearer one is no better known: a temporal incision is not
/// exchanged for a nasal one.
fn other_end(plan: &Plan, incision: &IncisionTerm) -> String {
    if incision.place == "temporal" {
        return String::new();
    }
    let other = incision.direction.turned(180);
    let place = plan.side.place(other);
    format!(" or, with the same effect [assumption], {place} at {other}")
}
