//! Findings: word, shape, measured value, limit, source and standing.

use millrace_core::plan::{Evaluated, Plan, ReasonState};
use millrace_core::rules::{Finding, Group, Severity, Verdict, wording};

use crate::day::date;
use crate::page::{HEADING, Page, REVIEW, STOP};

/// Column in which the text of a finding starts.
const TEXT: usize = 18;

pub(super) fn write(page: &mut Page, plan: &Plan, title: &str, groups: &[Group]) {
    page.heading(title);
    let found = found(plan, groups);
    if found.is_empty() {
        page.paragraph(1, "No finding among the rules that could be evaluated.");
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
    let rule = evaluated.rule;
    let (shape, style) = match rule.severity {
        Severity::Stop => ("■", STOP),
        Severity::Review => ("▲", REVIEW),
        Severity::Note => ("●", HEADING),
    };
    let word = rule.severity.to_string();
    let text = format!(
        "{style}{shape} {word:<6}{style:#}  {:<6} {HEADING}{}{HEADING:#}",
        rule.id, rule.title
    );
    page.hanging(" ", TEXT, &text);
    page.paragraph(TEXT, &wording::finding_and_certainty(finding));
    if let Some(details) = wording::details(finding) {
        page.paragraph(TEXT, &details);
    }
    // What is only to be known asks for nothing; `millrace rules` has its options.
    if rule.severity != Severity::Note {
        page.paragraph(TEXT, &format!("Options: {}", rule.options));
    }
    let named = match sources {
        Sources::Shown => rule.sources,
        Sources::NamedBefore => &[],
    };
    for source in named {
        page.hanging(&" ".repeat(TEXT), TEXT + 2, &format!("Source: {source}"));
    }
    write_reason(page, evaluated);
}

fn write_reason(page: &mut Page, evaluated: &Evaluated) {
    match &evaluated.reason {
        ReasonState::None if evaluated.rule.severity == Severity::Review => {
            page.line(&format!("{}{REVIEW}No reason recorded.{REVIEW:#}", " ".repeat(TEXT)));
        }
        ReasonState::None => {}
        ReasonState::Standing(reason) => page.paragraph(
            TEXT,
            &format!(
                "Reason, {} on {}: {}",
                reason.by,
                date(reason.on),
                reason.reason
            ),
        ),
        ReasonState::Outdated(reason) => page.paragraph(
            TEXT,
            &format!(
                "A reason was recorded for {} ({}); the finding reads otherwise now, so it does not count: {}",
                wording::fact(&reason.measured),
                wording::limit(&reason.limit),
                reason.reason
            ),
        ),
    }
}
