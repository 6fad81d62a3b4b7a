//! `KM-03`: mean corneal powers of the two eyes differ.

use super::mean_k_apart;
use crate::evidence::{KNOX_CARTWRIGHT_2010, Standing};
use crate::rules::check::at_most;
use crate::rules::{Facts, Group, Look, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "KM-03",
    title: "Mean K differs between the eyes",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Difference of mean K between the eyes, both at index 1.3375, to the nearest 0.01 D, against the largest that passes, 0.90 D unless the clinic sets another. The limit itself passes.",
    why: "The corneas of one person are usually alike: a difference may be a faulty reading, two records exchanged, or surgery on one cornea. The limit of 0.9 D is recalled; one page prints 0.09, probably a misprint.",
    options: "Consider checking that both records belong to this patient and these eyes, and repeating both. If they stand, the reason may be recorded.",
    sources: &[Standing::Memory.of(
        KNOX_CARTWRIGHT_2010,
        "> 0.9 D between the eyes; one page prints 0.09, probably a misprint",
    )],
    limits: &["mean_k_difference"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let limit = facts.limits.mean_k_difference;
    Ok(at_most(Quantity::Magnitude, mean_k_apart(facts)?, limit))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    /// By hand: the operated eye's 43.50 and 44.00 D have a mean of 43.75 D.
    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for fellow in [
            "43.75 D at 1.3375",
            "44.64 D at 1.3375",
            "44.65 D at 1.3375",
            "42.85 D at 1.3375",
        ] {
            assert_satisfied(&RULE, |draft| draft.set_fellow_keratometry(fellow, fellow));
        }
        for fellow in ["44.66 D at 1.3375", "42.84 D at 1.3375"] {
            assert_finding(
                &RULE,
                |draft| draft.set_fellow_keratometry(fellow, fellow),
                ["0.91 D", "at most 0.90 D"],
            );
        }
    }

    #[test]
    fn both_eyes_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.operated().keratometry = None);
        assert_not_evaluated(&RULE, |draft| draft.fellow().keratometry = None);
    }
}
