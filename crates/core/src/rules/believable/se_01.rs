//! `SE-01`: the fellow eye had its cataract operation, and its prediction error says something of this eye.

use crate::evidence::{CLINICAL_NOTES, SECOND_EYE_206, Source, Standing};
use crate::rules::verdict::not_applicable;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "SE-01",
    title: "Fellow eye was operated on before",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether a cataract operation is recorded for the fellow eye; any is a finding, shown with its prediction error: achieved less predicted refraction.",
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
    Finding::new(
        format!(
            "prediction error {} in the {}",
            earlier.prediction_error(),
            facts.side.other()
        ),
        "no refinement applied to this eye",
    )
    .with_detail(format!(
        "lens {}, predicted {}, achieved {}; {course}",
        earlier.lens_power, earlier.predicted, earlier.achieved
    ))
    .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
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
                    "prediction error \u{2212}0.50 D in the left eye",
                    "no refinement applied to this eye",
                ],
            );
            let numbers = "lens +21.50 D, predicted \u{2212}0.25 D, achieved \u{2212}0.75 D";
            assert_eq!(finding.detail, Some(format!("{numbers}; {course}")));
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
