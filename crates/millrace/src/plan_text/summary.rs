//! What was decided, at a glance: the lines a reader in a hurry reads.

use millrace_core::case::Draft;
use millrace_core::plan::{HYPEROPIC, Plan, SHOWN_BANDS};
use millrace_core::quantity::HundredthDiopters;
use millrace_core::rules::wording::percent;

use millrace_wording::Words;

use super::toric::leaves;
use crate::page::{HEADING, Page};

/// Column in which what was decided starts.
const TEXT: usize = 12;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    page.blank();
    write_line(page, "Lens", &lens(draft));
    write_line(page, "Power", &power(draft, plan));
    if let Some(text) = cylinder(draft, plan, page.words()) {
        write_line(page, "Cylinder", &text);
    }
    if let Some(text) = how_sure(draft, plan) {
        write_line(page, "How sure", &text);
    }
    write_line(page, "Approach", &approach(draft, plan));
}

fn write_line(page: &mut Page, name: &str, text: &str) {
    page.hanging(&format!(" {name:<11}"), TEXT, text);
}

fn lens(draft: &Draft) -> String {
    match &draft.lens.record {
        Some(record) => format!(
            "{}, model {}, for the {}",
            record.name, record.model, record.site
        ),
        None => "not chosen".to_owned(),
    }
}

fn power(draft: &Draft, plan: &Plan) -> String {
    let target = |target: Option<HundredthDiopters>| {
        target.map_or_else(|| "not set".to_owned(), |target| target.to_string())
    };
    let target = format!(
        "target {}, consented {}",
        target(draft.lens.target),
        target(draft.lens.consented_target)
    );
    let Some(power) = draft.lens.power else {
        return format!("not chosen; {target}");
    };
    let predicted = draft
        .lens
        .formula
        .zip(plan.predicted_for_chosen())
        .map_or_else(
            || "no prediction".to_owned(),
            |(formula, refraction)| format!("predicted {refraction} by {}", formula.name()),
        );
    format!("{HEADING}{power}{HEADING:#}; {predicted}; {target}")
}

/// Nothing for a lens that has none.
fn cylinder(draft: &Draft, plan: &Plan, words: Words) -> Option<String> {
    let toric = draft
        .lens
        .record
        .as_ref()
        .is_some_and(|record| record.toric.is_some());
    let Some(choice) = draft.lens.toric else {
        return toric.then(|| "not chosen".to_owned());
    };
    let left = plan.toric.chosen.as_ref().map_or_else(
        || "what it leaves is not computed".to_owned(),
        |step| format!("leaves {}", leaves(&step.residual, words)),
    );
    Some(format!(
        "{HEADING}{}, marks at {}{HEADING:#}; {left}",
        choice.cylinder, choice.axis
    ))
}

fn how_sure(draft: &Draft, plan: &Plan) -> Option<String> {
    let target = draft.lens.target?;
    let closely = plan.certainty.as_ref()?.closely.as_ref()?;
    let together = &closely.budget.distribution;
    let [_, band, _] = SHOWN_BANDS;
    let within = together.chance_within(target.diopters(), band.diopters());
    let over = together.chance_over(HYPEROPIC.diopters());
    let who = match closely.predictions.len() {
        1 => "one formula".to_owned(),
        count => format!("{count} formulas together"),
    };
    Some(format!(
        "with {}, chance to end within ±{:.2} D of the target {}, over {HYPEROPIC} {} ({who})",
        closely.power,
        band.diopters().d(),
        percent(within),
        percent(over)
    ))
}

fn approach(draft: &Draft, plan: &Plan) -> String {
    let plan_of = &draft.approach;
    let Some(approach) = plan_of.approach else {
        return "not chosen".to_owned();
    };
    let width = plan_of
        .incision_width
        .map_or_else(|| "width not set".to_owned(), |width| width.to_string());
    let place = plan_of.incision_direction.map_or_else(
        || "place not set".to_owned(),
        |direction| format!("{} at {direction}", plan.side.place(direction)),
    );
    format!("{HEADING}{approach}{HEADING:#}; incision {width}, {place}")
}
