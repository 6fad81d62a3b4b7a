//! Findings in words, and every override with its reason.

use millrace_core::plan::{Evaluated, ReasonState};
use millrace_core::rules::{Finding, Verdict};
use millrace_core::words::day;

use super::Subject;
use crate::data::{FindingRow, Findings, Override};

impl Subject<'_> {
    /// Findings with a reason that counts.
    pub(super) fn overrides(self) -> Vec<Override> {
        let found = self.sorted();
        let overrides = found.into_iter().filter_map(|(evaluated, finding)| {
            let ReasonState::Standing(reason) = &evaluated.reason else {
                return None;
            };
            Some(Override {
                severity: evaluated.rule.severity.to_string(),
                id: evaluated.rule.id,
                title: evaluated.rule.title,
                sentence: sentence(finding),
                reason: reason.reason.clone(),
                by: reason.author.name.clone(),
                on: day(reason.author.on),
            })
        });
        overrides.collect()
    }

    pub(super) fn findings(self) -> Findings {
        let rows = self
            .sorted()
            .into_iter()
            .filter(|(evaluated, _)| !matches!(evaluated.reason, ReasonState::Standing(_)))
            .map(|(evaluated, finding)| FindingRow {
                severity: evaluated.rule.severity.to_string(),
                id: evaluated.rule.id,
                title: evaluated.rule.title,
                text: sentence(finding),
                reason: reason(evaluated),
            })
            .collect();
        let not_evaluated = self.plan.not_evaluated().filter_map(|evaluated| {
            let Verdict::NotEvaluated { missing } = evaluated.verdict else {
                return None;
            };
            let rule = evaluated.rule;
            Some(format!("{} {}: needs {missing}", rule.id, rule.title))
        });
        let changed = self.plan.changed_limits.iter().map(|change| {
            format!(
                "This clinic's limit {} is {}; the shipped one is {}",
                change.name, change.in_use, change.shipped
            )
        });
        Findings {
            rows,
            not_evaluated: not_evaluated.collect(),
            changed_limits: changed.collect(),
        }
    }

    /// Gravest first.
    fn sorted(&self) -> Vec<(&Evaluated, &Finding)> {
        let mut found: Vec<_> = self
            .plan
            .rules
            .iter()
            .filter_map(|evaluated| match &evaluated.verdict {
                Verdict::Finding(finding) => Some((evaluated, finding)),
                _ => None,
            })
            .collect();
        found.sort_by_key(|(evaluated, _)| evaluated.rule.severity);
        found
    }
}

fn sentence(finding: &Finding) -> String {
    let mut text = format!("{}{}", finding.sentence(), finding.certainty.ending());
    if let Some(detail) = &finding.detail {
        text.push_str(". ");
        text.push_str(detail);
    }
    text
}

fn reason(evaluated: &Evaluated) -> Option<String> {
    use millrace_core::rules::Severity;
    match &evaluated.reason {
        ReasonState::Outdated(reason) => Some(format!(
            "A reason was recorded for {} ({}); the finding reads otherwise now, so it does not count: {}",
            reason.measured, reason.limit, reason.reason
        )),
        ReasonState::None if evaluated.rule.severity == Severity::Review => {
            Some("No reason recorded.".to_owned())
        }
        _ => None,
    }
}
