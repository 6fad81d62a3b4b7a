//! `SE-03`: the refinement by the first eye is offered, and nobody decided.

use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Against, Facts, Finding, Group, Rule, Severity, Verdict};
use crate::second_eye::{
    COMPLICATED, MEAN_K, Offer, SAME_FORMULA, SOURCE, UNTOUCHED_CORNEAS, conditions,
};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "SE-03",
    title: "Refinement by the first eye is offered and undecided",
    group: Group::SecondEye,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether somebody chose or declined the refinement by the first eye's prediction error, where all its conditions (those of SE-02) are met. Either decision passes.",
    why: "The refinement can propose another power. It is never applied silently, and not overlooked either.",
    options: "The section on the second eye shows both predictions; the refinement may be chosen or declined.",
    sources: &[SOURCE, MEAN_K, COMPLICATED, SAME_FORMULA, UNTOUCHED_CORNEAS],
    limits: &["second_eye_k_difference"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let lens = &facts.draft.lens;
    let conditions = conditions(facts.operated, facts.fellow, lens.formula, facts.limits);
    let Some(conditions) = conditions else {
        return not_applicable("no earlier operation on the fellow eye is recorded");
    };
    if lens.second_eye.is_some() {
        return Verdict::Satisfied;
    }
    match Offer::of(&conditions) {
        Offer::Offered => Finding::new("nobody decided", "it may be chosen or declined")
            .against(Against::State)
            .into(),
        Offer::ConditionNotMet => {
            not_applicable("a condition of the refinement by the first eye is not met")
        }
        Offer::CannotBeTold => not_evaluated(
            "what the conditions of the refinement by the first eye ask for (see \"Second eye\")",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::SecondEyeChoice;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::meet_second_eye_conditions;

    #[test]
    fn offered_and_undecided_is_a_finding_and_either_decision_passes() {
        assert_finding(
            &RULE,
            meet_second_eye_conditions,
            ["nobody decided", "it may be chosen or declined"],
        );
        for choice in [SecondEyeChoice::Refined, SecondEyeChoice::Unrefined] {
            assert_satisfied(&RULE, |draft| {
                meet_second_eye_conditions(draft);
                draft.0.lens.second_eye = Some(choice);
            });
        }
    }

    #[test]
    fn it_concerns_only_what_is_offered_and_says_what_cannot_be_told() {
        assert_not_applicable(&RULE, |_| {});
        assert_not_applicable(&RULE, |draft| {
            meet_second_eye_conditions(draft);
            let earlier = draft.fellow().earlier_operation.as_mut().unwrap();
            earlier.complicated = Some(true);
        });
        assert_not_evaluated(&RULE, |draft| {
            meet_second_eye_conditions(draft);
            let earlier = draft.fellow().earlier_operation.as_mut().unwrap();
            earlier.complicated = None;
        });
    }
}
