//! `TO-06`: the chosen axis is not the suggested one.

use super::{chosen_step, toric_answer};
use crate::astigmatism::rotation::PRINTED_SOURCE;
use crate::evidence::{HOUSE, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-06",
    title: "Chosen axis differs from the suggested one",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Angle between the chosen axis and the steep meridian of the cornea after the operation by the chosen formula, both in whole degrees. The limit itself passes.",
    why: "Where the cylinders of lens and cornea are equal, an axis off by ten degrees leaves a third of the cylinder and by thirty degrees all of it. A difference may be wanted, or be left over from other measurements, another incision or the other eye, or be a meridian taken for the one at right angles to it.",
    options: "The suggested axis may be chosen, the measurements compared with the printout, or the reason recorded.",
    sources: &[PRINTED_SOURCE, Standing::Assumption.of(HOUSE, "within 5°")],
    limits: &["toric_axis_off"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let chosen = chosen_step(facts)?.choice.axis;
    let suggested = toric_answer(facts)?.suggested_axis;
    let suggested = suggested.ok_or(Missing::SteepMeridian)?;
    let apart = chosen.apart(suggested);
    let limit = facts.limits.toric_axis_off;
    if i32::from(apart) <= limit {
        return Ok(None);
    }
    let found = Fact::Axis {
        chosen,
        suggested,
        apart,
    };
    Finding::new(found, Limit::AtMostApart(limit)).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, meridian,
    };
    use crate::rules::testing_lens::{choose_power, toric};
    use crate::rules::{Fact, Limit};

    fn axis(degrees: u16) -> impl FnOnce(&mut DraftUnderTest) {
        toric(move |draft| draft.choose_toric(225, degrees))
    }

    /// Front, back and incision all have their meridians at 90 and 180: the suggested axis is 90.
    #[test]
    fn at_the_limit_and_one_degree_beyond() {
        for degrees in [85, 90, 95] {
            assert_satisfied(&RULE, axis(degrees));
        }
        for (degrees, apart) in [(84, 6), (96, 6), (180, 90)] {
            let found = Fact::Axis {
                chosen: meridian(degrees),
                suggested: meridian(90),
                apart,
            };
            assert_found(&RULE, axis(degrees), found, Limit::AtMostApart(5));
        }
    }

    #[test]
    fn choice_and_answer_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, toric(|_| {}));
        assert_not_evaluated(&RULE, |draft| {
            axis(90)(draft);
            draft.0.approach.incision_direction = None;
        });
    }
}
