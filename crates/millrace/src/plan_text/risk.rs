//! Risk of a complicated operation: published points, and odds ratios that are never multiplied into
//! a percentage.

use millrace_core::plan::Plan;
use millrace_core::rules::risk::BASE_RATE_PERCENT;
use millrace_wording::rules::{applies, borderline_depth, risk_items};
use millrace_wording::text::plan as say;

use crate::page::{HEADING, Page};

pub(super) fn write(page: &mut Page, plan: &Plan) {
    let words = page.words();
    page.heading(say::risk_heading(words));
    let risk = &plan.risk;
    let total = risk.total();
    let points = if risk.unknown.is_empty() {
        say::risk_points(words, total)
    } else {
        say::risk_points_range(words, total, risk.at_most())
    };
    let bands = say::bands(words);
    page.hanging(" ", 3, &format!("{HEADING}{points}{HEADING:#} {bands}"));
    if !risk.given.is_empty() {
        let first = format!("   {}  ", say::given(words));
        page.hanging(&first, 10, &risk_items(words, &risk.given));
    }
    if !risk.unknown.is_empty() {
        let first = format!("   {}  ", say::not_recorded(words));
        page.hanging(&first, 17, &words.list(&risk.unknown));
    }
    if let Some(depth) = risk.borderline_depth {
        page.hanging("   ", 5, &borderline_depth(words, depth));
    }
    let title = say::odds_ratios(words);
    let rate = say::overall_rate(words, words.fixed(BASE_RATE_PERCENT, 2));
    page.hanging(" ", 3, &format!("{HEADING}{title}{HEADING:#} {rate}"));
    for &ratio in &plan.odds_ratios {
        let odds = words.fixed(ratio.factor.ratio(), 2);
        let text = say::odds_ratio(words, ratio.factor, applies(words, ratio));
        page.hanging("   ", 5, &format!("{odds}  {text}"));
    }
    page.paragraph(1, say::not_multiplied(words));
}
