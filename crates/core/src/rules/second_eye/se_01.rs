//! `SE-01`: the fellow eye had its cataract operation, and its prediction error says something of this eye.

use crate::rules::{Because, Detail, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};
use crate::second_eye::{LIMITS, Offer, SOURCES, conditions};

pub const RULE: Rule = Rule {
    id: "SE-01",
    title: "Fellow eye was operated on before",
    group: Group::SecondEye,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether a cataract operation is recorded for the fellow eye; any is a finding, shown with how far the achieved refraction lay from the predicted one, and whether the refinement is offered, chosen or declined.",
    why: "The first eye's error tells something of the second's. Adding 50 % of it to the second eye's prediction lowered the mean absolute prediction error from 0.44 to 0.36 D, adding all of it to 0.42 D (206 patients). A summary advises against it when the mean K of the eyes differs by more than 0.60 D and after a complicated first operation. Millrace asks besides that one formula made both predictions, that neither cornea had refractive surgery, that the error is at most 1.50 D, that the lengths of the eyes differ by at most 0.30 mm, and that both get one lens model. If every condition is met the refined prediction stands beside the unrefined one; ladder, proposal and rules keep the unrefined one whatever was chosen.",
    options: "Consider whether the first eye's error looks like this patient's or like a fault of measurement or lens; for a large one consider looking for its cause before this eye is operated on. The refinement may be chosen or declined.",
    sources: SOURCES,
    limits: LIMITS,
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lens = &facts.draft.lens;
    let conditions = conditions(facts.operated, facts.fellow, lens, facts.limits);
    let (Some(earlier), Some(conditions)) = (&facts.fellow.0.earlier_operation, conditions) else {
        return Err(Because::NoEarlierOperation.into());
    };
    // Lens power and refractions of the other eye are left out: a number that can be read can be
    // copied into this eye.
    let found = Fact::FirstEye {
        eye: facts.side.other(),
        error: earlier.prediction_error(),
    };
    let limit = Limit::Refinement {
        offered: Offer::of(&conditions) == Offer::Offered,
        choice: lens.second_eye,
    };
    let complicated = earlier.complicated;
    Finding::new(found, limit)
        .with([
            Detail::FirstOperation { complicated },
            Detail::ErrorConvention,
        ])
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{EarlierOperation, Side};
    use crate::case::SecondEyeChoice;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, diopters, earlier_operation, sphere,
    };
    use crate::rules::testing_lens::meet_second_eye_conditions;
    use crate::rules::{Detail, Fact, Limit};

    fn first_eye(hundredths: i32) -> Fact {
        Fact::FirstEye {
            eye: Side::Left,
            error: diopters(hundredths).into(),
        }
    }

    const NOT_OFFERED: Limit = Limit::Refinement {
        offered: false,
        choice: None,
    };

    /// By hand: −0.75 less −0.25 is −0.50 D. Neither the planned formula nor corneal surgery is
    /// recorded, so nothing is offered.
    #[test]
    fn the_error_is_shown_and_nothing_is_applied() {
        for complicated in [Some(true), Some(false), None] {
            let finding = assert_found(
                &RULE,
                |draft| draft.fellow().earlier_operation = Some(earlier_operation(complicated)),
                first_eye(-50),
                NOT_OFFERED,
            );
            let course = Detail::FirstOperation { complicated };
            assert_eq!(finding.details, [course, Detail::ErrorConvention]);
        }
    }

    #[test]
    fn what_is_applied_is_said() {
        use SecondEyeChoice::{Refined, Unrefined};
        type Change = fn(&mut DraftUnderTest);
        let met: Change = meet_second_eye_conditions;
        let unmet: Change = |draft| {
            draft.fellow().earlier_operation = Some(earlier_operation(Some(true)));
        };
        for (conditions, offered) in [(met, true), (unmet, false)] {
            for choice in [None, Some(Unrefined), Some(Refined)] {
                assert_found(
                    &RULE,
                    |draft| {
                        conditions(draft);
                        draft.0.lens.second_eye = choice;
                    },
                    first_eye(-50),
                    Limit::Refinement { offered, choice },
                );
            }
        }
    }

    /// Predicted −0.25 D.
    #[test]
    fn the_direction_of_the_error_is_kept() {
        for (achieved, error) in [(-26, -1), (-25, 0), (-24, 1), (100, 125)] {
            assert_found(
                &RULE,
                |draft| {
                    let operation = EarlierOperation {
                        achieved: sphere(achieved),
                        ..earlier_operation(None)
                    };
                    draft.fellow().earlier_operation = Some(operation);
                },
                first_eye(error),
                NOT_OFFERED,
            );
        }
    }

    #[test]
    fn without_an_earlier_operation_of_that_eye_it_does_not_apply() {
        assert_not_applicable(&RULE, |_| {});
        assert_not_applicable(&RULE, |draft| {
            draft.operated().earlier_operation = Some(earlier_operation(None));
        });
    }
}
