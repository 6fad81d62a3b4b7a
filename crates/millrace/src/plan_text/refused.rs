//! Everything that gave no answer, and why: formulas refused, rules that could not be evaluated.

use millrace_core::iol_power::ladder::Ladder;
use millrace_core::plan::Plan;
use millrace_core::rules::{Verdict, wording};

use super::count;
use crate::page::Page;

pub(super) fn write(page: &mut Page, plan: &Plan) {
    page.heading("Refused, and why");
    let ladders = [
        ("", plan.ladder.as_ref().ok()),
        ("Spare lens: ", plan.spare.as_ref().map(|spare| &spare.bag)),
        ("Chamber lens: ", plan.chamber_lens.as_ref()),
    ];
    let refused: usize = ladders
        .into_iter()
        .filter_map(|(lens, ladder)| Some(write_refusals(page, lens, ladder?)))
        .sum();
    if refused == 0 {
        page.paragraph(1, "No formula was refused.");
    }
    let missing = plan.not_evaluated().count();
    page.blank();
    if missing == 0 {
        page.paragraph(1, "Every rule was evaluated or does not concern this case.");
        return;
    }
    let rules = count(missing, "rule was", "rules were");
    page.paragraph(1, &format!("{rules} not evaluated. Silence is not a pass."));
    for evaluated in plan.not_evaluated() {
        if let Verdict::NotEvaluated(missing) = evaluated.verdict {
            let missing = wording::missing(missing);
            let first = format!(" ○ {:<6} ", evaluated.rule.id);
            page.hanging(
                &first,
                10,
                &format!("{}: needs {missing}", evaluated.rule.title),
            );
        }
    }
}

/// Writes a line per reason, with all formulas it refuses; returns how many were refused.
fn write_refusals(page: &mut Page, lens: &str, ladder: &Ladder) -> usize {
    let mut reasons: Vec<(String, Vec<&str>)> = Vec::new();
    for column in &ladder.columns {
        if let Err(refusal) = &column.answer {
            let (reason, name) = (refusal.to_string(), column.formula.name());
            match reasons.iter_mut().find(|(known, _)| *known == reason) {
                Some((_, names)) => names.push(name),
                None => reasons.push((reason, vec![name])),
            }
        }
    }
    for (reason, names) in &reasons {
        page.hanging(" ✕ ", 3, &format!("{lens}{}: {reason}", names.join("; ")));
    }
    reasons.iter().map(|(_, names)| names.len()).sum()
}
