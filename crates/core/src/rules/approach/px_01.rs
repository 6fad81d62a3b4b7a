//! `PX-01`: pseudoexfoliation and a small pupil.

use super::pseudoexfoliation;
use crate::evidence::{PSEUDOEXFOLIATION_SIGNS, Standing, TENSION_RING_78};
use crate::rules::check::at_least;
use crate::rules::{Facts, Group, Look, Missing, Quantity, Rule, Severity, Which};

pub const RULE: Rule = Rule {
    id: "PX-01",
    title: "Pseudoexfoliation and a small pupil",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Diameter of the dilated pupil of an eye with pseudoexfoliation against 6.30 mm. The limit itself passes.",
    why: "In pseudoexfoliation, a pupil that dilates to less than 6.30 mm marks a risk of weak zonules. In a trial of 78, zonules separated in none with a capsular tension ring and in 12.8 % without.",
    options: "Consider a capsular tension ring and iris hooks or rings at hand, and gentle turning of the nucleus; phacodonesis may be looked for at the slit lamp.",
    sources: &[
        Standing::Printed.of(PSEUDOEXFOLIATION_SIGNS, "pupil < 6.30 mm"),
        Standing::Printed.of(TENSION_RING_78, "zonular separation 0 against 12.8 %"),
    ],
    limits: &["pseudoexfoliation_pupil"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    pseudoexfoliation(facts)?;
    let pupil = facts.operated.0.pupil.as_ref();
    let pupil = pupil.ok_or(Missing::of_this_eye(Which::Pupil))?;
    let limit = facts.limits.pseudoexfoliation_pupil;
    Ok(at_least(Quantity::Length, pupil.value.get(), limit))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for pupil in ["6.30 mm", "6.301 mm"] {
            assert_satisfied(&RULE, |draft| {
                draft.operated().state.pseudoexfoliation = Some(true);
                draft.set_pupil(pupil);
            });
        }
        assert_finding(
            &RULE,
            |draft| {
                draft.operated().state.pseudoexfoliation = Some(true);
                draft.set_pupil("6.299 mm");
            },
            ["6.299 mm", "at least 6.30 mm"],
        );
    }

    #[test]
    fn only_with_pseudoexfoliation_and_a_pupil() {
        assert_not_evaluated(&RULE, |draft| draft.set_pupil("4.00 mm"));
        assert_not_evaluated(&RULE, |draft| {
            draft.operated().state.pseudoexfoliation = Some(true);
        });
        assert_not_applicable(&RULE, |draft| {
            draft.operated().state.pseudoexfoliation = Some(false);
            draft.set_pupil("4.00 mm");
        });
    }
}
