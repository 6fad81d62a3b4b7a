//! `HS-01`: axial length outside the stricter screening set of 1988.

use super::{LENGTH_AND_K_TO_POWER, strictly};
use crate::evidence::{HOLLADAY_1988, Source, Standing};
use crate::rules::check::known_within;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "HS-01",
    title: "Axial length is outside the stricter set",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Applied only if the clinic switched the stricter set on. Axial length of the operated eye against 22.00 and 25.00 mm unless the clinic sets others; both pass themselves.",
    why: "The stricter set was published in 1988 as the first part, the screening, of a three-part system. 1 mm of axial length is 2.5 to 3 D of lens power.",
    options: "Consider repeating the measurement. If it stands, the reason may be recorded. A clinic may switch the set off in its limits.",
    sources: &[
        Source {
            work: HOLLADAY_1988,
            locator: "AL < 22 or > 25 mm (limits from a summary; that screening is part one of three is printed in the abstract)",
            standing: Standing::Secondary,
        },
        LENGTH_AND_K_TO_POWER,
    ],
    limits: &[
        "strict_screening",
        "strict_axial_shortest",
        "strict_axial_longest",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let limits = facts.limits;
    strictly(facts, || {
        let length = facts.operated.0.axial_length.as_ref();
        known_within(
            length.map(|measured| measured.value.get()),
            [limits.strict_axial_shortest, limits.strict_axial_longest],
            "axial length of the operated eye",
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
        for length in ["22.00 mm", "22.001 mm", "24.999 mm", "25.00 mm"] {
            let verdict = verdict_strictly(&RULE, |draft| draft.set_axial_length(length));
            assert_eq!(verdict, Verdict::Satisfied);
        }
        for length in ["21.999 mm", "25.001 mm"] {
            let verdict = verdict_strictly(&RULE, |draft| draft.set_axial_length(length));
            assert_shows(verdict, [length, "22.00 mm to 25.00 mm"]);
        }
    }

    #[test]
    fn without_a_length_it_says_so() {
        not_evaluated_strictly(&RULE, |draft| draft.operated().axial_length = None);
    }

    #[test]
    fn switched_off_it_does_not_apply() {
        assert_not_applicable(&RULE, |draft| draft.set_axial_length("21.00 mm"));
    }
}
