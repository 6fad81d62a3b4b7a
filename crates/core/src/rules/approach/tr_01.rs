//! `TR-01`: the surgeon is a trainee.

use crate::case::SurgeonGrade;
use crate::evidence::{ARAVIND_TRIALS, Source, Standing};
use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Bearing, Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "TR-01",
    title: "The surgeon is a trainee",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: Some(Bearing::SmallIncision),
    checks: "Whether the surgeon is a trainee, of more or of less experience.",
    why: "Trainees had complications in 4.8 % of phacoemulsifications and in 1.46 % of small-incision operations.",
    options: "Consider the approach this trainee knows better, and the supervision it needs.",
    sources: &[Source {
        work: ARAVIND_TRIALS,
        locator: "trainees' complications 4.8 against 1.46 %",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let grade = match facts.draft.operation.surgeon {
        None => return not_evaluated("experience of the surgeon"),
        Some(SurgeonGrade::Independent) => return not_applicable("the surgeon is independent"),
        Some(SurgeonGrade::ExperiencedTrainee) => "trainee of more experience",
        Some(SurgeonGrade::Trainee) => "trainee of less experience",
    };
    Finding::new(grade, "independent surgeon").into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::SurgeonGrade;
    use crate::rules::testing::{assert_finding, assert_not_applicable, assert_not_evaluated};

    #[test]
    fn both_grades_of_trainee_and_no_other() {
        for (grade, measured) in [
            (
                SurgeonGrade::ExperiencedTrainee,
                "trainee of more experience",
            ),
            (SurgeonGrade::Trainee, "trainee of less experience"),
        ] {
            assert_finding(
                &RULE,
                |draft| draft.0.operation.surgeon = Some(grade),
                [measured, "independent surgeon"],
            );
        }
        assert_not_applicable(&RULE, |draft| {
            draft.0.operation.surgeon = Some(SurgeonGrade::Independent);
        });
        assert_not_evaluated(&RULE, |_| {});
    }
}
