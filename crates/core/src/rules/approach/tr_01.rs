//! `TR-01`: the surgeon is a trainee.

use crate::case::SurgeonGrade;
use crate::evidence::{ARAVIND_TRIALS, Standing};
use crate::rules::{
    Bearing, Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity,
};

pub const RULE: Rule = Rule {
    id: "TR-01",
    title: "The surgeon is a trainee",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: Some(Bearing::SmallIncision),
    checks: "Whether the surgeon is a trainee, of more or of less experience.",
    why: "Trainees had complications in 4.8 % of phacoemulsifications and in 1.46 % of small-incision operations.",
    options: "Consider the approach this trainee knows better, and the supervision it needs.",
    sources: &[Standing::Printed.of(ARAVIND_TRIALS, "trainees' complications 4.8 against 1.46 %")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let grade = facts.draft.operation.surgeon.ok_or(Missing::SurgeonGrade)?;
    if grade == SurgeonGrade::Independent {
        return Err(Because::IndependentSurgeon.into());
    }
    Finding::new(Fact::Surgeon(grade), Limit::IndependentSurgeon).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::SurgeonGrade;
    use crate::rules::testing::{assert_found, assert_not_applicable, assert_not_evaluated};
    use crate::rules::{Fact, Limit};

    #[test]
    fn both_grades_of_trainee_and_no_other() {
        for grade in [SurgeonGrade::ExperiencedTrainee, SurgeonGrade::Trainee] {
            assert_found(
                &RULE,
                |draft| draft.0.operation.surgeon = Some(grade),
                Fact::Surgeon(grade),
                Limit::IndependentSurgeon,
            );
        }
        assert_not_applicable(&RULE, |draft| {
            draft.0.operation.surgeon = Some(SurgeonGrade::Independent);
        });
        assert_not_evaluated(&RULE, |_| {});
    }
}
