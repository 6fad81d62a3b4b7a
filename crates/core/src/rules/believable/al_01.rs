//! `AL-01`: axial length outside the usual.

use super::LENGTH_AND_K_TO_POWER;
use crate::evidence::{CLINICAL_NOTES, COLLEGE_2010, KNOX_CARTWRIGHT_2010, Standing};
use crate::rules::check::within;
use crate::rules::{Facts, Group, Look, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "AL-01",
    title: "Axial length is unusual",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Axial length of the operative eye against the shortest and the longest that pass, 21.20 and 26.60 mm unless the clinic sets others; both pass themselves.",
    why: "An unusual length may be a faulty measurement, two records exchanged, or anatomy, and 1 mm is 2.5 to 3 D of lens power.",
    options: "Consider repeating the measurement and having a second observer measure. If it stands, the reason may be recorded.",
    sources: &[
        Standing::Memory.of(COLLEGE_2010, "< 21.2 or > 26.6 mm"),
        Standing::Memory.of(KNOX_CARTWRIGHT_2010, "< 21.2 or > 26.6 mm"),
        Standing::Secondary.of(CLINICAL_NOTES, "21.30 and 26.60 mm"),
        LENGTH_AND_K_TO_POWER,
    ],
    limits: &["axial_length_shortest", "axial_length_longest"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let limits = facts.limits;
    let limits = [limits.axial_length_shortest, limits.axial_length_longest];
    Ok(within(Quantity::Length, facts.length()?, limits))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for length in ["21.20 mm", "23.50 mm", "26.60 mm"] {
            assert_satisfied(&RULE, |draft| draft.set_axial_length(length));
        }
        for (length, measured) in [("21.199 mm", "21.199 mm"), ("26.601 mm", "26.601 mm")] {
            assert_finding(
                &RULE,
                |draft| draft.set_axial_length(length),
                [measured, "21.20 mm to 26.60 mm"],
            );
        }
    }

    #[test]
    fn without_a_length_it_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().axial_length = None);
    }
}
