//! Rules, their verdicts, and the reasons recorded for going against them.

use crate::case::{RecordedReason, Slot};
use crate::lens::Place;
use crate::rules::{ALL, Facts, Finding, OF_EVERY_LENS, Rule, Verdict};

/// A rule with its verdict for this case.
#[derive(Clone, Debug)]
pub struct Evaluated {
    pub rule: &'static Rule,
    /// The backup lens it is about; nothing for the planned one, and for all else.
    pub backup: Option<Place>,
    pub verdict: Verdict,
    pub reason: ReasonState,
}

/// Whether a reason stands for a finding.
#[derive(Clone, Debug, PartialEq)]
pub enum ReasonState {
    None,
    /// One was recorded for the finding as it is now.
    Standing(RecordedReason),
    /// One was recorded for another one: it does not count.
    Outdated(RecordedReason),
}

impl Evaluated {
    /// Whether it is a finding without a reason that counts.
    pub fn is_open(&self) -> bool {
        matches!(self.verdict, Verdict::Finding(_))
            && !matches!(self.reason, ReasonState::Standing(_))
    }
}

/// Every rule with its verdict; one that looks at a lens gives one for each lens that was chosen.
pub(super) fn evaluate_all(facts: &Facts<'_>) -> Vec<Evaluated> {
    let lenses = facts.draft.lens.lenses.iter();
    let backups: Vec<_> = lenses
        .filter_map(|(slot, _)| match slot {
            Slot::Planned => None,
            Slot::Backup(place) => Some((place, facts.of_slot(slot))),
        })
        .collect();
    let mut all = Vec::new();
    for &rule in ALL {
        all.push(evaluate(rule, None, facts));
        if OF_EVERY_LENS.contains(&rule.id) {
            let of_backups = backups.iter();
            all.extend(of_backups.map(|(place, facts)| evaluate(rule, Some(*place), facts)));
        }
    }
    all
}

fn evaluate(rule: &'static Rule, backup: Option<Place>, facts: &Facts<'_>) -> Evaluated {
    let verdict = rule.verdict(facts);
    let mut reasons = facts.draft.reasons.iter();
    let recorded = reasons.find(|reason| reason.is_for(rule.id, backup));
    Evaluated {
        reason: reason_state(recorded, &verdict),
        rule,
        backup,
        verdict,
    }
}

fn reason_state(recorded: Option<&RecordedReason>, verdict: &Verdict) -> ReasonState {
    let Some(recorded) = recorded else {
        return ReasonState::None;
    };
    let still_stands = match verdict {
        Verdict::Finding(Finding {
            measured, limit, ..
        }) => *measured == recorded.measured && *limit == recorded.limit,
        _ => false,
    };
    if still_stands {
        return ReasonState::Standing(recorded.clone());
    }
    ReasonState::Outdated(recorded.clone())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::Draft;
    use crate::limits::Limits;
    use crate::plan::Plan;
    use crate::quantity::Micrometers;
    use crate::rules::testing::{date, ordinary_draft};
    use crate::rules::{Limit, Quantity};

    fn reason_state(draft: &Draft) -> ReasonState {
        let plan = Plan::of(draft, Limits::shipped()).unwrap();
        let found = plan
            .rules
            .into_iter()
            .find(|evaluated| evaluated.rule.id == "AL-01");
        found.unwrap().reason
    }

    #[test]
    fn a_reason_counts_only_while_the_finding_is_the_same() {
        let mut draft = ordinary_draft();
        draft.set_axial_length("27.00 mm");
        assert_eq!(reason_state(&draft.0), ReasonState::None);

        draft.0.reasons.push(RecordedReason {
            rule: "AL-01".to_owned(),
            backup: None,
            measured: Quantity::Length(Micrometers::new(27_000)).into(),
            limit: Limit::Within(
                Quantity::Length(Micrometers::new(21_200)),
                Quantity::Length(Micrometers::new(26_600)),
            ),
            reason: "measured three times".to_owned(),
            by: "A. Okafor".to_owned(),
            on: date(2026, 12, 1),
        });
        assert!(matches!(reason_state(&draft.0), ReasonState::Standing(_)));

        draft.set_axial_length("27.01 mm");
        assert!(matches!(reason_state(&draft.0), ReasonState::Outdated(_)));
        draft.set_axial_length("23.50 mm");
        assert!(matches!(reason_state(&draft.0), ReasonState::Outdated(_)));
    }
}
