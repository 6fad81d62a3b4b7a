//! Everything that gave no answer, and why: formulas refused, rules that could not be evaluated.

use millrace_core::case::Slot;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::plan::Plan;
use millrace_core::rules::Verdict;
use millrace_wording::text::plan as say;
use millrace_wording::{Show as _, rules, sentence};

use super::{grouped, of_formulas};
use crate::page::Page;

pub(super) fn write(page: &mut Page, plan: &Plan) {
    let words = page.words();
    page.heading(say::refused_heading(words));
    let planned = plan.ladder.iter().map(|ladder| (String::new(), ladder));
    let backups = plan.backups.iter().map(|(place, backup)| {
        let lens = sentence(&Slot::Backup(*place).show(words));
        (say::of_lens(words, lens), &backup.ladder)
    });
    let refused: usize = planned
        .chain(backups)
        .map(|(lens, ladder)| write_refusals(page, &lens, ladder))
        .sum();
    if refused == 0 {
        page.paragraph(1, say::none_refused(words));
    }
    let missing = plan.not_evaluated().count();
    page.blank();
    if missing == 0 {
        page.paragraph(1, say::all_evaluated(words));
        return;
    }
    page.paragraph(1, &say::not_evaluated(words, missing));
    for evaluated in plan.not_evaluated() {
        if let Verdict::NotEvaluated(missing) = evaluated.verdict {
            let first = format!(" ○ {:<6} ", evaluated.rule.id);
            let title = rules::title(words, evaluated.rule.title, evaluated.backup);
            page.hanging(&first, 10, &say::needs(words, title, missing));
        }
    }
}

/// Writes a line per reason, with all formulas it refuses; returns how many were refused.
fn write_refusals(page: &mut Page, lens: &str, ladder: &Ladder) -> usize {
    let refusals = ladder
        .columns
        .iter()
        .filter_map(|column| Some((*column.answer.as_ref().err()?, column.formula)));
    let reasons = grouped(refusals);
    for (reason, formulas) in &reasons {
        let text = of_formulas(page.words(), formulas, reason);
        page.hanging(" ✕ ", 3, &format!("{lens}{text}"));
    }
    reasons.iter().map(|(_, formulas)| formulas.len()).sum()
}
