//! Findings in words, and every override with its reason.

use millrace_core::document::{ReasonResult, RuleResult};
use millrace_core::rules::{Severity, Verdict, by_id};
use millrace_core::words::day;
use millrace_wording::{Show as _, Words, rules as say};

use super::Subject;
use crate::data::{FindingRow, Findings, Override};

/// Gravest first.
const SEVERITIES: [Severity; 3] = [Severity::Stop, Severity::Review, Severity::Note];

impl<'a> Subject<'a> {
    /// Findings with a reason that counts.
    pub(super) fn overrides(self) -> Vec<Override> {
        let mut overrides = Vec::new();
        for rule in self.sorted() {
            if rule.reason != ReasonResult::Standing {
                continue;
            }
            let recorded = self.document.reason(rule);
            overrides.push(Override {
                severity: rule.severity.to_string(),
                id: rule.id.clone(),
                title: title(rule).to_owned(),
                sentence: sentence(&rule.verdict),
                reason: super::stated(recorded.map(|recorded| &recorded.reason)),
                by: super::stated(recorded.map(|recorded| &recorded.by)),
                on: super::stated(recorded.map(|recorded| day(recorded.on))),
            });
        }
        overrides
    }

    pub(super) fn findings(self) -> Findings {
        let rows = self
            .sorted()
            .filter(|rule| rule.reason != ReasonResult::Standing);
        let rows = rows.map(|rule| FindingRow {
            severity: rule.severity.to_string(),
            id: rule.id.clone(),
            title: title(rule).to_owned(),
            text: sentence(&rule.verdict),
            reason: self.reason(rule),
        });
        let not_evaluated = self.results.rules.iter().filter_map(|rule| {
            let Verdict::NotEvaluated(missing) = rule.verdict else {
                return None;
            };
            let missing = missing.show(Words::ENGLISH);
            Some(format!("{} {}: needs {missing}", rule.id, title(rule)))
        });
        let changed = self.document.changed_limits().filter_map(|limit| {
            let shipped = limit.shipped.as_ref()?;
            Some(format!(
                "This clinic's limit {} is {}; the shipped one is {shipped}",
                limit.name, limit.in_use
            ))
        });
        Findings {
            rows: rows.collect(),
            not_evaluated: not_evaluated.collect(),
            changed_limits: changed.collect(),
        }
    }

    fn sorted(self) -> impl Iterator<Item = &'a RuleResult> {
        SEVERITIES.into_iter().flat_map(move |severity| {
            self.results.rules.iter().filter(move |rule| {
                rule.severity == severity && matches!(rule.verdict, Verdict::Finding(_))
            })
        })
    }

    /// Why a reason does not count, or that there is none where one is asked for.
    fn reason(self, rule: &RuleResult) -> Option<String> {
        match self.document.reason(rule) {
            Some(reason) => Some(format!(
                "A reason was recorded for {} ({}); the finding reads otherwise now, so it does not count: {}",
                reason.measured.show(Words::ENGLISH),
                reason.limit.show(Words::ENGLISH),
                reason.reason
            )),
            None if rule.severity == Severity::Review => Some("No reason recorded.".to_owned()),
            None => None,
        }
    }
}

/// The words of a rule are today's; what was signed are its facts.
fn title(rule: &RuleResult) -> &'static str {
    by_id(&rule.id).map_or("", |rule| rule.title)
}

fn sentence(verdict: &Verdict) -> String {
    let Verdict::Finding(finding) = verdict else {
        return String::new();
    };
    let mut text = say::finding_and_certainty(Words::ENGLISH, finding);
    if let Some(details) = say::details(Words::ENGLISH, finding) {
        text.push_str("; ");
        text.push_str(&details);
    }
    text
}
