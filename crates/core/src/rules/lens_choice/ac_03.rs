//! `AC-03`: the iris does not carry an anterior chamber IOL.

use crate::biometry::Sign;
use crate::evidence::{NO_SOURCE, Standing};
use crate::lens::Place;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
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
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lens = facts.draft.lens.lenses.backup(Place::AnteriorChamber);
    lens.ok_or(Because::NoAnteriorChamberIol)?;
    let defect = facts.operated.0.state.iris_defect;
    if !defect.ok_or(Missing::Sign(Sign::IrisDefect))? {
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
            draft.operated().state.iris_defect = sign;
        }
    }

    #[test]
    fn only_where_such_a_lens_lies_ready() {
        assert_found(&RULE, seen(Some(true)), Fact::Present, Limit::Absent);
        assert_satisfied(&RULE, seen(Some(false)));
        assert_not_evaluated(&RULE, seen(None));
        assert_not_applicable(&RULE, |draft| {
            draft.operated().state.iris_defect = Some(true);
        });
    }
}
