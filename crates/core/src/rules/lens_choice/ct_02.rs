//! `CT-02`: the lens constant is the maker's.

use super::constant_origin;
use crate::evidence::{NO_SOURCE, Standing};
use crate::lens::Obtained;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "CT-02",
    title: "Lens constant is the maker's",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether the constant that the chosen formula takes from the chosen lens was given by the maker. An optimized constant passes; a converted one is for CT-01. The thick-lens eye takes none.",
    why: "A maker's constant does not know this clinic's instruments and surgeons; one optimized on the clinic's own results removes their mean error.",
    options: "Consider optimizing the constant on the clinic's own results.",
    sources: &[
        Standing::CommonPractice.of(NO_SOURCE, "constants are optimized on one's own results")
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    match constant_origin(facts)? {
        Obtained::Optimized { .. } => Ok(None),
        Obtained::ConvertedFromA => Err(Because::ConvertedConstant.into()),
        given @ Obtained::Given => Finding::new(Fact::Constant(given), Limit::Optimized).found(),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::iol_power::Formula;
    use crate::lens::{Obtained, RecordConstants};
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::constants;
    use crate::rules::{Fact, Limit};

    fn plan(obtained: Obtained) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.plan_lens();
            draft.chosen().record.constants = constants(obtained);
        }
    }

    #[test]
    fn only_the_makers_constant_is_noted() {
        let found = Fact::Constant(Obtained::Given);
        assert_found(&RULE, plan(Obtained::Given), found, Limit::Optimized);
        assert_satisfied(&RULE, plan(Obtained::Optimized { eyes: 1 }));
        assert_not_applicable(&RULE, plan(Obtained::ConvertedFromA));
    }

    #[test]
    fn lens_formula_and_constant_are_needed() {
        for remove in [
            (DraftUnderTest::without_lens) as fn(&mut DraftUnderTest),
            |draft| draft.0.lens.formula = None,
            |draft| {
                let record = &mut draft.chosen().record;
                record.constants = RecordConstants::default();
            },
        ] {
            assert_not_evaluated(&RULE, |draft| {
                plan(Obtained::Given)(draft);
                remove(draft);
            });
        }
        assert_not_applicable(&RULE, |draft| {
            plan(Obtained::Given)(draft);
            draft.0.lens.formula = Some(Formula::ThickLens);
        });
    }
}
