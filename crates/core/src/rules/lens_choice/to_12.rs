//! `TO-12`: another cylinder was chosen than the one that leaves least.

use super::{chosen_step, toric_answer};
use crate::astigmatism::{Residual, ToricRefusal};
use crate::evidence::{STEEPLES_2016, Standing};
use crate::quantity::HundredthDiopters;
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-12",
    title: "Another cylinder was chosen than the one that leaves least",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "The chosen cylinder against the one of the lens, or none, that leaves the smallest residual cylinder at the suggested axis, by the chosen formula. Only that one passes; the axis is TO-06's.",
    why: "The difference may be wanted, as when a little is to be left with the rule, or left over from another formula, incision or measurement. Of 178 reports of wrong lenses, 16 were of wrong selection and 16 of a changed plan.",
    options: "The cylinder that leaves least may be chosen, or the reason for this one recorded.",
    sources: &[Standing::Printed.of(
        STEEPLES_2016,
        "178 reports: wrong selection 16, changed plan 16",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let chosen = chosen_step(facts)?;
    let least = toric_answer(facts)?.least_left();
    let least = least.ok_or(Missing::LeastCylinder)?;
    let cylinder = Some(chosen.choice.cylinder);
    if least.cylinder == cylinder {
        return Ok(None);
    }
    let found = Fact::Leaves {
        cylinder,
        left: left(&chosen.outcome),
    };
    let limit = Limit::ProposedCylinder {
        cylinder: least.cylinder,
        left: left(&least.outcome),
    };
    Finding::new(found, limit).found()
}

fn left(outcome: &Result<Residual, ToricRefusal>) -> Option<HundredthDiopters> {
    outcome.as_ref().ok()?.cylinder().nearest_hundredth()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied, diopters,
    };
    use crate::rules::testing_lens::{choose_power, toric};
    use crate::rules::{Fact, Limit};

    /// `tests/oracle/toric_plan.py 42.75 44.75 90 21`: 2.25 D at 90 leaves 0.3543 D, 3.00 D 0.1519 D,
    /// 3.75 D 0.6582 D; 3.00 D at 96, six degrees off, leaves 0.4345 D.
    #[test]
    fn only_the_cylinder_that_leaves_least_passes() {
        assert_satisfied(&RULE, toric(|draft| draft.choose_toric(300, 90)));
        assert_satisfied(&RULE, toric(|draft| draft.choose_toric(300, 96)));
        let least = Limit::ProposedCylinder {
            cylinder: Some(diopters(300)),
            left: Some(diopters(15)),
        };
        for (hundredths, left) in [(225, 35), (375, 66)] {
            let chosen = toric(move |draft| draft.choose_toric(hundredths, 90));
            let found = Fact::Leaves {
                cylinder: Some(diopters(hundredths)),
                left: Some(diopters(left)),
            };
            assert_found(&RULE, chosen, found, least.clone());
        }
    }

    #[test]
    fn choice_and_answer_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, toric(|_| {}));
        assert_not_evaluated(&RULE, |draft| {
            toric(|draft| draft.choose_toric(225, 90))(draft);
            draft.0.lens.formula = None;
        });
    }
}
