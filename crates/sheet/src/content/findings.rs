//! Findings in words, and every override with its reason.

use millrace_core::rules::Certainty;
use millrace_core::signing::results::{RuleResult, RuleVerdict};
use millrace_core::words::day;

use super::Subject;
use crate::data::{FindingRow, Findings, Override};

/// Gravest first.
const SEVERITIES: [&str; 3] = ["Stop", "Review", "Note"];

impl<'a> Subject<'a> {
    /// Findings with a reason that counts.
    pub(super) fn overrides(self) -> Vec<Override> {
        let mut overrides = Vec::new();
        for rule in self.sorted() {
            let RuleVerdict::Finding {
                reason: Some(reason),
                by,
                ..
            } = &rule.verdict
            else {
                continue;
            };
            let recorded = self.draft.reasons.iter().find(|r| r.rule == rule.id);
            overrides.push(Override {
                severity: rule.severity.clone(),
                id: rule.id.clone(),
                title: rule.title.clone(),
                sentence: sentence(&rule.verdict),
                reason: reason.clone(),
                by: super::stated(by.as_ref()),
                on: super::stated(recorded.map(|recorded| day(recorded.author.on))),
            });
        }
        overrides
    }

    pub(super) fn findings(self) -> Findings {
        let rows = self.sorted().filter(|rule| !has_reason(rule));
        let rows = rows.map(|rule| FindingRow {
            severity: rule.severity.clone(),
            id: rule.id.clone(),
            title: rule.title.clone(),
            text: sentence(&rule.verdict),
            reason: self.reason(rule),
        });
        let not_evaluated = self.results.rules.iter().filter_map(|rule| {
            let RuleVerdict::NotEvaluated(missing) = &rule.verdict else {
                return None;
            };
            Some(format!("{} {}: needs {missing}", rule.id, rule.title))
        });
        let changed = self.limits.iter().filter_map(|limit| {
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
                rule.severity == severity && matches!(rule.verdict, RuleVerdict::Finding { .. })
            })
        })
    }

    /// Why a reason does not count, or that there is none where one is asked for.
    fn reason(self, rule: &RuleResult) -> Option<String> {
        match self
            .draft
            .reasons
            .iter()
            .find(|reason| reason.rule == rule.id)
        {
            Some(reason) => Some(format!(
                "A reason was recorded for {} ({}); the finding reads otherwise now, so it does not count: {}",
                reason.measured, reason.limit, reason.reason
            )),
            None if rule.severity == "Review" => Some("No reason recorded.".to_owned()),
            None => None,
        }
    }
}

fn has_reason(rule: &RuleResult) -> bool {
    matches!(
        rule.verdict,
        RuleVerdict::Finding {
            reason: Some(_),
            ..
        }
    )
}

fn sentence(verdict: &RuleVerdict) -> String {
    let RuleVerdict::Finding {
        sentence,
        detail,
        borderline,
        chance,
        ..
    } = verdict
    else {
        return String::new();
    };
    let certainty = match *chance {
        None => Certainty::AsMeasured,
        Some(chance) if *borderline => Certainty::Borderline { chance },
        Some(chance) => Certainty::Clear { chance },
    };
    let mut text = format!("{sentence}{}", certainty.ending());
    if let Some(detail) = detail {
        text.push_str("; ");
        text.push_str(detail);
    }
    text
}
