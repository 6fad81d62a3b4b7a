//! `AL-03`: axial lengths of two eyes of ordinary length differ.

use crate::evidence::{HOUSE, JCRS_MOORFIELDS, KNOX_CARTWRIGHT_2010, Standing};
use crate::rules::check::at_most;
use crate::rules::{Because, Facts, Group, Look, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "AL-03",
    title: "Axial lengths of the two eyes differ in eyes of ordinary length",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Difference of axial length between the eyes against one limit while the longer eye is at most 26.00 mm: 0.70 mm, unless the clinic sets others. The limit itself passes, and a longer eye of 26.00 mm is still asked about.",
    why: "The difference may be a faulty measurement, two records exchanged, or anatomy. AL-02 draws a straight line between the printed 95th centiles, 0.5 mm when the longer eye is at most 22.0 mm and 4.0 mm from 28 mm on; at 24 to 25 mm it allows 1.66 to 2.25 mm, too much to notice that records were exchanged. The limit of 0.7 mm is recalled, not read again; longer eyes exceed it without a fault, so they are left to AL-02.",
    options: "Consider checking that both records belong to this patient and these eyes, and repeating both measurements. If they stand, the reason may be recorded.",
    sources: &[
        Standing::Memory.of(KNOX_CARTWRIGHT_2010, "> 0.7 mm between the eyes"),
        Standing::Printed.of(
            JCRS_MOORFIELDS,
            "95th centile 0.5 mm (longer eye ≤ 22.0 mm) and 4.0 mm (≥ 28 mm)",
        ),
        Standing::Assumption.of(
            HOUSE,
            "asked up to 26.0 mm only, since longer eyes differ more",
        ),
    ],
    limits: &["axial_difference_flat", "axial_difference_flat_end"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let [operated, fellow] = facts.both_lengths()?;
    let limits = facts.limits;
    if operated.max(fellow) > limits.axial_difference_flat_end {
        return Err(Because::LongEye.into());
    }
    let limit = limits.axial_difference_flat;
    Ok(at_most(Quantity::Length, operated.abs_diff(fellow), limit))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        // In `f64` the difference of 22.10 and 21.40 is more than 0.70.
        for (operated, fellow) in [
            ("22.10 mm", "21.40 mm"),
            ("21.40 mm", "22.10 mm"),
            ("22.10 mm", "21.401 mm"),
            ("26.00 mm", "25.30 mm"),
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
    fn a_longer_eye_beyond_the_end_is_left_to_the_sloping_limit() {
        for (operated, fellow) in [("26.00 mm", "25.299 mm"), ("25.299 mm", "26.00 mm")] {
            assert_finding(
                &RULE,
                |draft| draft.set_axial_lengths(operated, fellow),
                ["0.701 mm", "at most 0.70 mm"],
            );
        }
        for (operated, fellow) in [
            ("26.001 mm", "25.30 mm"),
            ("25.30 mm", "26.001 mm"),
            ("26.001 mm", "26.001 mm"),
        ] {
            assert_not_applicable(&RULE, |draft| draft.set_axial_lengths(operated, fellow));
        }
    }

    #[test]
    fn both_eyes_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.operated().axial_length = None);
        assert_not_evaluated(&RULE, |draft| draft.fellow().axial_length = None);
    }
}
