//! `SL-01`: a second look at the critical numbers differs from the case.

use crate::case::second_look::differences;
use crate::case::{Critical, Pair};
use crate::evidence::{HOUSE, STEEPLES_2016, Source, Standing};
use crate::rules::verdict::not_applicable;
use crate::rules::{Against, Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "SL-01",
    title: "Second look differs",
    group: Group::Identity,
    severity: Severity::Review,
    bearing: None,
    checks: "Hospital number, operated eye, axial length, both keratometry readings with meridian and index, chamber depth with its surface, lens thickness and target as they stand in the case, against what a second person entered without seeing them. Only the same exact value passes; a number that one of them left out does not, except a lens thickness that the second look left alone. A first number changed afterwards is compared anew. Without a recorded second look there is nothing to compare.",
    why: "Of 178 British reports of a wrong lens, 26 came from transcription. A slip of one digit can be small, so that no difference is passed over.",
    options: "Consider comparing both with the printout of the instrument. The number that is wrong may be corrected, the second look repeated, or the reason recorded.",
    sources: &[
        Source {
            work: STEEPLES_2016,
            locator: "transcription, 26 of 178",
            standing: Standing::Printed,
        },
        Source {
            work: HOUSE,
            locator: "any difference of the exact values counts; no tolerance was found",
            standing: Standing::Assumption,
        },
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    if facts.draft.second_look.is_none() {
        return not_applicable("no second look is recorded");
    }
    let found: Vec<_> = differences(facts.draft).iter().map(in_words).collect();
    if found.is_empty() {
        return Verdict::Satisfied;
    }
    Finding::new(found.join(", "), "both are to be the same")
        .against(Against::State)
        .into()
}

/// "axial length 23.50 mm, second look 25.30 mm"; a finding never holds the patient's number.
fn in_words(pair: &Pair) -> String {
    let name = pair.what.name();
    if pair.what == Critical::Number {
        return name.to_owned();
    }
    let or_none = |text: &Option<String>| text.clone().unwrap_or_else(|| "none".to_owned());
    format!(
        "{name} {} (second look {})",
        or_none(&pair.first),
        or_none(&pair.second)
    )
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_satisfied,
    };
    use crate::rules::testing_lens::second_look_of;

    fn look(draft: &mut DraftUnderTest) {
        draft.0.patient.number = Some("40-2291".to_owned());
        draft.0.second_look = Some(second_look_of(&draft.0));
    }

    #[test]
    fn the_same_exact_numbers_pass_and_without_a_look_there_is_nothing_to_compare() {
        assert_satisfied(&RULE, look);
        assert_not_applicable(&RULE, |_| {});
    }

    #[test]
    fn one_micrometer_is_a_difference() {
        assert_finding(
            &RULE,
            |draft| {
                look(draft);
                draft.set_axial_length("23.501 mm");
            },
            [
                "axial length 23.501 mm (second look 23.50 mm)",
                "both are to be the same",
            ],
        );
    }

    #[test]
    fn every_difference_is_named_and_the_patient_is_not() {
        assert_finding(
            &RULE,
            |draft| {
                look(draft);
                draft.0.patient.number = Some("40-2292".to_owned());
                draft.operated().chamber_depth = None;
            },
            [
                "hospital number, chamber depth none (second look 3.20 mm from the epithelium)",
                "both are to be the same",
            ],
        );
    }
}
