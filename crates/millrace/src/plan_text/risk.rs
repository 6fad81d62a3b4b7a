//! Risk of a complicated operation: published points, and odds ratios that are never multiplied into
//! a percentage.

use millrace_core::plan::Plan;
use millrace_core::rules::risk::{BASE_RATE_PERCENT, OddsRatio};
use millrace_core::rules::wording;

use crate::page::{HEADING, Page};

pub(super) fn write(page: &mut Page, plan: &Plan) {
    page.heading("Risk of a complicated operation");
    let risk = &plan.risk;
    let items = wording::risk_items(&risk.given);
    let total = risk.total();
    let range = if risk.unknown.is_empty() {
        format!("{total}")
    } else {
        format!("{total} to {}", risk.at_most())
    };
    let text =
        format!("{HEADING}Risk points {range}{HEADING:#} (bands 0, 1 to 2, 3 to 5, 6 and more)");
    page.hanging(" ", 3, &text);
    if !items.is_empty() {
        page.hanging("   given  ", 10, &items);
    }
    if !risk.unknown.is_empty() {
        page.hanging(
            "   not recorded  ",
            17,
            &wording::risk_item_names(&risk.unknown),
        );
    }
    if let Some(depth) = risk.borderline_depth {
        page.hanging("   ", 5, &wording::borderline_depth(depth));
    }
    let text = format!(
        "{HEADING}Odds ratios of posterior capsule rupture{HEADING:#} (rate over all {BASE_RATE_PERCENT} %)"
    );
    page.hanging(" ", 3, &text);
    for &ratio in &plan.odds_ratios {
        page.hanging("   ", 5, &odds_ratio(ratio));
    }
    page.paragraph(
        1,
        "Not multiplied, and no absolute percentage: no intercept is printed.",
    );
}

fn odds_ratio(ratio: OddsRatio) -> String {
    let factor = wording::odds_factor(ratio.factor);
    let applies = wording::applies(ratio);
    format!("{:.2}  {factor}: {applies}", ratio.factor.ratio())
}
