//! Findings in words, and every override with its reason.

use std::borrow::Cow;

use millrace_core::case::RecordedReason;
use millrace_core::document::{ReasonResult, RuleResult};
use millrace_core::rules::{Missing, Severity, Verdict, by_id};
use millrace_wording::text::{banner, plan};
use millrace_wording::{Show as _, Words, rules as say, sheet as say_sheet, signing};

use super::Subject;
use crate::data::{FindingRow, Findings, Override};

/// Gravest first.
const SEVERITIES: [Severity; 3] = [Severity::Stop, Severity::Review, Severity::Note];

impl<'a> Subject<'a> {
    /// Findings with a reason that counts.
    pub(super) fn overrides(self) -> Vec<Override> {
        let words = self.words;
        let mut overrides = Vec::new();
        for rule in self.sorted() {
            if rule.reason != ReasonResult::Standing {
                continue;
            }
            let recorded = self.document.reason(rule);
            overrides.push(Override {
                severity: rule.severity.show(words).into_owned(),
                id: rule.id.clone(),
                title: title(words, rule).into_owned(),
                sentence: sentence(words, &rule.verdict),
                reason: self.stated(recorded.map(|recorded| &recorded.reason)),
                by: self.stated(recorded.map(|recorded| &recorded.by)),
                on: self.stated(recorded.map(|recorded| recorded.on)),
            });
        }
        overrides
    }

    pub(super) fn findings(self) -> Findings {
        let words = self.words;
        let rows = self
            .sorted()
            .filter(|rule| rule.reason != ReasonResult::Standing);
        let rows = rows.map(|rule| FindingRow {
            severity: rule.severity.show(words).into_owned(),
            id: rule.id.clone(),
            title: title(words, rule).into_owned(),
            text: sentence(words, &rule.verdict),
            reason: self.reason(rule),
        });
        let mut missing: Vec<(&Missing, Vec<String>)> = Vec::new();
        for rule in &self.results.rules {
            let Verdict::NotEvaluated(entry) = &rule.verdict else {
                continue;
            };
            let rule = signing::named(words, &rule.id, title(words, rule));
            match missing.iter_mut().find(|(known, _)| *known == entry) {
                Some((_, rules)) => rules.push(rule),
                None => missing.push((entry, vec![rule])),
            }
        }
        // Each missing entry once, with what could not be looked at without it.
        let not_evaluated = missing.into_iter();
        let not_evaluated = not_evaluated
            .map(|(entry, rules)| say_sheet::is_missing(words, entry, words.clauses(rules)));
        let changed = self.document.changed_limits().filter_map(|limit| {
            let shipped = limit.shipped.as_ref()?;
            Some(banner::changed_limit(
                words,
                &limit.name,
                &limit.in_use,
                shipped,
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
            Some(RecordedReason {
                measured,
                limit,
                reason,
                ..
            }) => Some(plan::reason_outdated(self.words, measured, limit, reason)),
            None if rule.severity == Severity::Review => {
                Some(plan::no_reason(self.words).to_owned())
            }
            None => None,
        }
    }
}

/// The words of a rule are today's; what was signed are its facts.
fn title(words: Words, rule: &RuleResult) -> Cow<'static, str> {
    by_id(&rule.id).map_or("".into(), |known| {
        say::title(words, known.title, rule.backup)
    })
}

fn sentence(words: Words, verdict: &Verdict) -> String {
    let Verdict::Finding(finding) = verdict else {
        return String::new();
    };
    let said = say::finding_and_certainty(words, finding);
    words.clauses(
        [Some(said), say::details(words, finding)]
            .into_iter()
            .flatten(),
    )
}
