//! `TG-02`: an uncustomary target.

use crate::evidence::{NO_SOURCE, Standing};
use crate::rules::check::within;
use crate::rules::{Facts, Group, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TG-02",
    title: "The target is not a customary one",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "Target refraction against the customary range, plano to −0.50 D; both ends pass.",
    why: "Targets outside this range are often wanted (near vision, the other eye's refraction), and sometimes a lost or added sign.",
    options: "The target may be compared with the one discussed with the patient.",
    sources: &[Standing::Memory.of(NO_SOURCE, "plano to −0.50 D")],
    limits: &["target_most_myopic", "target_most_hyperopic"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let target = facts.draft.lens.target.ok_or(Missing::Target)?;
    let limits = facts.limits;
    let limits = [limits.target_most_myopic, limits.target_most_hyperopic];
    Ok(within(Quantity::Power, target, limits))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied,
    };

    fn target(hundredths: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| draft.0.lens.target = Some(HundredthDiopters::new(hundredths))
    }

    #[test]
    fn at_the_ends_and_one_step_beyond() {
        for hundredths in [-50, -25, 0] {
            assert_satisfied(&RULE, target(hundredths));
        }
        for (hundredths, measured) in [(-51, "−0.51 D"), (1, "+0.01 D"), (50, "+0.50 D")] {
            let texts = [measured, "−0.50 D to +0.00 D"];
            assert_finding(&RULE, target(hundredths), texts);
        }
    }

    #[test]
    fn without_a_target_it_says_so() {
        assert_not_evaluated(&RULE, |_| {});
    }
}
