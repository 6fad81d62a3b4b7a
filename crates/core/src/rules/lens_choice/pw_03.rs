//! `PW-03`: another power was chosen than the convention proposes.

use super::planned_answer;
use crate::evidence::{STEEPLES_2016, Source, Standing};
use crate::iol_power::ladder::Answer;
use crate::quantity::HundredthDiopters;
use crate::rules::verdict::not_evaluated;
use crate::rules::{Against, Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "PW-03",
    title: "Another power was chosen than proposed",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "The chosen power against the one that the case's convention proposes by the formula planned by. Only the proposed power itself passes.",
    why: "The difference may be wanted, or left over from an earlier formula, target or lens. Of 178 reports of wrong lenses, 16 were of wrong selection and 16 of a changed plan.",
    options: "The proposed power may be chosen, formula or convention changed if they are not the ones meant, or the reason for this power recorded.",
    sources: &[Source {
        work: STEEPLES_2016,
        locator: "178 reports: wrong selection 16, changed plan 16",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let answer = match planned_answer(facts) {
        Ok(answer) => answer,
        Err(verdict) => return verdict,
    };
    let Some(chosen) = facts.draft.lens.power else {
        return not_evaluated("chosen power");
    };
    if facts.draft.lens.convention.is_none() {
        return not_evaluated("convention by which a power is proposed");
    }
    let Some(proposed) = answer.proposed else {
        return not_evaluated("a proposed power, since the convention finds none");
    };
    if chosen == proposed {
        return Verdict::Satisfied;
    }
    Finding::new(
        with_prediction(answer, chosen),
        with_prediction(answer, proposed),
    )
    .against(Against::Proposal)
    .into()
}

fn with_prediction(answer: &Answer, power: HundredthDiopters) -> String {
    match answer.eye.refraction_with(power.diopters()) {
        Ok(refraction) => format!("{power}, predicted {refraction}"),
        Err(_) => format!("{power}, no prediction"),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::iol_power::Formula;
    use crate::iol_power::ladder::Convention;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, powers};

    /// Predictions of SRK/T in closed form at 50 digits (`tests/oracle/closed_forms.py`), AL
    /// 23.50 mm, K 43.50 and 44.00 D, A 119: +21.00 D 0.018306, +21.50 D −0.321036, +22.00 D
    /// −0.664323.
    #[test]
    fn the_proposed_power_and_one_step_on_either_side() {
        assert_satisfied(&RULE, choose_power(2_150));
        let proposed = "+21.50 D, predicted −0.32 D";
        assert_finding(
            &RULE,
            choose_power(2_200),
            ["+22.00 D, predicted −0.66 D", proposed],
        );
        assert_finding(
            &RULE,
            choose_power(2_100),
            ["+21.00 D, predicted +0.02 D", proposed],
        );
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
        let texts = ["+21.50 D, predicted +0.39 D", "+22.00 D, predicted +0.05 D"];
        assert_finding(&RULE, by_haigis(2_150), texts);
    }

    #[test]
    fn everything_a_proposal_takes_is_needed() {
        let without = |remove: fn(&mut DraftUnderTest)| {
            move |draft: &mut DraftUnderTest| {
                choose_power(2_200)(draft);
                remove(draft);
            }
        };
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.power = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.record = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.target = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.formula = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.convention = None));
        assert_not_evaluated(&RULE, without(|draft| draft.operated().keratometry = None));
        // Every power of this lens leaves the eye hyperopic.
        assert_not_evaluated(
            &RULE,
            without(|draft| {
                draft.0.lens.record.as_mut().unwrap().powers = powers(1_000, 2_000, 50);
            }),
        );
    }
}
