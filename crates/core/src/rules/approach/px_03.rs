//! `PX-03`: pseudoexfoliation and a lens off center.

use super::pseudoexfoliation;
use crate::evidence::{PSEUDOEXFOLIATION_SIGNS, Standing, TENSION_RING_78};
use crate::quantity::Micrometers;
use crate::rules::check::at_most;
use crate::rules::{Facts, Group, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "PX-03",
    title: "Pseudoexfoliation and a lens off center",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "How far the lens center lies from the axis in an eye with pseudoexfoliation, against 0.260 mm. The limit itself passes.",
    why: "In pseudoexfoliation, a lens center more than 0.260 mm off the axis marks a risk of weak zonules. In a trial of 78, zonules separated in none with a capsular tension ring and in 12.8 % without.",
    options: "Consider a capsular tension ring and iris hooks or rings at hand, and gentle turning of the nucleus; phacodonesis may be looked for at the slit lamp.",
    sources: &[
        Standing::Printed.of(PSEUDOEXFOLIATION_SIGNS, "decentration > 0.260 mm"),
        Standing::Printed.of(TENSION_RING_78, "zonular separation 0 against 12.8 %"),
    ],
    limits: &["pseudoexfoliation_decentration"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    pseudoexfoliation(facts)?;
    let decentration = facts.operated.0.state.lens_decentration;
    let decentration = decentration.ok_or(Missing::LensDecentration)?;
    // A sign could only be a direction.
    let size = decentration.abs_diff(Micrometers::new(0));
    let limit = facts.limits.pseudoexfoliation_decentration;
    Ok(at_most(Quantity::Length, size, limit))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::quantity::Micrometers;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };

    fn eye(decentration_um: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            let state = &mut draft.operated().state;
            state.pseudoexfoliation = Some(true);
            state.lens_decentration = Some(Micrometers::new(decentration_um));
        }
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, eye(0));
        assert_satisfied(&RULE, eye(260));
        for decentration_um in [261, -261] {
            let texts = ["0.261 mm", "at most 0.26 mm"];
            assert_finding(&RULE, eye(decentration_um), texts);
        }
    }

    #[test]
    fn only_with_pseudoexfoliation_and_a_decentration() {
        assert_not_evaluated(&RULE, |draft| {
            eye(900)(draft);
            draft.operated().state.pseudoexfoliation = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.operated().state.pseudoexfoliation = Some(true);
        });
        assert_not_applicable(&RULE, |draft| {
            eye(900)(draft);
            draft.operated().state.pseudoexfoliation = Some(false);
        });
    }
}
