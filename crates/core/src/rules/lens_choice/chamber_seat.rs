//! `AC-03`, `AC-04`: iris or chamber angle does not carry an anterior chamber IOL.

use crate::biometry::Sign;
use crate::evidence::{NO_SOURCE, Standing};
use crate::lens::Place;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

/// The iris.
pub const IRIS: Rule = Rule {
    id: "AC-03",
    title: "Iris does not suit the anterior chamber IOL",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether a defect or an adhesion of the iris is recorded, where an anterior chamber IOL lies ready.",
    why: "The lens rests before the iris and on its root. Through a defect it tilts or falls back; at an adhesion it does not find its place (common practice).",
    options: "Consider a lens fixed behind the iris, or none in the first session.",
    sources: &[Standing::CommonPractice.of(NO_SOURCE, "an intact iris carries the lens")],
    limits: &[],
    evaluate: |facts| seat(facts, Sign::IrisDefect),
};

/// The angle that its loops rest in.
pub const ANGLE: Rule = Rule {
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
    evaluate: |facts| seat(facts, Sign::NarrowAngle),
};

fn seat(facts: &Facts<'_>, sign: Sign) -> Look {
    let lens = facts.draft.lens.lenses.backup(Place::AnteriorChamber);
    lens.ok_or(Because::NoAnteriorChamberIol)?;
    let seen = sign.of(&facts.operated.0.state);
    if !seen.ok_or(Missing::Sign(sign))? {
        return Ok(None);
    }
    Finding::new(Fact::Present, Limit::Absent).found()
}

#[cfg(test)]
mod tests {
    use super::{ANGLE, IRIS};
    use crate::biometry::Sign;
    use crate::lens::Place;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::chamber_record;
    use crate::rules::{Fact, Limit};

    #[test]
    fn each_asks_its_own_sign_only_where_such_a_lens_lies_ready() {
        for (rule, sign) in [(&IRIS, Sign::IrisDefect), (&ANGLE, Sign::NarrowAngle)] {
            let seen = |seen: Option<bool>| {
                move |draft: &mut DraftUnderTest| {
                    draft.lay_ready(Place::AnteriorChamber, chamber_record());
                    sign.set(&mut draft.operated().state, seen);
                }
            };
            assert_found(rule, seen(Some(true)), Fact::Present, Limit::Absent);
            assert_satisfied(rule, seen(Some(false)));
            assert_not_evaluated(rule, seen(None));
            assert_not_applicable(rule, |draft| {
                sign.set(&mut draft.operated().state, Some(true));
            });
        }
    }
}
