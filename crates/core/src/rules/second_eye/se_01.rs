//! `SE-01`: the fellow eye had its cataract operation, and its prediction error says something of this eye.

use crate::case::SecondEyeChoice;
use crate::rules::verdict::not_applicable;
use crate::rules::{Against, Facts, Finding, Group, Rule, Severity, Verdict};
use crate::second_eye::{
    COMPLICATED, ERROR_CONVENTION, MEAN_K, Offer, SAME_FORMULA, SOURCE, UNTOUCHED_CORNEAS,
    conditions, error_in_words,
};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "SE-01",
    title: "Fellow eye was operated on before",
    group: Group::SecondEye,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether a cataract operation is recorded for the fellow eye; any is a finding, shown with how far the achieved refraction lay from the predicted one, and whether the refinement is offered, chosen or declined.",
    why: "The first eye's error tells something of the second's. Adding 50 % of it to the second eye's prediction lowered the mean absolute prediction error from 0.44 to 0.36 D, adding all of it to 0.42 D (206 patients). A summary advises against it when the mean K of the eyes differs by more than 0.60 D and after a complicated first operation. Millrace asks besides that one formula made both predictions and that neither cornea had refractive surgery. If every condition is met the refined prediction stands beside the unrefined one; ladder, proposal and rules keep the unrefined one whatever was chosen.",
    options: "Consider whether the first eye's error looks like this patient's or like a fault of measurement or lens, and whether both eyes get the same lens model, which is not recorded here; the refinement may be chosen or declined.",
    sources: &[SOURCE, MEAN_K, COMPLICATED, SAME_FORMULA, UNTOUCHED_CORNEAS],
    limits: &["second_eye_k_difference"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let lens = &facts.draft.lens;
    let conditions = conditions(facts.operated, facts.fellow, lens.formula, facts.limits);
    let (Some(earlier), Some(conditions)) = (&facts.fellow.0.earlier_operation, conditions) else {
        return not_applicable("no earlier operation on the fellow eye is recorded");
    };
    let course = match earlier.complicated {
        Some(true) => "it was complicated, so its error is no guide",
        Some(false) => "it was not complicated",
        None => "whether it was complicated is not recorded",
    };
    let offered = Offer::of(&conditions) == Offer::Offered;
    let applied = match (lens.second_eye, offered) {
        (None, true) => "refinement offered, nothing applied until somebody decides",
        (None, false) => "refinement not offered, nothing applied",
        (Some(SecondEyeChoice::Unrefined), _) => "refinement declined, nothing applied",
        (Some(SecondEyeChoice::Refined), true) => {
            "refinement chosen, shown beside the unrefined prediction"
        }
        (Some(SecondEyeChoice::Refined), false) => {
            "refinement chosen but not offered, nothing applied"
        }
    };
    // Lens power and refractions of the other eye are left out: a number that can be read can be
    // copied into this eye.
    let outcome = error_in_words(earlier);
    Finding::new(format!("{}: {outcome}", facts.side.other()), applied)
        .against(Against::State)
        .with_detail(format!("{course}; {ERROR_CONVENTION}"))
        .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::EarlierOperation;
    use crate::case::SecondEyeChoice;
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, earlier_operation,
    };
    use crate::rules::testing_lens::meet_second_eye_conditions;

    /// By hand: −0.75 less −0.25 is −0.50 D. Neither the planned formula nor corneal surgery is
    /// recorded, so nothing is offered.
    #[test]
    fn the_error_is_shown_and_nothing_is_applied() {
        for (complicated, course) in [
            (Some(true), "it was complicated, so its error is no guide"),
            (Some(false), "it was not complicated"),
            (None, "whether it was complicated is not recorded"),
        ] {
            let finding = assert_finding(
                &RULE,
                |draft| draft.fellow().earlier_operation = Some(earlier_operation(complicated)),
                [
                    "left eye: 0.50 D more myopic than predicted",
                    "refinement not offered, nothing applied",
                ],
            );
            let detail =
                format!("{course}; prediction error: achieved less predicted spherical equivalent");
            assert_eq!(finding.detail, Some(detail));
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
        for (conditions, choice, applied) in [
            (
                met,
                None,
                "refinement offered, nothing applied until somebody decides",
            ),
            (met, Some(Unrefined), "refinement declined, nothing applied"),
            (
                met,
                Some(Refined),
                "refinement chosen, shown beside the unrefined prediction",
            ),
            (unmet, None, "refinement not offered, nothing applied"),
            (
                unmet,
                Some(Unrefined),
                "refinement declined, nothing applied",
            ),
            (
                unmet,
                Some(Refined),
                "refinement chosen but not offered, nothing applied",
            ),
        ] {
            assert_finding(
                &RULE,
                |draft| {
                    conditions(draft);
                    draft.0.lens.second_eye = choice;
                },
                ["left eye: 0.50 D more myopic than predicted", applied],
            );
        }
    }

    /// Predicted −0.25 D.
    #[test]
    fn the_direction_is_said_in_words() {
        for (achieved, measured) in [
            (-26, "left eye: 0.01 D more myopic than predicted"),
            (-25, "left eye: as predicted"),
            (-24, "left eye: 0.01 D more hyperopic than predicted"),
            (100, "left eye: 1.25 D more hyperopic than predicted"),
        ] {
            assert_finding(
                &RULE,
                |draft| {
                    let operation = EarlierOperation {
                        achieved: HundredthDiopters::new(achieved),
                        ..earlier_operation(None)
                    };
                    draft.fellow().earlier_operation = Some(operation);
                },
                [measured, "refinement not offered, nothing applied"],
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
