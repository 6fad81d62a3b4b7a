//! How far the residual cylinder scatters, in plain words, and the spreads behind it.

use millrace_core::astigmatism::Ellipse;
use millrace_core::plan::{StepCertainty, ToricPlan};
use millrace_wording::Words;
use millrace_wording::text::toric as say;

use super::figures::size;
use crate::page::Page;

/// Share of the ellipse.
const SHARE: f64 = 0.80;

pub(super) fn write(page: &mut Page, toric: &ToricPlan) {
    let words = page.words();
    page.blank();
    let of = |step: Option<&StepCertainty>| step.and_then(|step| step.cloud.ellipse(SHARE));
    let shown: Vec<_> = [
        (
            say::with_chosen_cylinder as fn(Words, String) -> String,
            of(toric.chosen.as_ref()),
        ),
        (say::without_cylinder, of(toric.steps.first())),
    ]
    .into_iter()
    .filter_map(|(what, ellipse)| Some(what(words, half_axes(ellipse?, words))))
    .collect();
    if !shown.is_empty() {
        page.hanging(" ", 3, &say::ellipse(words, words.list(shown)));
    }
    write_spreads(page, toric);
}

/// "0.85 D to 0.90 D", or one number where both read alike.
fn half_axes(ellipse: Ellipse, words: Words) -> String {
    let (shorter, longer) = (
        size(ellipse.semi_minor, words),
        size(ellipse.semi_major, words),
    );
    if shorter == longer {
        longer
    } else {
        say::from_to(words, shorter, longer)
    }
}

fn write_spreads(page: &mut Page, toric: &ToricPlan) {
    let Some(incision) = toric.incision_scatter.filter(|_| toric.cornea.is_ok()) else {
        return;
    };
    let words = page.words();
    let origin = |measured| {
        if measured {
            say::measured(words)
        } else {
            say::clinics_limit(words)
        }
    };
    let spreads = &toric.spreads;
    let text = say::spreads(
        words,
        size(spreads.keratometry, words),
        origin(toric.measured_spreads.keratometry),
        size(spreads.posterior, words),
        origin(toric.measured_spreads.posterior),
        size(incision.counted(), words),
        words.number(&spreads.rotation_degrees.to_string()),
    );
    page.hanging(" ", 3, &text);
}
