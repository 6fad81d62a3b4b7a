//! `AC-04`: the chamber angle is narrow where an anterior chamber IOL would rest.

use crate::biometry::Sign;
use crate::evidence::{NO_SOURCE, Standing};
use crate::lens::Place;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "AC-04",
    title: "Chamber angle does not suit the anterior chamber IOL",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the chamber angle is recorded as narrow or closed, where an anterior chamber IOL lies ready.",
    why: "The loops rest in the angle. In a narrow one they press, and the pressure of the eye may rise (common practice).",
    options: "Consider a lens fixed behind the iris, or none in the first session; consider looking into the angle again.",
    sources: &[Standing::CommonPractice.of(NO_SOURCE, "the angle carries the loops")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lens = facts.draft.lens.lenses.backup(Place::AnteriorChamber);
    lens.ok_or(Because::NoAnteriorChamberIol)?;
    let narrow = facts.operated.0.state.narrow_angle;
    if !narrow.ok_or(Missing::Sign(Sign::NarrowAngle))? {
        return Ok(None);
    }
    Finding::new(Fact::Present, Limit::Absent).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::Place;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::chamber_record;
    use crate::rules::{Fact, Limit};

    fn seen(sign: Option<bool>) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.lay_ready(Place::AnteriorChamber, chamber_record());
            draft.operated().state.narrow_angle = sign;
        }
    }

    #[test]
    fn only_where_such_a_lens_lies_ready() {
        assert_found(&RULE, seen(Some(true)), Fact::Present, Limit::Absent);
        assert_satisfied(&RULE, seen(Some(false)));
        assert_not_evaluated(&RULE, seen(None));
        assert_not_applicable(&RULE, |draft| {
            draft.operated().state.narrow_angle = Some(true);
        });
    }
}
