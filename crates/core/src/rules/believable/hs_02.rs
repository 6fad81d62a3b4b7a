//! `HS-02`: mean corneal power outside the stricter screening set of 1988.

use super::{LENGTH_AND_K_TO_POWER, mean_k, strictly};
use crate::evidence::{HOLLADAY_1988, Source, Standing};
use crate::rules::check::{Unsigned, known_within};
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "HS-02",
    title: "Mean K is outside the stricter set",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Applied only if the clinic switched the stricter set on. Mean K of the operated eye at index 1.3375, to the nearest 0.01 D, against 40.00 and 47.00 D unless the clinic sets others; both pass themselves.",
    why: "The stricter set was published in 1988 as the first part, the screening, of a three-part system. 1 D of K is about 1 D of lens power.",
    options: "Consider repeating the measurement. If it stands, the reason may be recorded. A clinic may switch the set off in its limits.",
    sources: &[
        Source {
            work: HOLLADAY_1988,
            locator: "K < 40 or > 47 D (limits from a summary; that screening is part one of three is printed in the abstract)",
            standing: Standing::Secondary,
        },
        LENGTH_AND_K_TO_POWER,
    ],
    limits: &["strict_screening", "strict_k_flattest", "strict_k_steepest"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let limits = facts.limits;
    strictly(facts, || {
        known_within(
            mean_k(facts.operated.0),
            [limits.strict_k_flattest, limits.strict_k_steepest].map(Unsigned),
            "keratometry of the operated eye",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::Verdict;
    use crate::rules::testing::{
        assert_not_applicable, assert_shows, not_evaluated_strictly, verdict_strictly,
    };

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for power in [
            "40.00 D at 1.3375",
            "40.01 D at 1.3375",
            "46.99 D at 1.3375",
            "47.00 D at 1.3375",
        ] {
            let verdict = verdict_strictly(&RULE, |draft| draft.set_keratometry(power, power));
            assert_eq!(verdict, Verdict::Satisfied);
        }
        for (power, measured) in [
            ("39.99 D at 1.3375", "39.99 D"),
            ("47.01 D at 1.3375", "47.01 D"),
        ] {
            let verdict = verdict_strictly(&RULE, |draft| draft.set_keratometry(power, power));
            assert_shows(verdict, [measured, "40.00 D to 47.00 D"]);
        }
    }

    #[test]
    fn without_keratometry_it_says_so() {
        not_evaluated_strictly(&RULE, |draft| draft.operated().keratometry = None);
    }

    #[test]
    fn switched_off_it_does_not_apply() {
        assert_not_applicable(&RULE, |draft| {
            draft.set_keratometry("39.00 D at 1.3375", "39.00 D at 1.3375");
        });
    }
}
