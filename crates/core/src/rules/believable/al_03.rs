//! `AL-03`: axial lengths of the two eyes differ more than the flat limit.

use super::axial_lengths_apart;
use crate::evidence::{CLINICAL_NOTES, JCRS_MOORFIELDS, Source, Standing};
use crate::rules::check::known_at_most;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "AL-03",
    title: "Axial lengths differ by more than the flat limit",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Difference of axial length between the eyes against one limit for eyes of any length, 0.70 mm unless the clinic sets another. The limit itself passes.",
    why: "A flat limit is simple to remember. This one is recalled, not read again, and long eyes exceed it without a fault: the printed 95th centile is 0.5 mm when the longer eye is at most 22.0 mm and 4.0 mm from 28 mm on, which AL-02 follows.",
    options: "Consider it beside AL-02; both measurements may be repeated if either looks doubtful.",
    sources: &[
        Source {
            work: CLINICAL_NOTES,
            locator: "> 0.7 mm, where it was printed is not known",
            standing: Standing::Memory,
        },
        Source {
            work: JCRS_MOORFIELDS,
            locator: "95th centile 0.5 mm (longer eye ≤ 22.0 mm) and 4.0 mm (≥ 28 mm)",
            standing: Standing::Printed,
        },
    ],
    limits: &["axial_difference_flat"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    known_at_most(
        axial_lengths_apart(facts),
        &facts.limits.axial_difference_flat,
        "axial length of both eyes",
    )
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        // In `f64` the difference of 22.10 and 21.40 is more than 0.70.
        for (operated, fellow) in [
            ("22.10 mm", "21.40 mm"),
            ("21.40 mm", "22.10 mm"),
            ("22.10 mm", "21.401 mm"),
            ("29.00 mm", "28.30 mm"),
        ] {
            assert_satisfied(&RULE, |draft| draft.set_axial_lengths(operated, fellow));
        }
        for (operated, fellow) in [("22.10 mm", "21.399 mm"), ("21.399 mm", "22.10 mm")] {
            assert_finding(
                &RULE,
                |draft| draft.set_axial_lengths(operated, fellow),
                ["0.701 mm", "at most 0.70 mm"],
            );
        }
    }

    #[test]
    fn both_eyes_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.operated().axial_length = None);
        assert_not_evaluated(&RULE, |draft| draft.fellow().axial_length = None);
    }
}
