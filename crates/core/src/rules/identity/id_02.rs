//! `ID-02`: the planned target is not the one the patient consented to.

use crate::evidence::{HSIB_2018, STEEPLES_2016, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "ID-02",
    title: "Target is not the consented target",
    group: Group::Identity,
    severity: Severity::Stop,
    bearing: None,
    checks: "Planned target against the target the patient consented to, in exact hundredths of a diopter; only the same number passes. A target without a recorded consented target does not pass.",
    why: "In a national investigation of a wrong lens, the mismatch with the consented target was noticed and explained away. Of 178 British reports, 16 came from a changed plan. A consent that is not recorded cannot be compared with the target.",
    options: "The target may be set to the consented one, or the change discussed with the patient and the new consent entered; a consent that was given but not recorded may be entered. While the two differ, or one is missing, the plan cannot be signed.",
    sources: &[
        Standing::Printed.of(
            HSIB_2018,
            "a mismatch with the consented target was noticed and explained away",
        ),
        Standing::Printed.of(STEEPLES_2016, "changed plan, 16 of 178"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lens = &facts.draft.lens;
    let Some(target) = lens.target else {
        return Err(Missing::Target.into());
    };
    let limit = match lens.consented_target {
        Some(consented) if target == consented => return Ok(None),
        Some(consented) => Limit::ConsentedTarget(consented),
        None => Limit::RecordedConsent,
    };
    Finding::new(Fact::Target(target), limit).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied, diopters,
    };
    use crate::rules::{Fact, Limit};

    fn aim(draft: &mut DraftUnderTest, target: i32, consented: i32) {
        draft.0.lens.target = Some(diopters(target));
        draft.0.lens.consented_target = Some(diopters(consented));
    }

    #[test]
    fn only_the_same_hundredth_passes() {
        assert_satisfied(&RULE, |draft| aim(draft, -25, -25));
        for target in [-26, -24] {
            assert_found(
                &RULE,
                |draft| aim(draft, target, -25),
                Fact::Target(diopters(target)),
                Limit::ConsentedTarget(diopters(-25)),
            );
        }
    }

    #[test]
    fn a_lost_sign_is_a_difference() {
        assert_found(
            &RULE,
            |draft| aim(draft, 300, -300),
            Fact::Target(diopters(300)),
            Limit::ConsentedTarget(diopters(-300)),
        );
    }

    #[test]
    fn a_target_without_a_recorded_consent_stops() {
        assert_found(
            &RULE,
            |draft| {
                aim(draft, -25, -25);
                draft.0.lens.consented_target = None;
            },
            Fact::Target(diopters(-25)),
            Limit::RecordedConsent,
        );
    }

    #[test]
    fn a_target_is_needed() {
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, |draft| {
            aim(draft, -25, -25);
            draft.0.lens.target = None;
        });
    }
}
