//! `ID-08`: another case has the patient's number or name, and not both alike.

use crate::evidence::{HOUSE, STEEPLES_2016, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "ID-08",
    title: "Patient may be another one",
    group: Group::Identity,
    severity: Severity::Review,
    bearing: None,
    checks: "Hospital number, name and birth date against every other case of the register: the same number with another name or birth date, and the same name and birth date with another number. Capital letters, accents and separators make no difference; what is not recorded contradicts nothing.",
    why: "Two patients with one number, or one patient with two, are how the biometry of one reaches the other. Of 178 British reports of a wrong lens, 21 came from biometry of the wrong patient.",
    options: "Number, name and birth date may be compared with the wristband and the notes, and corrected in whichever case is wrong; if both are right, consider recording why.",
    sources: &[
        Standing::Printed.of(STEEPLES_2016, "biometry of the wrong patient, 21 of 178"),
        Standing::Assumption.of(HOUSE, "which identifiers contradict each other"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let others = &facts.draft.other_cases;
    if others.is_empty() {
        return Ok(None);
    }
    Finding::new(Fact::OtherCases(others.clone()), Limit::OnePatient).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::finding::{Doubt, OtherCase};
    use crate::rules::testing::{assert_found, assert_satisfied};
    use crate::rules::{Fact, Limit};

    #[test]
    fn each_other_case_is_named() {
        assert_satisfied(&RULE, |_| {});
        let other = |case: &str, doubt| OtherCase {
            case: case.to_owned(),
            doubt,
        };
        let both = vec![
            other("01K7", Doubt::NumberOfAnother),
            other("01K8", Doubt::AnotherNumber),
        ];
        assert_found(
            &RULE,
            |draft| draft.0.other_cases = both.clone(),
            Fact::OtherCases(both.clone()),
            Limit::OnePatient,
        );
    }
}
