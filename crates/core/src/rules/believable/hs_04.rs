//! `HS-04`: mean corneal powers differ more than the stricter screening set of 1988 allows.

use super::{mean_k_apart, strictly};
use crate::evidence::{HOLLADAY_1988, Source, Standing};
use crate::rules::check::{Unsigned, known_at_most};
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "HS-04",
    title: "Mean K between the eyes is outside the stricter set",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Applied only if the clinic switched the stricter set on. Difference of mean K between the eyes at index 1.3375, to the nearest 0.01 D, against 1.00 D unless the clinic sets another limit. The limit itself passes.",
    why: "The stricter set was published in 1988 as the first part, the screening, of a three-part system. The corneas of one person are usually alike.",
    options: "Consider repeating the measurement. If it stands, the reason may be recorded. A clinic may switch the set off in its limits.",
    sources: &[Source {
        work: HOLLADAY_1988,
        locator: "between eyes K > 1 D (limits from a summary; that screening is part one of three is printed in the abstract)",
        standing: Standing::Secondary,
    }],
    limits: &["strict_screening", "strict_k_difference"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    strictly(facts, || {
        known_at_most(
            mean_k_apart(facts),
            &Unsigned(facts.limits.strict_k_difference),
            "keratometry of both eyes",
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

    /// By hand: the operated eye's 43.50 and 44.00 D have a mean of 43.75 D.
    #[test]
    fn at_the_limit_and_one_step_beyond() {
        let verdict =
            |power| verdict_strictly(&RULE, |draft| draft.set_fellow_keratometry(power, power));
        for power in [
            "44.74 D at 1.3375",
            "44.75 D at 1.3375",
            "42.75 D at 1.3375",
        ] {
            assert_eq!(verdict(power), Verdict::Satisfied);
        }
        for power in ["44.76 D at 1.3375", "42.74 D at 1.3375"] {
            assert_shows(verdict(power), ["1.01 D", "at most 1.00 D"]);
        }
    }

    #[test]
    fn both_eyes_are_needed() {
        not_evaluated_strictly(&RULE, |draft| draft.operated().keratometry = None);
        not_evaluated_strictly(&RULE, |draft| draft.fellow().keratometry = None);
    }

    #[test]
    fn switched_off_it_does_not_apply() {
        assert_not_applicable(&RULE, |draft| {
            draft.set_fellow_keratometry("46.00 D at 1.3375", "46.00 D at 1.3375");
        });
    }
}
