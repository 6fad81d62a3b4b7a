//! `TO-06`: the chosen axis is not the suggested one.

use super::{chosen_step, toric_answer};
use crate::astigmatism::rotation::PRINTED_SOURCE;
use crate::evidence::{HOUSE, Source, Standing};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "TO-06",
    title: "Chosen axis differs from the suggested one",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Angle between the chosen axis and the steep meridian of the cornea after the operation by the formula planned by, both in whole degrees. The limit itself passes.",
    why: "Where the cylinders of lens and cornea are equal, an axis off by ten degrees leaves a third of the cylinder and by thirty degrees all of it. A difference may be wanted, or be left over from other measurements, another incision or the other eye, or be a meridian taken for the one at right angles to it.",
    options: "The suggested axis may be chosen, the measurements compared with the printout, or the reason recorded.",
    sources: &[
        PRINTED_SOURCE,
        Source {
            work: HOUSE,
            locator: "within 5°",
            standing: Standing::Assumption,
        },
    ],
    limits: &["toric_axis_off"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    look(facts).unwrap_or_else(|verdict| verdict)
}

fn look(facts: &Facts<'_>) -> Result<Verdict, Verdict> {
    let axis = chosen_step(facts)?.choice.axis;
    let suggested = toric_answer(facts)?
        .suggested_axis
        .ok_or(not_evaluated("steep meridian of the cornea"))?;
    let off = axis.apart(suggested);
    let limit = facts.limits.toric_axis_off;
    if i32::from(off) <= limit {
        return Ok(Verdict::Satisfied);
    }
    Ok(Finding::new(
        format!("{axis}, suggested {suggested}: {off}° apart"),
        format!("at most {limit}° apart"),
    )
    .into())
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};

    fn axis(degrees: u16) -> impl FnOnce(&mut DraftUnderTest) {
        toric(move |draft| draft.choose_toric(225, degrees))
    }

    /// Front, back and incision all have their meridians at 90 and 180: the suggested axis is 90.
    #[test]
    fn at_the_limit_and_one_degree_beyond() {
        for degrees in [85, 90, 95] {
            assert_satisfied(&RULE, axis(degrees));
        }
        let limit = "at most 5° apart";
        assert_finding(&RULE, axis(84), ["84°, suggested 90°: 6° apart", limit]);
        assert_finding(&RULE, axis(96), ["96°, suggested 90°: 6° apart", limit]);
        assert_finding(&RULE, axis(180), ["180°, suggested 90°: 90° apart", limit]);
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
