//! `PW-04`: the power was chosen by a formula that gives no answer.

use super::chosen_power;
use super::in_place::behind;
use crate::evidence::{HOUSE, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, NoAnswer, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "PW-04",
    title: "Power was chosen by a formula without a result",
    group: Group::LensChoice,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether the chosen formula gives a result for this eye, lens and target. A formula without a result does not pass, nor does one that is not in the lens power table of this eye, nor a power without a formula. For the power of a lens that lies ready, the result of another formula will do, since records of such lenses often hold one constant alone.",
    why: "A power that no formula stands behind was left over from other measurements, another lens or another formula, or was typed from elsewhere; nothing predicts the refraction it leaves.",
    options: "A formula that gives a result may be chosen, what it lacks measured or entered, or the power taken back. Until then the plan cannot be signed.",
    sources: &[Standing::Assumption.of(HOUSE, "a chosen power needs a formula that gives a result")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let power = chosen_power(facts)?;
    let ladder = facts.ladder().ok_or(Missing::LensAndTarget)?;
    let Some(formula) = facts.draft.lens.formula else {
        return Finding::new(Fact::NoFormula, Limit::Answer).found();
    };
    if facts.backup().is_some() && behind(facts, ladder, power)?.is_some() {
        return Ok(None);
    }
    let why = match ladder.column(formula).map(|column| &column.answer) {
        Some(Ok(_)) => return Ok(None),
        Some(Err(refusal)) => NoAnswer::Eye(*refusal),
        None => NoAnswer::NotOnLadder,
    };
    Finding::new(Fact::NoAnswer { formula, why }, Limit::Answer).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::CornealSurgeryKind;
    use crate::iol_power::{Formula, Needed, Refusal};
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::{Fact, Limit, NoAnswer};

    /// The lens under test with a chosen power, then changed.
    fn chosen(change: fn(&mut DraftUnderTest)) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.plan_lens();
            draft.chosen().power = Some(HundredthDiopters::new(2_150));
            change(draft);
        }
    }

    #[test]
    fn a_formula_that_answers_passes() {
        for formula in Formula::THIN_LENS {
            assert_satisfied(&RULE, |draft| {
                chosen(|_| {})(draft);
                draft.0.lens.formula = Some(formula);
            });
        }
    }

    #[track_caller]
    fn assert_no_answer(change: fn(&mut DraftUnderTest), formula: Formula, why: NoAnswer) {
        let found = Fact::NoAnswer { formula, why };
        assert_found(&RULE, chosen(change), found, Limit::Answer);
    }

    #[test]
    fn a_refusal_is_shown_with_its_reason() {
        let not_measured = |what| NoAnswer::Eye(Refusal::NotMeasured { what });
        assert_no_answer(
            |draft| draft.operated().axial_length = None,
            Formula::SrkT,
            not_measured(Needed::AxialLength),
        );
        assert_no_answer(
            |draft| {
                draft.0.lens.formula = Some(Formula::Haigis);
                draft.operated().chamber_depth = None;
            },
            Formula::Haigis,
            not_measured(Needed::ChamberDepth),
        );
        assert_no_answer(
            |draft| draft.operate_cornea(CornealSurgeryKind::MyopicLaser),
            Formula::SrkT,
            NoAnswer::Eye(Refusal::CorneaOperated),
        );
    }

    #[test]
    fn a_formula_that_was_not_asked_does_not_pass() {
        assert_no_answer(
            |draft| draft.0.lens.formula = Some(Formula::HaigisModifiedRadius),
            Formula::HaigisModifiedRadius,
            NoAnswer::NotOnLadder,
        );
    }

    #[test]
    fn a_power_without_a_formula_does_not_pass() {
        let without = chosen(|draft| draft.0.lens.formula = None);
        assert_found(&RULE, without, Fact::NoFormula, Limit::Answer);
    }

    #[test]
    fn power_lens_and_target_are_needed() {
        assert_not_evaluated(&RULE, DraftUnderTest::plan_lens);
        assert_not_evaluated(&RULE, chosen(|draft| draft.chosen().power = None));
        assert_not_evaluated(&RULE, chosen(DraftUnderTest::without_lens));
        assert_not_evaluated(&RULE, chosen(|draft| draft.0.lens.target = None));
    }
}
