//! `PW-03`: another power was chosen than the convention proposes.

use super::planned_answer;
use crate::evidence::{STEEPLES_2016, Standing};
use crate::iol_power::ladder::Answer;
use crate::quantity::HundredthDiopters;
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "PW-03",
    title: "Another power was chosen than proposed",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "The chosen power against the one that the case's convention proposes by the chosen formula. Only the proposed power itself passes.",
    why: "The difference may be wanted, or left over from an earlier formula, target or lens. Of 178 reports of wrong lenses, 16 were of wrong selection and 16 of a changed plan.",
    options: "The proposed power may be chosen, formula or convention changed if they are not the ones meant, or the reason for this power recorded.",
    sources: &[Standing::Printed.of(
        STEEPLES_2016,
        "178 reports: wrong selection 16, changed plan 16",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let answer = planned_answer(facts)?;
    let power = facts.draft.lens.power().ok_or(Missing::Power)?;
    facts.draft.lens.convention.ok_or(Missing::Convention)?;
    let proposed = answer.proposed.ok_or(Missing::Proposal)?;
    if power == proposed {
        return Ok(None);
    }
    let found = Fact::Predicted {
        power,
        refraction: predicted(answer, power),
    };
    let limit = Limit::ProposedPower {
        power: proposed,
        refraction: predicted(answer, proposed),
    };
    Finding::new(found, limit).found()
}

fn predicted(answer: &Answer, power: HundredthDiopters) -> Option<HundredthDiopters> {
    let refraction = answer.eye.refraction_with(power.diopters()).ok()?;
    refraction.nearest_hundredth()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::iol_power::Formula;
    use crate::iol_power::ladder::Convention;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied, diopters,
    };
    use crate::rules::testing_lens::{choose_power, powers};
    use crate::rules::{Fact, Limit};

    /// Power and predicted refraction: chosen, then proposed.
    #[track_caller]
    fn assert_other(
        change: impl FnOnce(&mut DraftUnderTest),
        chosen: [i32; 2],
        proposed: [i32; 2],
    ) {
        let [chosen, proposed] = [chosen, proposed].map(|both| both.map(diopters));
        assert_found(
            &RULE,
            change,
            Fact::Predicted {
                power: chosen[0],
                refraction: Some(chosen[1]),
            },
            Limit::ProposedPower {
                power: proposed[0],
                refraction: Some(proposed[1]),
            },
        );
    }

    /// Predictions of SRK/T in closed form at 50 digits (`tests/oracle/closed_forms.py`), AL
    /// 23.50 mm, K 43.50 and 44.00 D, A 119: +21.00 D 0.018306, +21.50 D −0.321036, +22.00 D
    /// −0.664323.
    #[test]
    fn the_proposed_power_and_one_step_on_either_side() {
        assert_satisfied(&RULE, choose_power(2_150));
        assert_other(choose_power(2_200), [2_200, -66], [2_150, -32]);
        assert_other(choose_power(2_100), [2_100, 2], [2_150, -32]);
    }

    /// Haigis by the same closed forms: exact power 22.0787 D, +22.00 D predicts 0.053168 and
    /// +21.50 D 0.388580.
    #[test]
    fn formula_and_convention_decide_what_is_proposed() {
        let by_haigis = |hundredths| {
            move |draft: &mut DraftUnderTest| {
                choose_power(hundredths)(draft);
                draft.0.lens.formula = Some(Formula::Haigis);
                draft.0.lens.convention = Some(Convention::Nearest);
            }
        };
        assert_satisfied(&RULE, by_haigis(2_200));
        assert_other(by_haigis(2_150), [2_150, 39], [2_200, 5]);
    }

    #[test]
    fn everything_a_proposal_takes_is_needed() {
        let without = |remove: fn(&mut DraftUnderTest)| {
            move |draft: &mut DraftUnderTest| {
                choose_power(2_200)(draft);
                remove(draft);
            }
        };
        assert_not_evaluated(&RULE, without(|draft| draft.chosen().power = None));
        assert_not_evaluated(&RULE, without(DraftUnderTest::without_lens));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.target = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.formula = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.convention = None));
        assert_not_evaluated(&RULE, without(|draft| draft.operated().keratometry = None));
        // Every power of this lens leaves the eye hyperopic.
        assert_not_evaluated(
            &RULE,
            without(|draft| {
                draft.chosen().record.powers = powers(1_000, 2_000, 50);
            }),
        );
    }
}
