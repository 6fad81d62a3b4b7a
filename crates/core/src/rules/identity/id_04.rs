//! `ID-04`: the eye to be operated on already had a cataract operation.

use crate::evidence::{HOUSE, STEEPLES_2016, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "ID-04",
    title: "Operative eye already had its cataract operation",
    group: Group::Identity,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether a cataract operation is recorded for the eye this case plans to operate on. Only an eye without one passes.",
    why: "An eye loses its cataract once. A recorded operation on this eye means that the wrong eye was chosen, or that the earlier operation was entered for the wrong eye. Of 178 British reports of a wrong lens, 9 were left for right.",
    options: "Consider comparing eye, notes and slit lamp. The earlier operation may be moved to the eye it belongs to, or the operative eye changed with a recorded reason. An exchange or an added lens is not planned here.",
    sources: &[
        Standing::Assumption.of(HOUSE, "an operated eye has no cataract to plan for"),
        Standing::Printed.of(STEEPLES_2016, "left/right, 9 of 178"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let Some(earlier) = &facts.operated.0.earlier_operation else {
        return Ok(None);
    };
    let found = Fact::LensInEye {
        eye: facts.side,
        power: earlier.lens_power,
    };
    Finding::new(found, Limit::NotOperatedBefore).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Side;
    use crate::rules::testing::{assert_found, assert_satisfied, diopters, earlier_operation};
    use crate::rules::{Fact, Limit};

    #[test]
    fn an_operation_on_the_fellow_eye_is_no_finding() {
        assert_satisfied(&RULE, |_| {});
        assert_satisfied(&RULE, |draft| {
            draft.fellow().earlier_operation = Some(earlier_operation(None));
        });
    }

    #[test]
    fn an_operation_on_this_eye_is() {
        let lens_in = |eye| Fact::LensInEye {
            eye,
            power: diopters(2_150),
        };
        assert_found(
            &RULE,
            |draft| draft.operated().earlier_operation = Some(earlier_operation(None)),
            lens_in(Side::Right),
            Limit::NotOperatedBefore,
        );
        // The same record, planned for the other eye.
        assert_found(
            &RULE,
            |draft| {
                draft.fellow().earlier_operation = Some(earlier_operation(None));
                draft.0.operation.eye = Some(Side::Left);
            },
            lens_in(Side::Left),
            Limit::NotOperatedBefore,
        );
    }
}
