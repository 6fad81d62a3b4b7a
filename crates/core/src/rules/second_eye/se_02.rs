//! `SE-02`: refined predictions were chosen although a condition is not met.

use crate::case::SecondEyeChoice;
use crate::finding::Outcome;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};
use crate::second_eye::{LIMITS, SOURCES, conditions};

pub const RULE: Rule = Rule {
    id: "SE-02",
    title: "Refinement by the first eye chosen without its conditions",
    group: Group::SecondEye,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether every condition of the refinement by the first eye's prediction error is met, once it was chosen: mean K of the eyes at most 0.60 D apart (unless the clinic changed it; the limit itself passes), first operation not complicated, both predictions by one formula, no corneal refractive surgery in either eye, first eye at most 1.50 D off its prediction, axial lengths at most 0.30 mm apart, one lens model in both eyes. A condition that cannot be told is not met. A refinement that is chosen without a recorded operation of the fellow eye is a finding too.",
    why: "Where a condition fails, the first eye's error is no guide to the second: one of more than 1.50 D has a cause to be found first, in the measurements, the lens or the label. No refined prediction is given then, so a plan that chose one would rest on a number that does not exist.",
    options: "What is missing may be recorded, or the refinement declined; the unrefined prediction stands.",
    sources: SOURCES,
    limits: LIMITS,
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lens = &facts.draft.lens;
    match lens.second_eye.ok_or(Because::RefinementNotChosen)? {
        SecondEyeChoice::Unrefined => return Err(Because::RefinementDeclined.into()),
        SecondEyeChoice::Refined => {}
    }
    let limit = Limit::EveryCondition;
    let conditions = conditions(facts.operated, facts.fellow, lens, facts.limits);
    let Some(conditions) = conditions else {
        return Finding::new(Fact::NoEarlierOperation, limit).found();
    };
    let failing: Vec<_> = conditions
        .iter()
        .filter(|condition| !matches!(condition.outcome, Outcome::Met(_)))
        .map(|condition| (condition.asks, condition.outcome))
        .collect();
    if failing.is_empty() {
        return Ok(None);
    }
    Finding::new(Fact::Conditions(failing), limit).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::SecondEyeChoice;
    use crate::finding::{Asks, Found, Lacking, Outcome};
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_satisfied, diopters,
    };
    use crate::rules::testing_lens::meet_second_eye_conditions;
    use crate::rules::{Fact, Limit};

    /// Refined predictions chosen with every condition met, then changed.
    fn refined(change: impl FnOnce(&mut DraftUnderTest)) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            meet_second_eye_conditions(draft);
            draft.0.lens.second_eye = Some(SecondEyeChoice::Refined);
            change(draft);
        }
    }

    /// Mean K 43.75 D of this eye; of the fellow 44.35 D and 44.36 D.
    #[test]
    fn mean_k_at_the_limit_and_one_step_beyond() {
        let fellow = |flat, steep| {
            refined(move |draft: &mut DraftUnderTest| draft.set_fellow_keratometry(flat, steep))
        };
        assert_satisfied(&RULE, fellow("44.10 D at 1.3375", "44.60 D at 1.3375"));
        assert_found(
            &RULE,
            fellow("44.11 D at 1.3375", "44.61 D at 1.3375"),
            Fact::Conditions(vec![(
                Asks::MeanK(diopters(60)),
                Outcome::NotMet(Found::Apart(diopters(61))),
            )]),
            Limit::EveryCondition,
        );
    }

    #[test]
    fn every_failing_condition_is_named() {
        assert_found(
            &RULE,
            refined(|draft| {
                draft.fellow().keratometry = None;
                let earlier = draft.fellow().earlier_operation.as_mut().unwrap();
                earlier.complicated = Some(true);
                earlier.formula = None;
            }),
            Fact::Conditions(vec![
                (
                    Asks::MeanK(diopters(60)),
                    Outcome::CannotBeTold(Lacking::Keratometry),
                ),
                (Asks::Uncomplicated, Outcome::NotMet(Found::Complicated)),
                (
                    Asks::SameFormula,
                    Outcome::CannotBeTold(Lacking::FirstFormula),
                ),
            ]),
            Limit::EveryCondition,
        );
    }

    #[test]
    fn without_an_earlier_operation_there_is_nothing_to_refine_by() {
        assert_found(
            &RULE,
            refined(|draft| draft.fellow().earlier_operation = None),
            Fact::NoEarlierOperation,
            Limit::EveryCondition,
        );
    }

    #[test]
    fn it_concerns_only_a_refinement_that_was_chosen() {
        for choice in [None, Some(SecondEyeChoice::Unrefined)] {
            assert_not_applicable(
                &RULE,
                refined(move |draft| {
                    draft.fellow().keratometry = None;
                    draft.0.lens.second_eye = choice;
                }),
            );
        }
    }
}
