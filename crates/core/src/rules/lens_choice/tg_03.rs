//! `TG-03`: a hyperopic target.

use crate::evidence::{HOUSE, NO_SOURCE, Standing};
use crate::rules::check::at_most;
use crate::rules::{Facts, Group, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TG-03",
    title: "The target is hyperopic",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Target refraction against +0.50 D. The limit itself passes.",
    why: "A hyperopic eye without accommodation sees sharply at no distance, so such a target is seldom wanted; a lost minus sign makes one of a target for near.",
    options: "The sign may be compared with what was discussed with the patient, and the reason for a hyperopic target recorded.",
    sources: &[
        Standing::CommonPractice.of(NO_SOURCE, "plano or myopic targets"),
        Standing::Assumption.of(HOUSE, "+0.50 D"),
    ],
    limits: &["target_hyperopic_review"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let target = facts.draft.lens.target.ok_or(Missing::Target)?;
    let limit = facts.limits.target_hyperopic_review;
    Ok(at_most(Quantity::Power, target, limit))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied, diopters,
    };

    fn target(hundredths: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| draft.0.lens.target = Some(diopters(hundredths))
    }

    #[test]
    fn at_the_limit_one_step_beyond_and_without_a_target() {
        for hundredths in [-300, 0, 50] {
            assert_satisfied(&RULE, target(hundredths));
        }
        for (hundredths, measured) in [(51, "+0.51 D"), (250, "+2.50 D")] {
            assert_finding(&RULE, target(hundredths), [measured, "at most +0.50 D"]);
        }
        assert_not_evaluated(&RULE, |_| {});
    }
}
