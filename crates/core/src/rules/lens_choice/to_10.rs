//! `TO-10`: a cylinder was chosen, and nothing predicts what it leaves.

use super::toric_steps;
use crate::astigmatism::ToricRefusal;
use crate::evidence::{HOUSE, Source, Standing};
use crate::iol_power::Formula;
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "TO-10",
    title: "Cylinder was chosen and no formula predicts what it leaves",
    group: Group::LensChoice,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether the formula that the power is planned by answers for the chosen cylinder at the chosen axis. A formula that refuses does not pass, nor does a choice without a formula, or one that the terms of the cornea do not allow.",
    why: "A cylinder that no calculation stands behind was left over from other measurements, or typed from elsewhere.",
    options: "What the calculation lacks may be measured or entered, a formula that answers chosen, or the cylinder taken back. Until then the plan cannot be signed.",
    sources: &[Source {
        work: HOUSE,
        locator: "a chosen cylinder needs a formula that answers",
        standing: Standing::Assumption,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    if let Err(verdict) = toric_steps(facts) {
        return verdict;
    }
    if facts.draft.lens.toric.is_none() {
        return not_evaluated("chosen cylinder and axis");
    }
    let Some(formula) = facts.draft.lens.formula else {
        return Finding::new("no formula", "an answer").into();
    };
    match refusal(facts, formula) {
        None => Verdict::Satisfied,
        Some(refusal) => Finding::new(format!("{}: {refusal}", formula.name()), "an answer").into(),
    }
}

fn refusal(facts: &Facts<'_>, formula: Formula) -> Option<ToricRefusal> {
    let toric = facts.toric;
    let column = toric
        .formulas
        .iter()
        .find(|column| column.formula == formula);
    let Some(column) = column else {
        // Without a ladder there is no column; the cornea may say more than that.
        let missing = ToricRefusal::Missing {
            what: "chosen lens, target and a formula on the ladder of this eye",
        };
        return Some(toric.cornea.as_ref().err().copied().unwrap_or(missing));
    };
    match &column.answer {
        Err(refusal) => Some(*refusal),
        Ok(prediction) => prediction.chosen.as_ref()?.outcome.as_ref().err().copied(),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::astigmatism::PosteriorChoice;
    use crate::case::Approach;
    use crate::iol_power::Formula;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};

    fn chosen(change: fn(&mut DraftUnderTest)) -> impl FnOnce(&mut DraftUnderTest) {
        toric(move |draft| {
            draft.choose_toric(225, 90);
            change(draft);
        })
    }

    #[test]
    fn every_thin_lens_formula_answers() {
        for formula in Formula::THIN_LENS {
            assert_satisfied(
                &RULE,
                toric(move |draft| {
                    draft.choose_toric(225, 90);
                    draft.0.lens.formula = Some(formula);
                }),
            );
        }
    }

    type Change = fn(&mut DraftUnderTest);

    #[test]
    fn every_refusal_is_shown_with_its_reason() {
        let cases: [(Change, &str); 8] = [
            (
                |draft| draft.operated().keratometry = None,
                "SRK/T: needs the keratometry, which was not measured",
            ),
            (
                |draft| draft.operated().axial_length = None,
                "SRK/T: needs the axial length, which was not measured",
            ),
            (
                |draft| draft.operated().state.irregular_cornea = Some(true),
                "SRK/T: the cornea is recorded as irregular: no cylinder describes it",
            ),
            (
                |draft| draft.0.approach.incision_direction = None,
                "SRK/T: needs the direction of the incision",
            ),
            (
                |draft| {
                    draft.0.approach.approach = Some(Approach::SmallIncision);
                    draft.0.approach.incision_effect = None;
                },
                "SRK/T: effect of a small-incision (SICS) wound on the cornea is not known: the \
                 surgeon's own figures may be recorded",
            ),
            (
                |draft| draft.0.lens.posterior = Some(PosteriorChoice::Multiplier),
                "SRK/T: the multiplier is published for lens cylinders up to +2.00 D, not for +2.25 D",
            ),
            (
                |draft| draft.0.lens.power = None,
                "SRK/T: needs the chosen power",
            ),
            (|draft| draft.0.lens.formula = None, "no formula"),
        ];
        for (change, measured) in cases {
            assert_finding(&RULE, chosen(change), [measured, "an answer"]);
        }
    }

    #[test]
    fn a_formula_that_is_not_computed_by_meridian_does_not_pass() {
        let finding = assert_finding(
            &RULE,
            chosen(|draft| {
                draft.0.lens.formula = Some(Formula::HaigisModifiedRadius);
            }),
            [
                "Haigis, modified radius: needs the chosen lens, target and a formula on the ladder \
                 of this eye",
                "an answer",
            ],
        );
        assert_eq!(finding.detail, None);
    }

    #[test]
    fn a_toric_lens_and_a_choice_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, toric(|_| {}));
        assert_not_evaluated(&RULE, |draft| draft.choose_toric(225, 90));
    }
}
