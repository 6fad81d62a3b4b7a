//! Findings: word, shape, measured value, limit, source and standing.

use millrace_core::plan::{Evaluated, Plan, ReasonState};
use millrace_core::rules::{Finding, Group, Severity, Verdict};
use millrace_wording::text::plan as say;
use millrace_wording::{Show as _, rules};

use crate::page::{HEADING, Page, REVIEW, STOP};

/// Column in which the text of a finding starts.
const TEXT: usize = 18;

pub(super) fn write(page: &mut Page, plan: &Plan, title: &str, groups: &[Group]) {
    page.heading(title);
    let found = found(plan, groups);
    if found.is_empty() {
        page.paragraph(1, say::no_finding(page.words()));
    }
    write_all(page, &found, Sources::Shown);
}

/// The same without a word where nothing was found.
pub(super) fn write_if_any(page: &mut Page, plan: &Plan, title: &str, groups: &[Group]) {
    let found = found(plan, groups);
    if !found.is_empty() {
        page.heading(title);
        write_all(page, &found, Sources::Shown);
    }
}

/// Findings under a section that has named their sources.
pub(super) fn write_without_sources(page: &mut Page, plan: &Plan, group: Group) {
    page.blank();
    write_all(page, &found(plan, &[group]), Sources::NamedBefore);
}

type Found<'a> = (&'a Evaluated, &'a Finding);

fn found<'a>(plan: &'a Plan, groups: &[Group]) -> Vec<Found<'a>> {
    let mut found: Vec<_> = plan
        .rules
        .iter()
        .filter(|evaluated| groups.contains(&evaluated.rule.group))
        .filter_map(|evaluated| match &evaluated.verdict {
            Verdict::Finding(finding) => Some((evaluated, finding)),
            _ => None,
        })
        .collect();
    found.sort_by_key(|(evaluated, _)| evaluated.rule.severity);
    found
}

/// Whether each finding names its sources.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sources {
    Shown,
    NamedBefore,
}

fn write_all(page: &mut Page, found: &[Found<'_>], sources: Sources) {
    for (index, (evaluated, finding)) in found.iter().enumerate() {
        if 0 < index {
            page.blank();
        }
        write_one(page, evaluated, finding, sources);
    }
}

fn write_one(page: &mut Page, evaluated: &Evaluated, finding: &Finding, sources: Sources) {
    let (rule, words) = (evaluated.rule, page.words());
    let (shape, style) = match rule.severity {
        Severity::Stop => ("■", STOP),
        Severity::Review => ("▲", REVIEW),
        Severity::Note => ("●", HEADING),
    };
    let word = rule.severity.show(words);
    let title = rules::title(words, rule.title, evaluated.backup);
    let text = format!(
        "{style}{shape} {word:<6}{style:#}  {:<6} {HEADING}{title}{HEADING:#}",
        rule.id
    );
    page.hanging(" ", TEXT, &text);
    page.paragraph(TEXT, &rules::finding_and_certainty(words, finding));
    if let Some(details) = rules::details(words, finding) {
        page.paragraph(TEXT, &details);
    }
    // What is only to be known asks for nothing; `millrace rules` has its options.
    if rule.severity != Severity::Note {
        let options = words.reference(rule.options);
        page.paragraph(TEXT, &say::options(words, options));
    }
    let named = match sources {
        Sources::Shown => rule.sources,
        Sources::NamedBefore => &[],
    };
    if !named.is_empty() {
        let cited = page.cite(named);
        page.hanging(&" ".repeat(TEXT), TEXT + 2, &say::source(words, cited));
    }
    write_reason(page, evaluated);
}

fn write_reason(page: &mut Page, evaluated: &Evaluated) {
    let words = page.words();
    let text = match &evaluated.reason {
        ReasonState::None if evaluated.rule.severity == Severity::Review => {
            let missing = say::no_reason(words);
            return page.line(&format!("{}{REVIEW}{missing}{REVIEW:#}", " ".repeat(TEXT)));
        }
        ReasonState::None => return,
        ReasonState::Standing(reason) => say::reason(words, &reason.by, reason.on, &reason.reason),
        ReasonState::Outdated(reason) => {
            say::reason_outdated(words, &reason.measured, &reason.limit, &reason.reason)
        }
    };
    page.paragraph(TEXT, &text);
}
