//! `TO-12`: another cylinder was chosen than those proposed.

use super::{chosen_step, toric_answer};
use crate::astigmatism::{Residual, ToricRefusal};
use crate::evidence::{STEEPLES_2016, Standing};
use crate::quantity::HundredthDiopters;
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-12",
    title: "Another cylinder was chosen than those proposed",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "The chosen cylinder against two proposals at the suggested axis, by the chosen formula: the one of the lens, or none, that leaves the smallest residual cylinder, and the one that leaves the smallest without correcting more than there is. Either passes, and so does the next lower step under the first; the axis is TO-06's.",
    why: "Further off, the difference may be wanted, as when much is to be left with the rule, or left over from another formula, incision or measurement. Of 178 reports of wrong lenses, 16 were of wrong selection and 16 of a changed plan.",
    options: "A proposed cylinder may be chosen, or the reason for this one recorded.",
    sources: &[Standing::Printed.of(
        STEEPLES_2016,
        "178 reports: wrong selection 16, changed plan 16",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let chosen = chosen_step(facts)?;
    let answer = toric_answer(facts)?;
    let least = answer.least_left().ok_or(Missing::LeastCylinder)?;
    let cylinder = Some(chosen.choice.cylinder);
    let without_overcorrecting = answer.least_left_without_overcorrecting();
    let passes = [
        least.cylinder,
        without_overcorrecting.and_then(|step| step.cylinder),
        answer.next_lower(),
    ];
    if passes.contains(&cylinder) {
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
    use crate::lens::{PowerLabel, ToricSteps};
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied, diopters,
    };
    use crate::rules::testing_lens::{choose_power, toric};
    use crate::rules::{Fact, Limit};

    /// `tests/oracle/toric_plan.py 42.75 44.75 90 21`: 1.50 D at 90 leaves 0.8604 D, 2.25 D 0.3543 D, 3.00 D 0.1519 D
    /// and 3.75 D 0.6582 D; 2.7749 D would leave none. So 3.00 D leaves least, and 2.25 D least without overcorrecting.
    #[test]
    fn what_leaves_least_with_or_without_overcorrecting_passes() {
        for (hundredths, axis) in [(300, 90), (300, 96), (225, 90)] {
            assert_satisfied(
                &RULE,
                toric(move |draft| draft.choose_toric(hundredths, axis)),
            );
        }
        let least = Limit::ProposedCylinder {
            cylinder: Some(diopters(300)),
            left: Some(diopters(15)),
        };
        for (hundredths, left) in [(150, 86), (375, 66)] {
            let chosen = toric(move |draft| draft.choose_toric(hundredths, 90));
            let found = Fact::Leaves {
                cylinder: Some(diopters(hundredths)),
                left: Some(diopters(left)),
            };
            assert_found(&RULE, chosen, found, least.clone());
        }
    }

    /// The same eye and a lens made in 1.50, 2.00, 2.70 and 3.60 D, which the same script says leave 0.8604, 0.5230,
    /// 0.0506 and 0.5569 D: 2.70 D leaves least and does not overcorrect; the next lower step is no finding, the one
    /// under it is, and so is the next higher.
    #[test]
    fn the_next_lower_step_passes() {
        let chosen = |hundredths| {
            toric(move |draft| {
                let cylinders = [150, 200, 270, 360].map(diopters).to_vec();
                let steps = ToricSteps::new(cylinders, PowerLabel::SphericalEquivalent);
                draft.chosen().record.toric = steps.ok();
                draft.choose_toric(hundredths, 90);
            })
        };
        assert_satisfied(&RULE, chosen(270));
        assert_satisfied(&RULE, chosen(200));
        let least = Limit::ProposedCylinder {
            cylinder: Some(diopters(270)),
            left: Some(diopters(5)),
        };
        for (hundredths, left) in [(150, 86), (360, 56)] {
            let found = Fact::Leaves {
                cylinder: Some(diopters(hundredths)),
                left: Some(diopters(left)),
            };
            assert_found(&RULE, chosen(hundredths), found, least.clone());
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
