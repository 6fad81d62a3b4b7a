//! `TO-08`: the chosen cylinder corrects more than there is.

use super::{chosen_step, toric_answer};
use crate::evidence::{NO_SOURCE, OPTICS, RECALLED, Standing};
use crate::rules::{Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-08",
    title: "Chosen cylinder corrects more than there is",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "The chosen cylinder against the one at the lens plane that would leave none, by the chosen formula, to the nearest 0.01 D. The same cylinder passes.",
    why: "What is left then lies at right angles to what the patient had, which some find harder to get used to (common practice). A cornea with the rule is then left against it, where the drift of later years adds to it (from memory).",
    options: "The next smaller cylinder may be chosen; its residual stands beside.",
    sources: &[
        Standing::Derived.of(OPTICS, "cylinder that leaves none, meridian by meridian"),
        Standing::CommonPractice.of(
            NO_SOURCE,
            "an astigmatism turned by a right angle is harder to get used to",
        ),
        Standing::Memory.of(RECALLED, "drift against the rule with age, no number"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let cylinder = chosen_step(facts)?.choice.cylinder;
    let exact = toric_answer(facts)?.exact.cylinder.nearest_hundredth();
    let exact = exact.ok_or(Missing::ExactCylinder)?;
    if cylinder <= exact {
        return Ok(None);
    }
    Finding::new(Quantity::Power(cylinder), Limit::ExactCylinder(exact)).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::{PowerLabel, ToricSteps};
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, diopters, plan,
    };
    use crate::rules::testing_lens::{choose_power, toric};
    use crate::rules::{Limit, Quantity};

    fn cylinder(hundredths: i32) -> impl FnOnce(&mut DraftUnderTest) {
        toric(move |draft| {
            let cylinders = vec![HundredthDiopters::new(hundredths)];
            let steps = ToricSteps::new(cylinders, PowerLabel::SphericalEquivalent);
            draft.chosen().record.toric = steps.ok();
            draft.choose_toric(hundredths, 90);
        })
    }

    /// `tests/oracle/toric_plan.py 42.75 44.75 90 21`: 2.774915 D would leave none.
    #[test]
    fn at_the_exact_cylinder_and_one_step_beyond() {
        for hundredths in [225, 276, 277] {
            assert_satisfied(&RULE, cylinder(hundredths));
        }
        for hundredths in [278, 300] {
            let found = Quantity::Power(diopters(hundredths)).into();
            let limit = Limit::ExactCylinder(diopters(277));
            assert_found(&RULE, cylinder(hundredths), found, limit);
        }
    }

    #[test]
    fn choice_and_answer_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, toric(|_| {}));
        assert_not_evaluated(&RULE, |draft| {
            cylinder(225)(draft);
            draft.operated().axial_length = None;
        });
    }

    /// The same eye: every step over 2.774915 D is marked, whichever is chosen.
    #[test]
    fn each_step_over_the_exact_cylinder_is_said_to_overcorrect() {
        let plan = plan(toric(|draft| draft.choose_toric(300, 90)));
        let prediction = plan.toric.formulas[0].answer.as_ref().unwrap();
        let steps = prediction.steps.iter();
        let steps: Vec<_> = steps.map(|it| (it.cylinder, it.overcorrects)).collect();
        let step = |hundredths, overcorrects| (Some(diopters(hundredths)), overcorrects);
        assert_eq!(
            steps,
            [
                (None, false),
                step(150, false),
                step(225, false),
                step(300, true),
                step(375, true)
            ]
        );
        assert!(prediction.chosen.as_ref().unwrap().overcorrects);
    }
}
