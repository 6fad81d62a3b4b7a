//! `SE-03`: the refinement by the first eye is offered, and nobody decided.

use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};
use crate::second_eye::{LIMITS, Offer, SOURCES, conditions};

pub const RULE: Rule = Rule {
    id: "SE-03",
    title: "Refinement by the first eye is offered and undecided",
    group: Group::SecondEye,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether somebody chose or declined the refinement by the first eye's prediction error, where all its conditions (those of SE-02) are met. Either decision passes.",
    why: "The refinement can propose another power. It is never applied silently, and not overlooked either.",
    options: "The section on the second eye shows both predictions; the refinement may be chosen or declined.",
    sources: SOURCES,
    limits: LIMITS,
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lens = &facts.draft.lens;
    let conditions = conditions(facts.operated, facts.fellow, lens, facts.limits);
    let conditions = conditions.ok_or(Because::NoEarlierOperation)?;
    if lens.second_eye.is_some() {
        return Ok(None);
    }
    match Offer::of(&conditions) {
        Offer::Offered => Finding::new(Fact::Undecided, Limit::MayDecide).found(),
        Offer::ConditionNotMet => Err(Because::RefinementConditionNotMet.into()),
        Offer::CannotBeTold => Err(Missing::RefinementConditions.into()),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::SecondEyeChoice;
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::meet_second_eye_conditions;
    use crate::rules::{Fact, Limit};

    #[test]
    fn offered_and_undecided_is_a_finding_and_either_decision_passes() {
        assert_found(
            &RULE,
            meet_second_eye_conditions,
            Fact::Undecided,
            Limit::MayDecide,
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
