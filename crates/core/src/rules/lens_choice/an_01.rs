//! `AN-01`: the plan leaves the two eyes far apart.

use crate::evidence::{HOUSE, NO_SOURCE, Standing};
use crate::quantity::ThousandthDiopters;
use crate::rules::check::at_most;
use crate::rules::{Facts, Group, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "AN-01",
    title: "The plan leaves the eyes far apart in refraction",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Target refraction against the spherical equivalent of the fellow eye's refraction, the achieved one where that eye had its operation: the difference against 3.00 D. The limit itself passes.",
    why: "Spectacles for eyes more than about 3 D apart are seldom worn for long: images differ in size and move apart when the eyes turn. It may be planned for the months between two operations, or because the fellow eye sees little.",
    options: "Consider a target nearer to the fellow eye, a contact lens for the time between, and the day of the second operation; the patient may be told. The reason may be recorded.",
    sources: &[
        Standing::CommonPractice.of(NO_SOURCE, "spectacles are not worn over a large difference"),
        Standing::Assumption.of(HOUSE, "3.00 D"),
    ],
    limits: &["anisometropia"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let target = facts.draft.lens.target.ok_or(Missing::Target)?;
    let fellow = facts.fellow.0;
    let earlier = fellow.earlier_operation.as_ref();
    let refraction = earlier.map(|earlier| earlier.achieved);
    let refraction = refraction.or(fellow.state.refraction);
    let refraction = refraction.ok_or(Missing::FellowRefraction)?;
    let apart = ThousandthDiopters::from(target) - refraction.spherical_equivalent();
    // The other eye's refraction is left out: a number that can be read can be copied into this eye.
    let apart = apart.abs().diopters().nearest_hundredth();
    let apart = apart.ok_or(Missing::FellowRefraction)?;
    Ok(at_most(
        Quantity::Magnitude,
        apart,
        facts.limits.anisometropia,
    ))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied, diopters,
        earlier_operation, sphere,
    };

    fn target_and_fellow(target: i32, fellow: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.0.lens.target = Some(diopters(target));
            draft.fellow().state.refraction = Some(sphere(fellow));
        }
    }

    #[test]
    fn at_the_limit_and_one_step_beyond_either_way() {
        for (target, fellow) in [(-25, -325), (-25, 275), (0, 0)] {
            assert_satisfied(&RULE, target_and_fellow(target, fellow));
        }
        for (target, fellow) in [(-25, -326), (-25, 276)] {
            let texts = ["3.01 D", "at most 3.00 D"];
            assert_finding(&RULE, target_and_fellow(target, fellow), texts);
        }
    }

    /// The first operation achieved −0.75 D; what was before it no longer counts.
    #[test]
    fn an_eye_that_was_operated_on_counts_as_it_is_now() {
        assert_satisfied(&RULE, |draft| {
            target_and_fellow(-25, -900)(draft);
            draft.fellow().earlier_operation = Some(earlier_operation(None));
        });
        assert_finding(
            &RULE,
            |draft| {
                target_and_fellow(-400, -400)(draft);
                draft.fellow().earlier_operation = Some(earlier_operation(None));
            },
            ["3.25 D", "at most 3.00 D"],
        );
    }

    #[test]
    fn target_and_refraction_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.0.lens.target = Some(diopters(0)));
        assert_not_evaluated(&RULE, |draft| {
            draft.fellow().state.refraction = Some(sphere(0));
        });
    }
}
