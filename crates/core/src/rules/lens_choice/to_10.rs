//! `TO-10`: a cylinder was chosen, and nothing predicts what it leaves.

use super::toric_steps;
use crate::astigmatism::{ToricNeeds, ToricRefusal};
use crate::evidence::{HOUSE, Standing};
use crate::iol_power::Formula;
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, NoAnswer, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-10",
    title: "Cylinder was chosen and no formula predicts what it leaves",
    group: Group::LensChoice,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether the chosen formula gives a result for the chosen cylinder at the chosen axis. A formula without a result does not pass, nor does a choice without a formula, or one that the terms of the cornea do not allow.",
    why: "A cylinder that no calculation stands behind was left over from other measurements, or typed from elsewhere.",
    options: "What the calculation lacks may be measured or entered, a formula that gives a result chosen, or the cylinder taken back. Until then the plan cannot be signed.",
    sources: &[Standing::Assumption.of(
        HOUSE,
        "a chosen cylinder needs a formula that gives a result",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    toric_steps(facts)?;
    facts.draft.lens.toric().ok_or(Missing::CylinderAndAxis)?;
    let Some(formula) = facts.draft.lens.formula else {
        return Finding::new(Fact::NoFormula, Limit::Answer).found();
    };
    let Some(refusal) = refusal(facts, formula) else {
        return Ok(None);
    };
    let why = NoAnswer::Astigmatism(refusal);
    Finding::new(Fact::NoAnswer { formula, why }, Limit::Answer).found()
}

fn refusal(facts: &Facts<'_>, formula: Formula) -> Option<ToricRefusal> {
    let toric = facts.toric();
    let column = toric
        .formulas
        .iter()
        .find(|column| column.formula == formula);
    let Some(column) = column else {
        // Without a ladder there is no column; the cornea may say more than that.
        let missing = ToricRefusal::Missing {
            what: ToricNeeds::LensTargetAndFormula,
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
    use crate::astigmatism::{PosteriorChoice, ToricNeeds, ToricRefusal};
    use crate::case::Approach;
    use crate::iol_power::{Formula, Needed, Refusal};
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, diopters,
    };
    use crate::rules::testing_lens::{choose_power, toric};
    use crate::rules::{Fact, Finding, Limit, NoAnswer};

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
        let missing = |what| ToricRefusal::Missing { what };
        let no_length = Refusal::NotMeasured {
            what: Needed::AxialLength,
        };
        let above = ToricRefusal::MultiplierAbove {
            cylinder: diopters(225),
        };
        let cases: [(Change, ToricRefusal); 7] = [
            (
                |draft| draft.operated().keratometry = None,
                ToricRefusal::Formula(Refusal::NotMeasured {
                    what: Needed::Keratometry,
                }),
            ),
            (
                |draft| draft.operated().axial_length = None,
                ToricRefusal::Formula(no_length),
            ),
            (
                |draft| draft.operated().state.irregular_cornea = Some(true),
                ToricRefusal::IrregularCornea,
            ),
            (
                |draft| draft.0.approach.incision_direction = None,
                missing(ToricNeeds::IncisionDirection),
            ),
            (
                |draft| {
                    draft.0.approach.approach = Some(Approach::SmallIncision);
                    draft.0.approach.incision_effect = None;
                },
                ToricRefusal::SmallIncisionUnknown,
            ),
            (
                |draft| draft.0.lens.posterior = Some(PosteriorChoice::Multiplier),
                above,
            ),
            (
                |draft| draft.chosen().power = None,
                missing(ToricNeeds::Power),
            ),
        ];
        for (change, refusal) in cases {
            assert_refused(change, Formula::SrkT, refusal);
        }
        let without = chosen(|draft| draft.0.lens.formula = None);
        assert_found(&RULE, without, Fact::NoFormula, Limit::Answer);
    }

    #[track_caller]
    fn assert_refused(change: Change, formula: Formula, refusal: ToricRefusal) -> Finding {
        let why = NoAnswer::Astigmatism(refusal);
        let found = Fact::NoAnswer { formula, why };
        assert_found(&RULE, chosen(change), found, Limit::Answer)
    }

    #[test]
    fn a_formula_that_is_not_computed_by_meridian_does_not_pass() {
        let finding = assert_refused(
            |draft| draft.0.lens.formula = Some(Formula::HaigisModifiedRadius),
            Formula::HaigisModifiedRadius,
            ToricRefusal::Missing {
                what: ToricNeeds::LensTargetAndFormula,
            },
        );
        assert_eq!(finding.details, []);
    }

    #[test]
    fn a_toric_lens_and_a_choice_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, toric(|_| {}));
        assert_not_evaluated(&RULE, toric(DraftUnderTest::without_lens));
    }
}
