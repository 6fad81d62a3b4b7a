//! `HS-05`: axial lengths differ more than the stricter screening set of 1988 allows.

use super::{axial_lengths_apart, strictly};
use crate::evidence::{HOLLADAY_1988, Source, Standing};
use crate::rules::check::known_at_most;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "HS-05",
    title: "Axial length between the eyes is outside the stricter set",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Applied only if the clinic switched the stricter set on. Difference of axial length between the eyes against 0.30 mm unless the clinic sets another limit. The limit itself passes.",
    why: "The stricter set was published in 1988 as the first part, the screening, of a three-part system. 0.30 mm of axial length is 0.75 to 0.9 D of lens power.",
    options: "Consider repeating the measurement. If it stands, the reason may be recorded. A clinic may switch the set off in its limits.",
    sources: &[Source {
        work: HOLLADAY_1988,
        locator: "between eyes AL > 0.3 mm (limits from a summary; that screening is part one of three is printed in the abstract)",
        standing: Standing::Secondary,
    }],
    limits: &["strict_screening", "strict_axial_difference"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    strictly(facts, || {
        known_at_most(
            axial_lengths_apart(facts),
            &facts.limits.strict_axial_difference,
            "axial length of both eyes",
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
    fn at_the_limit_and_one_step_beyond() {
        let verdict =
            |fellow| verdict_strictly(&RULE, |draft| draft.set_axial_lengths("23.50 mm", fellow));
        for fellow in ["23.20 mm", "23.201 mm", "23.80 mm"] {
            assert_eq!(verdict(fellow), Verdict::Satisfied);
        }
        for fellow in ["23.199 mm", "23.801 mm"] {
            assert_shows(verdict(fellow), ["0.301 mm", "at most 0.30 mm"]);
        }
    }

    #[test]
    fn both_eyes_are_needed() {
        not_evaluated_strictly(&RULE, |draft| draft.operated().axial_length = None);
        not_evaluated_strictly(&RULE, |draft| draft.fellow().axial_length = None);
    }

    #[test]
    fn switched_off_it_does_not_apply() {
        assert_not_applicable(&RULE, |draft| {
            draft.set_axial_lengths("23.50 mm", "24.50 mm");
        });
    }
}
