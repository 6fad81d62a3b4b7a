//! `PW-04`: the power was chosen by a formula that gives no answer.

use crate::evidence::{HOUSE, Source, Standing};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "PW-04",
    title: "Power was chosen by a formula that gives no answer",
    group: Group::LensChoice,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether the formula that the chosen power is planned by answers for this eye, lens and target. A formula that refuses does not pass, nor does one that is not on the ladder of this eye, nor a power without a formula.",
    why: "A power that no formula stands behind was left over from other measurements, another lens or another formula, or was typed from elsewhere; nothing predicts the refraction it leaves.",
    options: "A formula that answers may be chosen, what it lacks measured or entered, or the power taken back. Until then the plan cannot be signed.",
    sources: &[Source {
        work: HOUSE,
        locator: "a chosen power needs a formula that answers",
        standing: Standing::Assumption,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    if facts.draft.lens.power.is_none() {
        return not_evaluated("chosen power");
    }
    let Some(ladder) = facts.ladder else {
        return not_evaluated("chosen lens and target");
    };
    let measured = match facts.draft.lens.formula {
        None => "no formula".to_owned(),
        Some(formula) => match ladder.column(formula).map(|column| &column.answer) {
            Some(Ok(_)) => return Verdict::Satisfied,
            Some(Err(refusal)) => format!("{}: {refusal}", formula.name()),
            None => format!("{}: not on the ladder of this eye", formula.name()),
        },
    };
    Finding::new(measured, "an answer").into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::CornealSurgeryKind;
    use crate::iol_power::Formula;
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied,
    };

    /// The lens under test with a chosen power, then changed.
    fn chosen(change: fn(&mut DraftUnderTest)) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.plan_lens();
            draft.0.lens.power = Some(HundredthDiopters::new(2_150));
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

    #[test]
    fn a_refusal_is_shown_with_its_reason() {
        assert_finding(
            &RULE,
            chosen(|draft| draft.operated().axial_length = None),
            [
                "SRK/T: needs the axial length, which was not measured",
                "an answer",
            ],
        );
        assert_finding(
            &RULE,
            chosen(|draft| {
                draft.0.lens.formula = Some(Formula::Haigis);
                draft.operated().chamber_depth = None;
            }),
            [
                "Haigis: needs the anterior chamber depth, which was not measured",
                "an answer",
            ],
        );
        assert_finding(
            &RULE,
            chosen(|draft| draft.operate_cornea(CornealSurgeryKind::MyopicLaser)),
            [
                "SRK/T: made for corneas without refractive surgery; this one had it",
                "an answer",
            ],
        );
    }

    #[test]
    fn a_formula_that_was_not_asked_does_not_pass() {
        assert_finding(
            &RULE,
            chosen(|draft| draft.0.lens.formula = Some(Formula::HaigisModifiedRadius)),
            [
                "Haigis, modified radius: not on the ladder of this eye",
                "an answer",
            ],
        );
    }

    #[test]
    fn a_power_without_a_formula_does_not_pass() {
        let texts = ["no formula", "an answer"];
        assert_finding(&RULE, chosen(|draft| draft.0.lens.formula = None), texts);
    }

    #[test]
    fn power_lens_and_target_are_needed() {
        assert_not_evaluated(&RULE, DraftUnderTest::plan_lens);
        assert_not_evaluated(&RULE, chosen(|draft| draft.0.lens.power = None));
        assert_not_evaluated(&RULE, chosen(|draft| draft.0.lens.record = None));
        assert_not_evaluated(&RULE, chosen(|draft| draft.0.lens.target = None));
    }
}
