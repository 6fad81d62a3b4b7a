//! `KM-01`: mean corneal power outside the usual.

use super::{LENGTH_AND_K_TO_POWER, mean_k, unless_cornea_operated};
use crate::evidence::{CLINICAL_NOTES, KNOX_CARTWRIGHT_2010, Standing};
use crate::rules::check::within;
use crate::rules::{Facts, Group, Look, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "KM-01",
    title: "Mean K is unusual",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Mean K of the operative eye, both meridians at index 1.3375, to the nearest 0.01 D, against the flattest and the steepest that pass, 41.00 and 47.00 D unless the clinic sets others; both pass themselves. It does not apply to a cornea that had refractive surgery.",
    why: "A mean K under 41 or over 47 D may come from a dry surface, a contact lens, a corneal disease or earlier corneal surgery as well as from a rare eye (common practice), and 1 D of K is about 1 D of lens power.",
    options: "Consider repeating the measurement on a rested, moist cornea, asking for contact lenses and corneal surgery, and looking at the corneal map. If it stands, the reason may be recorded.",
    sources: &[
        Standing::Secondary.of(CLINICAL_NOTES, "< 41 or > 47 D"),
        Standing::Memory.of(KNOX_CARTWRIGHT_2010, "< 41 or > 47 D"),
        LENGTH_AND_K_TO_POWER,
    ],
    limits: &["mean_k_flattest", "mean_k_steepest"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    unless_cornea_operated(facts)?;
    let limits = facts.limits;
    let limits = [limits.mean_k_flattest, limits.mean_k_steepest];
    Ok(within(Quantity::Magnitude, mean_k(facts)?, limits))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::CornealSurgery;
    use crate::rules::testing::{
        SURGERIES, assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for (flat, steep) in [
            ("41.00 D at 1.3375", "41.00 D at 1.3375"),
            ("40.50 D at 1.3375", "41.50 D at 1.3375"),
            ("41.01 D at 1.3375", "41.01 D at 1.3375"),
            ("46.99 D at 1.3375", "46.99 D at 1.3375"),
            ("46.00 D at 1.3375", "48.00 D at 1.3375"),
        ] {
            assert_satisfied(&RULE, |draft| draft.set_keratometry(flat, steep));
        }
        for (flat, steep, measured) in [
            ("40.99 D at 1.3375", "40.99 D at 1.3375", "40.99 D"),
            ("40.50 D at 1.3375", "41.48 D at 1.3375", "40.99 D"),
            ("47.01 D at 1.3375", "47.01 D at 1.3375", "47.01 D"),
        ] {
            assert_finding(
                &RULE,
                |draft| draft.set_keratometry(flat, steep),
                [measured, "41.00 D to 47.00 D"],
            );
        }
    }

    /// By hand: 46.50 D at 1.3315 is 46.50·337.5/331.5 = 47.34 D at 1.3375.
    #[test]
    fn a_power_at_another_index_is_compared_at_the_standard_one() {
        assert_finding(
            &RULE,
            |draft| draft.set_keratometry("46.50 D at 1.3315", "46.50 D at 1.3315"),
            ["47.34 D", "41.00 D to 47.00 D"],
        );
    }

    #[test]
    fn a_cornea_that_had_surgery_is_not_asked_about() {
        for kind in SURGERIES {
            assert_not_applicable(&RULE, |draft| {
                draft.set_keratometry("38.00 D at 1.3375", "38.00 D at 1.3375");
                draft.operate_cornea(kind);
            });
        }
        assert_finding(
            &RULE,
            |draft| {
                draft.set_keratometry("38.00 D at 1.3375", "38.00 D at 1.3375");
                draft.operated().state.corneal_surgery = Some(CornealSurgery::Absent);
            },
            ["38.00 D", "41.00 D to 47.00 D"],
        );
    }

    #[test]
    fn without_keratometry_it_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().keratometry = None);
    }
}
