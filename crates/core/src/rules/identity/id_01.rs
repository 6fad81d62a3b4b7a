//! `ID-01`: name or hospital number of the patient is missing.

use crate::evidence::{SEVEN_CASES_2012, STEEPLES_2016, Standing};
use crate::rules::{Detail, Fact, Facts, Finding, Group, Identifier, Limit, Look, Rule, Severity};

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
        Standing::Printed.of(
            SEVEN_CASES_2012,
            "patient and lens sheet not matched by two identifiers",
        ),
        Standing::Printed.of(STEEPLES_2016, "biometry of the wrong patient, 21 of 178"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let patient = &facts.draft.patient;
    let is_missing =
        |entry: &Option<String>| entry.as_ref().is_none_or(|entry| entry.trim().is_empty());
    // The finding names what is missing and never the patient.
    let missing: Vec<_> = [
        (Identifier::Name, &patient.name),
        (Identifier::Number, &patient.number),
    ]
    .into_iter()
    .filter_map(|(what, entry)| is_missing(entry).then_some(what))
    .collect();
    if missing.is_empty() {
        return Ok(None);
    }
    let no_birth_date = patient.birth_date.is_none();
    Finding::new(Fact::Without(missing), Limit::NameAndNumber)
        .with(no_birth_date.then_some(Detail::BirthDateMissing))
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::Identifier::{Name, Number};
    use crate::rules::testing::{DraftUnderTest, assert_found, assert_satisfied};
    use crate::rules::{Detail, Fact, Limit};

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
        for (name, number, missing) in [
            (None, Some("1"), &[Name][..]),
            (Some(" \t"), Some("1"), &[Name]),
            (Some("Test, A"), None, &[Number]),
            (Some("Test, A"), Some(""), &[Number]),
            (None, Some(" "), &[Name, Number]),
        ] {
            let finding = assert_found(
                &RULE,
                |draft| identify(draft, name, number),
                Fact::Without(missing.to_vec()),
                Limit::NameAndNumber,
            );
            assert_eq!(finding.details, []);
        }
    }

    #[test]
    fn a_missing_birth_date_is_a_detail() {
        let finding = assert_found(
            &RULE,
            |draft| draft.0.patient.birth_date = None,
            Fact::Without(vec![Name, Number]),
            Limit::NameAndNumber,
        );
        assert_eq!(finding.details, [Detail::BirthDateMissing]);
    }
}
