//! `SE-01`: the fellow eye had its cataract operation, and its prediction error says something of this eye.

use core::cmp::Ordering;

use crate::evidence::{CLINICAL_NOTES, SECOND_EYE_206, Source, Standing};
use crate::quantity::HundredthDiopters;
use crate::rules::check::Unsigned;
use crate::rules::verdict::not_applicable;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "SE-01",
    title: "Fellow eye was operated on before",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether a cataract operation is recorded for the fellow eye; any is a finding, shown with how far the achieved refraction lay from the predicted one.",
    why: "The first eye's error tells something of the second's. Correcting the second eye by 50 % of it lowered the mean absolute error from 0.44 to 0.36 D, correcting by all of it to 0.42 D (206 patients). A summary advises against it when the mean K of the eyes differs by more than 0.60 D; after a complicated first operation the error is no guide. Nothing of this is applied here.",
    options: "Consider whether the first eye's error looks like this patient's or like a fault, and whether a share of it may be allowed for in the target.",
    sources: &[
        Source {
            work: SECOND_EYE_206,
            locator: "50 %: 0.44 to 0.36 D; full correction 0.42 D",
            standing: Standing::Printed,
        },
        Source {
            work: CLINICAL_NOTES,
            locator: "not when K differs by more than 0.60 D",
            standing: Standing::Secondary,
        },
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let Some(earlier) = &facts.fellow.0.earlier_operation else {
        return not_applicable("no earlier operation on the fellow eye is recorded");
    };
    let course = match earlier.complicated {
        Some(true) => "it was complicated, so its error is no guide",
        Some(false) => "it was not complicated",
        None => "whether it was complicated is not recorded",
    };
    // Lens power and refractions of the other eye are left out: a number that can be read can be
    // copied into this eye.
    let error = earlier.prediction_error();
    let size = Unsigned(HundredthDiopters::new(error.hundredths().abs()));
    let outcome = match error.hundredths().cmp(&0) {
        Ordering::Less => format!("{size} more myopic than predicted"),
        Ordering::Equal => "as predicted".to_owned(),
        Ordering::Greater => format!("{size} more hyperopic than predicted"),
    };
    Finding::new(
        format!("{}: {outcome}", facts.side.other()),
        "no refinement applied to this eye",
    )
    .with_detail(course)
    .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::EarlierOperation;
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{assert_finding, assert_not_applicable, earlier_operation};

    /// By hand: −0.75 less −0.25 is −0.50 D.
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
                    "no refinement applied to this eye",
                ],
            );
            assert_eq!(finding.detail.as_deref(), Some(course));
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
                [measured, "no refinement applied to this eye"],
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
