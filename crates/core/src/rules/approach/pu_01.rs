//! `PU-01`: a small pupil without pseudoexfoliation.

use crate::evidence::{MUHTASEB_2004, NO_SOURCE, Standing};
use crate::rules::check::at_least;
use crate::rules::{Because, Facts, Group, Look, Missing, Quantity, Rule, Severity, Which};

pub const RULE: Rule = Rule {
    id: "PU-01",
    title: "The pupil stays small",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Diameter of the dilated pupil of an eye without pseudoexfoliation against 3 mm. The limit itself passes. With pseudoexfoliation PX-01 has its own, wider limit.",
    why: "A pupil under 3 mm hides the capsulorhexis and the lens, and is one of the published risk points. The iris may be torn, and capsule and zonules are harder to spare.",
    options: "Consider iris hooks, a pupil ring or stretching, and drugs into the chamber, at hand or planned; a history of alpha-blockers, injury and inflammation may be asked for.",
    sources: &[
        Standing::Printed.of(MUHTASEB_2004, "table 1: pupil < 3 mm"),
        Standing::CommonPractice.of(NO_SOURCE, "what helps with a small pupil"),
    ],
    limits: &["risk_pupil"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let eye = facts.operated.0;
    if eye.state.pseudoexfoliation == Some(true) {
        return Err(Because::Pseudoexfoliation.into());
    }
    let pupil = eye.pupil.as_ref();
    let pupil = pupil.ok_or(Missing::of_this_eye(Which::Pupil))?;
    Ok(at_least(
        Quantity::Length,
        pupil.value.get(),
        facts.limits.risk_pupil,
    ))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };

    #[test]
    fn at_the_limit_one_step_beyond_and_without_the_measurement() {
        assert_satisfied(&RULE, |draft| draft.set_pupil("3.00 mm"));
        for pupil in ["2.999 mm", "2.00 mm"] {
            assert_finding(
                &RULE,
                |draft| draft.set_pupil(pupil),
                [pupil, "at least 3.00 mm"],
            );
        }
        assert_not_evaluated(&RULE, |_| {});
    }

    #[test]
    fn with_pseudoexfoliation_another_rule_speaks() {
        assert_not_applicable(&RULE, |draft| {
            draft.set_pupil("2.00 mm");
            draft.operated().state.pseudoexfoliation = Some(true);
        });
    }
}
