//! How far the residual cylinder scatters, in plain words, and the spreads behind it.

use millrace_core::astigmatism::Ellipse;
use millrace_core::plan::{StepCertainty, ToricPlan};

use super::figures::size;
use crate::page::Page;

/// Share of the ellipse.
const SHARE: f64 = 0.80;

pub(super) fn write(page: &mut Page, toric: &ToricPlan) {
    page.blank();
    let of = |step: Option<&StepCertainty>| step.and_then(|step| step.cloud.ellipse(SHARE));
    let shown: Vec<_> = [
        ("with the chosen cylinder", of(toric.chosen.as_ref())),
        ("without a cylinder in the lens", of(toric.steps.first())),
    ]
    .into_iter()
    .filter_map(|(what, ellipse)| Some(format!("{} {what}", half_axes(ellipse?))))
    .collect();
    if !shown.is_empty() {
        let text = format!(
            "In 8 of 10 such eyes the residual cylinder is expected within this distance of the \
             predicted one, as a vector at twice its angle (80 % ellipse): {}. Not counted: the \
             tolerance of the lens's own cylinder, the spread of the lens position, tilt, and the error \
             of the refraction measured afterwards.",
            shown.join(", ")
        );
        page.hanging(" ", 3, &text);
    }
    write_spreads(page, toric);
}

/// "0.85 D to 0.90 D", or one number where both read alike.
fn half_axes(ellipse: Ellipse) -> String {
    let (shorter, longer) = (size(ellipse.semi_minor), size(ellipse.semi_major));
    if shorter == longer {
        longer
    } else {
        format!("{shorter} to {longer}")
    }
}

fn write_spreads(page: &mut Page, toric: &ToricPlan) {
    let Ok(cornea) = &toric.cornea else { return };
    let origin = |measured| {
        if measured {
            "measured"
        } else {
            "clinic's limit"
        }
    };
    let spreads = &toric.spreads;
    let text = format!(
        "Spreads behind that and every chance (1 SD each component): keratometry {} ({}), posterior \
         cornea {} ({}), incision {}; turn of the lens {}° (clinic's limit).",
        size(spreads.keratometry),
        origin(toric.measured_spreads.keratometry),
        size(spreads.posterior),
        origin(toric.measured_spreads.posterior),
        size(cornea.incision.scatter),
        spreads.rotation_degrees
    );
    page.hanging(" ", 3, &text);
}
