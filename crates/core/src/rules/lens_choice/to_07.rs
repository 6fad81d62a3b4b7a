//! `TO-07`: the lens is not made with this cylinder.

use super::chosen_record;
use crate::evidence::{STEEPLES_2016, Source, Standing};
use crate::lens::ToricSteps;
use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "TO-07",
    title: "The lens is not made with this cylinder",
    group: Group::LensChoice,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether the chosen cylinder is one of those in the record of the chosen lens. A cylinder chosen for a lens that is not toric does not pass.",
    why: "A cylinder that does not exist was mistyped or belongs to another lens. Of 178 reports of wrong lenses, 26 were of transcription.",
    options: "A cylinder the lens is made with, or another lens, may be chosen; a wrong record may be corrected.",
    sources: &[Source {
        work: STEEPLES_2016,
        locator: "178 reports: transcription 26",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let record = match chosen_record(facts) {
        Ok(record) => record,
        Err(verdict) => return verdict,
    };
    let (choice, steps) = (facts.draft.lens.toric, record.toric.as_ref());
    match (choice, steps) {
        (None, None) => not_applicable("the chosen lens is not toric"),
        (None, Some(_)) => not_evaluated("chosen cylinder and axis"),
        (Some(choice), None) => Finding::new(choice.cylinder, "a lens without a cylinder").into(),
        (Some(choice), Some(steps)) if steps.contains(choice.cylinder) => Verdict::Satisfied,
        (Some(choice), Some(steps)) => Finding::new(choice.cylinder, text(steps)).into(),
    }
}

fn text(steps: &ToricSteps) -> String {
    let cylinders: Vec<_> = steps.cylinders().iter().map(ToString::to_string).collect();
    cylinders.join(", ")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};

    #[test]
    fn what_is_made_passes_and_what_lies_beside_it_does_not() {
        for hundredths in [150, 225, 300, 375] {
            assert_satisfied(&RULE, toric(|draft| draft.choose_toric(hundredths, 90)));
        }
        for (hundredths, measured) in [(149, "+1.49 D"), (226, "+2.26 D"), (450, "+4.50 D")] {
            let made = "+1.50 D, +2.25 D, +3.00 D, +3.75 D";
            let chosen = toric(|draft| draft.choose_toric(hundredths, 90));
            assert_finding(&RULE, chosen, [measured, made]);
        }
    }

    #[test]
    fn a_cylinder_for_a_lens_without_one_does_not_pass() {
        assert_finding(
            &RULE,
            |draft| {
                choose_power(2_100)(draft);
                draft.choose_toric(225, 90);
            },
            ["+2.25 D", "a lens without a cylinder"],
        );
        assert_not_applicable(&RULE, choose_power(2_100));
    }

    #[test]
    fn lens_and_choice_are_needed() {
        assert_not_evaluated(&RULE, toric(|_| {}));
        assert_not_evaluated(&RULE, |draft| draft.choose_toric(225, 90));
    }
}
