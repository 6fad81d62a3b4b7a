//! The plan on one screen: what is decided at the desk, and what speaks against it.

use millrace_core::case::Special;
use millrace_core::plan::{Evaluated, Plan};
use millrace_core::rules::Severity;
use millrace_wording::text::plan as say;
use millrace_wording::{Show as _, Words};

use super::{banner, summary, theatre};
use crate::page::{FAINT, Page};

/// Findings that have a line of their own; more are named by their ids in one (house value: with all else it
/// makes a screen of 24 lines).
const MOST: usize = 7;

pub(super) fn write(page: &mut Page, plan: &Plan) {
    let (draft, words) = (&plan.draft, page.words());
    banner::write_identity(page, draft, plan);
    summary::write(page, draft, plan);
    theatre::write_told(page, draft);
    let special = Special::all(draft, plan.side);
    if !special.is_empty() {
        let special: Vec<_> = special.iter().map(|it| it.show(words)).collect();
        summary::write_line(page, say::special(words), &special.join("; "));
    }
    page.blank();
    banner::write_counts(page, plan);
    write_open(page, plan);
    write_not_evaluated(page, plan);
    banner::write_changed_limits(page, plan);
    page.blank();
    banner::write_caution(page);
    let program = env!("CARGO_PKG_VERSION");
    let hint = say::full_hint(words);
    page.paragraph(0, &format!("{FAINT}millrace {program}. {hint}{FAINT:#}"));
}

/// Every Stop finding, and every Review finding without a reason that counts.
fn write_open(page: &mut Page, plan: &Plan) {
    let reviews = plan.findings(Severity::Review).filter(|it| it.is_open());
    let open: Vec<_> = plan.findings(Severity::Stop).chain(reviews).collect();
    // One that is left over gets its line as well as the line that would name it.
    let shown = if open.len() <= MOST + 1 {
        open.len()
    } else {
        MOST
    };
    let (first, rest) = open.split_at(shown);
    for found in first {
        banner::write_found(page, found);
    }
    if !rest.is_empty() {
        let text = say::more_findings(page.words(), rest.len(), ids(rest).join(", "));
        page.hanging("  ", 4, &text);
    }
}

fn write_not_evaluated(page: &mut Page, plan: &Plan) {
    let words = page.words();
    let missing: Vec<_> = plan.not_evaluated().collect();
    let text = if missing.is_empty() {
        say::all_evaluated(words).to_owned()
    } else {
        as_fits(&ids(&missing), missing.len(), (page.width() - 2, words))
    };
    page.hanging("○ ", 2, &text);
}

/// As many ids as fit on a line, and how many more there are.
fn as_fits(ids: &[String], count: usize, (width, words): (usize, Words)) -> String {
    let line = |shown: usize| {
        let named = ids.iter().take(shown).map(String::as_str);
        let named = named.collect::<Vec<_>>().join(", ");
        let named = match ids.len() - shown {
            0 => named,
            more => say::and_more(words, named, more),
        };
        say::not_evaluated_by_id(words, count, named)
    };
    let fits = |shown: &usize| line(*shown).chars().count() <= width;
    line((1..=ids.len()).rev().find(fits).unwrap_or(1))
}

/// Each id once: a rule of every lens may stand there for several.
fn ids(evaluated: &[&Evaluated]) -> Vec<String> {
    let mut ids: Vec<String> = Vec::new();
    for one in evaluated {
        if !ids.iter().any(|known| known == one.rule.id) {
            ids.push(one.rule.id.to_owned());
        }
    }
    ids
}
