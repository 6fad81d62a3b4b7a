//! `ID-01`: name or hospital number of the patient is missing.

use crate::evidence::{SEVEN_CASES_2012, STEEPLES_2016, Source, Standing};
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "ID-01",
    title: "Patient is not identified",
    group: Group::Identity,
    severity: Severity::Stop,
    bearing: None,
    checks: "Name and hospital number of the patient: both are needed. An entry of blanks only counts as missing. A missing birth date alone is no finding; with another one it is named.",
    why: "In a printed series of seven wrong lenses, patient and lens sheet had not been matched by two identifiers. Of 178 British reports of a wrong lens, 21 came from biometry of the wrong patient.",
    options: "The missing identifiers may be entered from the notes and compared with the wristband; without them the plan cannot be signed.",
    sources: &[
        Source {
            work: SEVEN_CASES_2012,
            locator: "patient and lens sheet not matched by two identifiers",
            standing: Standing::Printed,
        },
        Source {
            work: STEEPLES_2016,
            locator: "biometry of the wrong patient, 21 of 178",
            standing: Standing::Printed,
        },
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let patient = &facts.draft.patient;
    let is_missing =
        |entry: &Option<String>| entry.as_ref().is_none_or(|entry| entry.trim().is_empty());
    // The finding names what is missing and never the patient.
    let measured = match (is_missing(&patient.name), is_missing(&patient.number)) {
        (false, false) => return Verdict::Satisfied,
        (true, false) => "no name",
        (false, true) => "no hospital number",
        (true, true) => "no name, no hospital number",
    };
    let finding = Finding::new(measured, "name and hospital number");
    if patient.birth_date.is_some() {
        return finding.into();
    }
    finding.with_detail("the birth date is missing too").into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{DraftUnderTest, assert_finding, assert_satisfied};

    fn identify(draft: &mut DraftUnderTest, name: Option<&str>, number: Option<&str>) {
        draft.0.patient.name = name.map(str::to_owned);
        draft.0.patient.number = number.map(str::to_owned);
    }

    #[test]
    fn name_and_number_are_needed_and_the_birth_date_is_not() {
        assert_satisfied(&RULE, |draft| identify(draft, Some("Test, A"), Some("1")));
        assert_satisfied(&RULE, |draft| {
            identify(draft, Some("Test, A"), Some("1"));
            draft.0.patient.birth_date = None;
        });
    }

    #[test]
    fn what_is_missing_or_blank_is_named() {
        for (name, number, measured) in [
            (None, Some("1"), "no name"),
            (Some(" \t"), Some("1"), "no name"),
            (Some("Test, A"), None, "no hospital number"),
            (Some("Test, A"), Some(""), "no hospital number"),
            (None, Some(" "), "no name, no hospital number"),
        ] {
            let finding = assert_finding(
                &RULE,
                |draft| identify(draft, name, number),
                [measured, "name and hospital number"],
            );
            assert_eq!(finding.detail, None);
        }
    }

    #[test]
    fn a_missing_birth_date_is_a_detail() {
        let finding = assert_finding(
            &RULE,
            |draft| draft.0.patient.birth_date = None,
            ["no name, no hospital number", "name and hospital number"],
        );
        assert_eq!(
            finding.detail.as_deref(),
            Some("the birth date is missing too")
        );
    }
}
