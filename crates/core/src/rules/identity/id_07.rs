//! `ID-07`: the case is set aside.

use crate::evidence::{HOUSE, Standing};
use crate::rules::{Detail, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "ID-07",
    title: "Case is set aside",
    group: Group::Identity,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether the case was set aside and not brought back since.",
    why: "What somebody put away for a reason is not to reach theatre by the way: the operation may be off, or the case may be a second one of the same eye.",
    options: "The case may be brought back where the reason no longer holds. While it is set aside the plan cannot be signed.",
    sources: &[Standing::Assumption.of(HOUSE, "what is set aside is not operated on")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let Some(said) = &facts.draft.set_aside else {
        return Ok(None);
    };
    let reason = said.reason.clone();
    Finding::new(Fact::SetAside, Limit::StillPlanned)
        .with(reason.map(|reason| Detail::ReasonsGiven(vec![reason])))
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::SetAside;
    use crate::rules::testing::{assert_found, assert_satisfied, date};
    use crate::rules::{Detail, Fact, Limit};

    fn said(reason: Option<&str>) -> SetAside {
        SetAside {
            reason: reason.map(str::to_owned),
            by: "A. Okafor".to_owned(),
            on: date(2026, 12, 1),
        }
    }

    #[test]
    fn a_case_that_is_planned_passes() {
        assert_satisfied(&RULE, |_| {});
    }

    #[test]
    fn one_that_is_set_aside_does_not_and_its_reason_is_told() {
        for (reason, details) in [
            (
                Some("moved away"),
                vec![Detail::ReasonsGiven(vec!["moved away".to_owned()])],
            ),
            (None, vec![]),
        ] {
            let finding = assert_found(
                &RULE,
                |draft| draft.0.set_aside = Some(said(reason)),
                Fact::SetAside,
                Limit::StillPlanned,
            );
            assert_eq!(finding.details, details);
        }
    }
}
