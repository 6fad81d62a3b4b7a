//! `ID-02`: the planned target is not the one the patient consented to.

use crate::evidence::{HSIB_2018, STEEPLES_2016, Source, Standing};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
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
        Source {
            work: HSIB_2018,
            locator: "a mismatch with the consented target was noticed and explained away",
            standing: Standing::Printed,
        },
        Source {
            work: STEEPLES_2016,
            locator: "changed plan, 16 of 178",
            standing: Standing::Printed,
        },
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let lens = &facts.draft.lens;
    let Some(target) = lens.target else {
        return not_evaluated("target");
    };
    let limit = match lens.consented_target {
        Some(consented) if target == consented => return Verdict::Satisfied,
        Some(consented) => format!("consented target {consented}"),
        None => "a recorded consented target".to_owned(),
    };
    Finding::new(format!("target {target}"), limit).into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied,
    };

    fn aim(draft: &mut DraftUnderTest, target: i32, consented: i32) {
        draft.0.lens.target = Some(HundredthDiopters::new(target));
        draft.0.lens.consented_target = Some(HundredthDiopters::new(consented));
    }

    #[test]
    fn only_the_same_hundredth_passes() {
        assert_satisfied(&RULE, |draft| aim(draft, -25, -25));
        assert_finding(
            &RULE,
            |draft| aim(draft, -26, -25),
            ["target \u{2212}0.26 D", "consented target \u{2212}0.25 D"],
        );
        assert_finding(
            &RULE,
            |draft| aim(draft, -24, -25),
            ["target \u{2212}0.24 D", "consented target \u{2212}0.25 D"],
        );
    }

    #[test]
    fn a_lost_sign_is_a_difference() {
        assert_finding(
            &RULE,
            |draft| aim(draft, 300, -300),
            ["target +3.00 D", "consented target \u{2212}3.00 D"],
        );
    }

    #[test]
    fn a_target_without_a_recorded_consent_stops() {
        assert_finding(
            &RULE,
            |draft| {
                aim(draft, -25, -25);
                draft.0.lens.consented_target = None;
            },
            ["target \u{2212}0.25 D", "a recorded consented target"],
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
