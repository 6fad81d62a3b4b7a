//! `SE-02`: refined predictions were chosen although a condition is not met.

use crate::case::SecondEyeChoice;
use crate::rules::verdict::not_applicable;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};
use crate::second_eye::{
    COMPLICATED, Condition, MEAN_K, Outcome, SAME_FORMULA, SOURCE, UNTOUCHED_CORNEAS, conditions,
};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "SE-02",
    title: "Refinement by the first eye chosen without its conditions",
    group: Group::SecondEye,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether every condition of the refinement by the first eye's prediction error is met, once it was chosen: mean K of the eyes at most 0.60 D apart (unless the clinic changed it; the limit itself passes), first operation not complicated, both predictions by one formula, no corneal refractive surgery in either eye. A condition that cannot be told is not met. A refinement that is chosen without a recorded operation of the fellow eye is a finding too.",
    why: "Where a condition fails, the first eye's error is no guide to the second. No refined prediction is given then, so a plan that chose one would rest on a number that does not exist.",
    options: "What is missing may be recorded, or the refinement declined; the unrefined prediction stands.",
    sources: &[SOURCE, MEAN_K, COMPLICATED, SAME_FORMULA, UNTOUCHED_CORNEAS],
    limits: &["second_eye_k_difference"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let lens = &facts.draft.lens;
    match lens.second_eye {
        None => return not_applicable("nobody chose a refinement by the first eye"),
        Some(SecondEyeChoice::Unrefined) => {
            return not_applicable("the refinement by the first eye was declined");
        }
        Some(SecondEyeChoice::Refined) => {}
    }
    let limit = "every condition met";
    let conditions = conditions(facts.operated, facts.fellow, lens.formula, facts.limits);
    let Some(conditions) = conditions else {
        let measured = "no earlier operation on the fellow eye is recorded";
        return Finding::new(measured, limit).into();
    };
    let failing: Vec<_> = conditions.iter().filter_map(failure).collect();
    if failing.is_empty() {
        return Verdict::Satisfied;
    }
    Finding::new(failing.join("; "), limit).into()
}

fn failure(condition: &Condition) -> Option<String> {
    let asks = &condition.asks;
    match &condition.outcome {
        Outcome::Met { .. } => None,
        Outcome::NotMet { found } => Some(format!("not met: {asks} ({found})")),
        Outcome::CannotBeTold { missing } => {
            Some(format!("cannot be told: {asks} (needs {missing})"))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::SecondEyeChoice;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_satisfied,
    };
    use crate::rules::testing_lens::meet_second_eye_conditions;

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
        assert_finding(
            &RULE,
            fellow("44.11 D at 1.3375", "44.61 D at 1.3375"),
            [
                "not met: mean K of the eyes differs by at most 0.60 D (0.61 D apart)",
                "every condition met",
            ],
        );
    }

    #[test]
    fn every_failing_condition_is_named() {
        assert_finding(
            &RULE,
            refined(|draft| {
                draft.fellow().keratometry = None;
                let earlier = draft.fellow().earlier_operation.as_mut().unwrap();
                earlier.complicated = Some(true);
                earlier.formula = None;
            }),
            [
                "cannot be told: mean K of the eyes differs by at most 0.60 D (needs keratometry of \
                 both eyes); not met: the first operation was not complicated (it was); cannot \
                 be told: the first eye was predicted by the formula this plan goes by (needs \
                 formula of the first prediction)",
                "every condition met",
            ],
        );
    }

    #[test]
    fn without_an_earlier_operation_there_is_nothing_to_refine_by() {
        assert_finding(
            &RULE,
            refined(|draft| draft.fellow().earlier_operation = None),
            [
                "no earlier operation on the fellow eye is recorded",
                "every condition met",
            ],
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
