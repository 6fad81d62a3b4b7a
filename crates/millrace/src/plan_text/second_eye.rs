//! The second eye: the refinement by the first eye's error, its conditions, and both predictions
//! side by side.

use millrace_core::case::SecondEyeChoice;
use millrace_core::evidence::Source;
use millrace_core::plan::Plan;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::rules::Group;
use millrace_core::second_eye::{
    Condition, ERROR_CONVENTION, Offer, Outcome, Refined, SHARE, SOURCE, SecondEyeRefinement,
};

use super::findings;
use crate::page::{HEADING, Page};

/// Column in which the text of a condition starts.
const TEXT: usize = 20;

pub(super) fn write(page: &mut Page, plan: &Plan) {
    let Some(second) = &plan.second_eye else {
        findings::write_if_any(page, plan, "Second eye", &[Group::SecondEye]);
        return;
    };
    page.heading("Second eye");
    page.paragraph(
        1,
        &format!(
            "{}, operated on before: {} ({ERROR_CONVENTION}).",
            capitalized(&second.first_eye.to_string()),
            second.error
        ),
    );
    page.paragraph(
        1,
        &format!(
            "Refinement: the prediction of this eye plus {:.0} % of that error. Offered only while \
             every condition is met; ladder, proposal and every rule keep the unrefined prediction \
             whatever is decided. No distribution is given for a refined prediction.",
            SHARE * 100.0
        ),
    );
    for condition in &second.conditions {
        write_condition(page, condition);
    }
    page.hanging(
        "   ○ cannot be told ",
        TEXT,
        "Both eyes get the same lens model: not recorded here, no condition of the offer",
    );
    let state = format!("{HEADING}{}{HEADING:#}", state(second));
    page.hanging(" ", 3, &state);
    if let Some(refined) = &second.refined {
        write_refined(page, refined);
    }
    page.hanging(" ", 3, &format!("Source: {SOURCE}"));
    for source in condition_sources(second) {
        page.hanging(" ", 3, &format!("Source: {source}"));
    }
    findings::write_without_sources(page, plan, Group::SecondEye);
}

/// Each source of a condition once.
fn condition_sources(second: &SecondEyeRefinement) -> Vec<Source> {
    let mut sources: Vec<Source> = Vec::new();
    for condition in &second.conditions {
        if !sources.contains(&condition.source) {
            sources.push(condition.source);
        }
    }
    sources
}

fn write_condition(page: &mut Page, condition: &Condition) {
    let (shape, word, found) = match &condition.outcome {
        Outcome::Met { found } => ("✓", "met", found.clone()),
        Outcome::NotMet { found } => ("✗", "not met", found.clone()),
        Outcome::CannotBeTold { missing } => ("?", "cannot be told", format!("needs {missing}")),
    };
    let asks = capitalized(&condition.asks);
    let text = format!("{asks}: {found} [{}]", condition.source.standing);
    page.hanging(&format!("   {shape} {word:<14} "), TEXT, &text);
}

/// Whether the refinement is offered, and what was decided.
fn state(second: &SecondEyeRefinement) -> &'static str {
    use Offer::{CannotBeTold, ConditionNotMet, Offered};
    use SecondEyeChoice::{Refined, Unrefined};
    match (second.offer, second.choice) {
        (Offered, None) => "Offered. Nobody decided yet.",
        (Offered, Some(Refined)) => "Offered, and the refined prediction was chosen.",
        (Offered, Some(Unrefined)) => "Offered, and declined: the unrefined prediction was chosen.",
        (ConditionNotMet, Some(Refined)) => {
            "Chosen but not offered, since a condition is not met: no refined prediction is given."
        }
        (CannotBeTold, Some(Refined)) => {
            "Chosen but not offered, since a condition cannot be told: no refined prediction is given."
        }
        (ConditionNotMet, _) => {
            "Not offered, since a condition is not met: no refined prediction is given."
        }
        (CannotBeTold, _) => {
            "Not offered, since a condition cannot be told: no refined prediction is given."
        }
    }
}

fn write_refined(page: &mut Page, refined: &Refined) {
    let name = refined.formula.name();
    if refined.rungs.is_empty() {
        page.paragraph(1, &format!("{name} predicts nothing here to refine."));
        return;
    }
    let chosen = refined.chosen.map(|pair| pair.power);
    let star = |power, proposed| if proposed == Some(power) { "*" } else { " " };
    let rows: Vec<_> = refined
        .rungs
        .iter()
        .map(|pair| {
            let mark = if chosen == Some(pair.power) {
                "▶"
            } else {
                " "
            };
            let unrefined = star(pair.power, refined.proposed_unrefined);
            let with_share = star(pair.power, refined.proposed_refined);
            vec![
                format!("{mark} {}", pair.power),
                format!("{}{unrefined}", pair.unrefined),
                format!("{}{with_share}", pair.refined),
            ]
        })
        .collect();
    page.blank();
    let header = ["Power", "unrefined", "refined"].map(str::to_owned);
    page.table(&header, &rows);
    page.blank();
    page.paragraph(
        1,
        &format!(
            "Refraction predicted by {name}; refined: half of that error added. ▶ chosen power; * proposed: {} \
             unrefined, which the plan keeps; {} for the refined predictions.",
            proposed(refined.proposed_unrefined),
            proposed(refined.proposed_refined)
        ),
    );
    if let Some(pair) = refined.chosen {
        page.paragraph(
            1,
            &format!(
                "Chosen power {}: {} unrefined, {} refined.",
                pair.power, pair.unrefined, pair.refined
            ),
        );
    }
}

fn proposed(power: Option<HundredthDiopters>) -> String {
    power.map_or_else(|| "none".to_owned(), |power| power.to_string())
}

fn capitalized(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}
