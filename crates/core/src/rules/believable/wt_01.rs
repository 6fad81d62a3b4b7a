//! `WT-01`: corneal diameter outside the usual.

use crate::evidence::{CLINICAL_NOTES, POPULATION_14, Standing};
use crate::rules::check::within;
use crate::rules::{Facts, Group, Look, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "WT-01",
    title: "Corneal diameter is unusual",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Corneal diameter (white to white) of the operative eye against the smallest and the largest that pass, 10.75 and 13.00 mm unless the clinic sets others; both pass themselves.",
    why: "A diameter under 10.75 or over 13.0 mm may be a misplaced edge; if it is real, lens position and a lens for the anterior chamber are affected. Population studies have 11.0 to 12.6 mm within ±2 SD.",
    options: "Consider repeating the measurement, or measuring with a caliper. If it stands, the reason may be recorded.",
    sources: &[
        Standing::Secondary.of(CLINICAL_NOTES, "< 10.75 or > 13.0 mm"),
        Standing::Printed.of(POPULATION_14, "±2 SD 11.0 to 12.6 mm"),
    ],
    limits: &["corneal_diameter_smallest", "corneal_diameter_largest"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let limits = facts.limits;
    let limits = [
        limits.corneal_diameter_smallest,
        limits.corneal_diameter_largest,
    ];
    Ok(within(Quantity::Length, facts.corneal_diameter()?, limits))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for diameter in ["10.75 mm", "10.751 mm", "12.999 mm", "13.00 mm"] {
            assert_satisfied(&RULE, |draft| draft.set_corneal_diameter(diameter));
        }
        for diameter in ["10.749 mm", "13.001 mm"] {
            assert_finding(
                &RULE,
                |draft| draft.set_corneal_diameter(diameter),
                [diameter, "10.75 mm to 13.00 mm"],
            );
        }
    }

    #[test]
    fn without_a_diameter_it_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().corneal_diameter = None);
    }
}
