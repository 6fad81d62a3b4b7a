//! A lens without a cylinder: what it leaves, and the incision on the steep meridian. Short.

use millrace_core::astigmatism::IncisionTerm;
use millrace_core::biometry::Sector;
use millrace_core::case::Draft;
use millrace_core::plan::{AlternativePlan, Plan, SHOWN_CYLINDERS, StepCertainty};
use millrace_wording::Words;
use millrace_wording::terms::{place, sector_at};
use millrace_wording::text::toric as say;

use super::super::chance;
use super::figures::{astigmatism, residual, size};
use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let (toric, words) = (&plan.toric, page.words());
    match toric.planned(draft.lens.formula) {
        Err(refusal) => page.hanging(" ✕ ", 3, &say::lens_not_computed(words, refusal)),
        Ok(prediction) => match toric.steps.first() {
            None => page.hanging(" ✕ ", 3, say::lens_not_computed_here(words)),
            Some(step) => {
                let (formula, left) = (prediction.formula, residual(&step.residual, words));
                let chances = chances(step, words);
                let text = match draft.lens.power() {
                    Some(power) => say::plain_residual_with(words, power, formula, left, chances),
                    None => say::plain_residual(words, formula, left, chances),
                };
                page.hanging(" ", 3, &text);
            }
        },
    }
    write_alternative(page, plan);
}

/// "chance of a cylinder up to 0.50 D 41 %, …".
fn chances(step: &StepCertainty, words: Words) -> String {
    let shown = SHOWN_CYLINDERS
        .iter()
        .zip(step.chances)
        .skip(1)
        .map(|(limit, found)| format!("{} {}", size(limit.diopters(), words), chance(found)));
    say::chances(words, words.list(shown))
}

fn write_alternative(page: &mut Page, plan: &Plan) {
    let words = page.words();
    match &plan.toric.alternative {
        Err(refusal) => page.hanging(" ✕ ", 3, &say::steep_not_computed(words, refusal)),
        Ok(alternative) => {
            let text = incision_on_the_steep_meridian(plan, alternative, words);
            let text = match &alternative.without_cylinder {
                Ok(step) if !is_as_planned(plan, alternative) => {
                    say::would_leave(words, text, residual(&step.residual, words))
                }
                _ => say::sentence(words, text),
            };
            page.hanging(" ", 3, &text);
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
        return say::steep_as_planned(words).to_owned();
    }
    let incision = &moved.alternative.terms.incision;
    let cautions: Vec<_> = moved
        .cautions
        .iter()
        .filter(|caution| !plan.toric.cautions.contains(caution))
        .collect();
    let dubious = if cautions.is_empty() {
        String::new()
    } else {
        format!(" (▲ {})", words.clauses(cautions))
    };
    let ends = format!("{}{dubious}", ends(plan, incision, words));
    let cornea = astigmatism(moved.alternative.terms.total(), words);
    say::steep_incision(words, ends, cornea)
}

/// Where the incision lies, and the other end of its meridian where the nearer one is no better known:
/// a temporal incision is not exchanged for a nasal one.
fn ends(plan: &Plan, incision: &IncisionTerm, words: Words) -> String {
    let here = sector_at(words, incision.place, incision.direction);
    if incision.place == Sector::Temporal {
        return here;
    }
    let other = place(words, plan.side, incision.direction.turned(180));
    say::or_other_end(words, here, other)
}
