//! `KM-02`: corneal astigmatism larger than usual.

use super::corneal_astigmatism;
use crate::evidence::{CLINICAL_NOTES, KNOX_CARTWRIGHT_2010, Standing};
use crate::rules::check::at_most;
use crate::rules::{Facts, Group, Look, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "KM-02",
    title: "Corneal astigmatism is large",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Difference of the two principal corneal powers of the operative eye at index 1.3375, to the nearest 0.01 D, against the largest that passes, 2.50 D unless the clinic sets another. The limit itself passes.",
    why: "Corneal astigmatism over 2.50 D may be a faulty reading, a contact lens, a scar or an ectasia (common practice). If it is real, a lens without a cylinder leaves it in the glasses.",
    options: "Consider repeating the measurement and looking at the corneal map. If it stands, the reason may be recorded.",
    sources: &[
        Standing::Secondary.of(CLINICAL_NOTES, "> 2.50 D"),
        Standing::Memory.of(KNOX_CARTWRIGHT_2010, "> 2.50 D"),
    ],
    limits: &["corneal_astigmatism"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let limit = facts.limits.corneal_astigmatism;
    Ok(at_most(
        Quantity::Magnitude,
        corneal_astigmatism(facts)?,
        limit,
    ))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for steep in [
            "43.00 D at 1.3375",
            "45.49 D at 1.3375",
            "45.50 D at 1.3375",
        ] {
            assert_satisfied(&RULE, |draft| {
                draft.set_keratometry("43.00 D at 1.3375", steep);
            });
        }
        assert_finding(
            &RULE,
            |draft| draft.set_keratometry("43.00 D at 1.3375", "45.51 D at 1.3375"),
            ["2.51 D", "at most 2.50 D"],
        );
    }

    #[test]
    fn readings_in_the_wrong_order_hide_nothing() {
        assert_finding(
            &RULE,
            |draft| draft.set_keratometry("45.51 D at 1.3375", "43.00 D at 1.3375"),
            ["2.51 D", "at most 2.50 D"],
        );
    }

    /// By hand: 337.5/7.50 = 45.00 D and 337.5/8.00 = 42.19 D.
    #[test]
    fn radii_are_compared_as_powers() {
        assert_finding(
            &RULE,
            |draft| draft.set_keratometry("8.00 mm", "7.50 mm"),
            ["2.81 D", "at most 2.50 D"],
        );
    }

    #[test]
    fn without_keratometry_it_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().keratometry = None);
    }
}
