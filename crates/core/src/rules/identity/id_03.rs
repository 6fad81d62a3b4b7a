//! `ID-03`: the operated eye was changed after measurements existed.

use crate::evidence::{STEEPLES_2016, Standing};
use crate::rules::{Detail, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "ID-03",
    title: "Operative eye was changed",
    group: Group::Identity,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether the operative eye of this case was changed when measurements already existed. Any such change is shown with its reason.",
    why: "Of 178 British reports of a wrong lens, 9 were left for right. A change of eye can leave papers for both eyes in one set of notes.",
    options: "Consider comparing the eye with consent, notes and marking once more, and putting aside every sheet for the other eye.",
    sources: &[Standing::Printed.of(STEEPLES_2016, "left/right, 9 of 178")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let changes = &facts.draft.eye_changes;
    if changes.is_empty() {
        return Ok(None);
    }
    let steps = changes.iter().map(|change| [change.from, change.to]);
    let reasons = changes.iter().map(|change| change.reason.clone());
    Finding::new(Fact::EyeChanges(steps.collect()), Limit::OneEye)
        .with([Detail::ReasonsGiven(reasons.collect())])
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Side;
    use crate::case::EyeChange;
    use crate::rules::testing::{assert_found, assert_satisfied, date};
    use crate::rules::{Detail, Fact, Limit};

    fn change(from: Side, reason: &str) -> EyeChange {
        EyeChange {
            from,
            to: from.other(),
            reason: reason.to_owned(),
            by: "A. Okafor".to_owned(),
            on: date(2026, 12, 1),
        }
    }

    #[test]
    fn a_case_that_kept_its_eye_passes() {
        assert_satisfied(&RULE, |_| {});
    }

    #[test]
    fn every_change_is_shown_with_its_reason() {
        let finding = assert_found(
            &RULE,
            |draft| draft.0.eye_changes = vec![change(Side::Left, "listed wrongly")],
            Fact::EyeChanges(vec![[Side::Left, Side::Right]]),
            Limit::OneEye,
        );
        let reasons = vec!["listed wrongly".to_owned()];
        assert_eq!(finding.details, [Detail::ReasonsGiven(reasons)]);
        let finding = assert_found(
            &RULE,
            |draft| {
                draft.0.eye_changes = vec![
                    change(Side::Right, "patient's wish"),
                    change(Side::Left, "consent is for the right"),
                ];
            },
            Fact::EyeChanges(vec![[Side::Right, Side::Left], [Side::Left, Side::Right]]),
            Limit::OneEye,
        );
        let reasons = ["patient's wish", "consent is for the right"];
        let reasons = reasons.map(str::to_owned).to_vec();
        assert_eq!(finding.details, [Detail::ReasonsGiven(reasons)]);
    }
}
