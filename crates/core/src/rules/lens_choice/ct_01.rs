//! `CT-01`: the lens constant was converted from another one.

use super::in_place::formula_behind;
use super::{chosen_record, origin_for};
use crate::evidence::{NO_SOURCE, Standing};
use crate::lens::Obtained;
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "CT-01",
    title: "Lens constant is converted, not optimized",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the constant that the chosen formula takes from the chosen lens was converted from its A constant; the same of each lens that lies ready, with the formula that predicts for it (see PW-05). A constant given by the maker or optimized passes. The thick-lens eye takes none.",
    why: "The conversions are starting values from the time of ultrasound. Fed with an A constant optimized for optical biometry they put Haigis about 1 D away from the other formulas.",
    options: "Consider a formula whose constant the maker gives or that was optimized, or enter such a constant; compare the columns of the lens power table.",
    sources: &[Standing::Memory.of(NO_SOURCE, "converted constants put Haigis about 1 D away")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    match origin_for(formula_behind(facts)?, chosen_record(facts)?)? {
        Obtained::Given | Obtained::Optimized { .. } => Ok(None),
        converted @ Obtained::ConvertedFromA => {
            Finding::new(Fact::Constant(converted), Limit::GivenOrOptimized).found()
        }
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

    fn plan(formula: Formula, constants: RecordConstants) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.plan_lens();
            draft.0.lens.formula = Some(formula);
            draft.chosen().record.constants = constants;
        }
    }

    /// Constants given by the maker, but for one kind that was converted.
    fn converted(change: fn(&mut RecordConstants, RecordConstants)) -> RecordConstants {
        let mut mixed = constants(Obtained::Given);
        change(&mut mixed, constants(Obtained::ConvertedFromA));
        mixed
    }

    #[test]
    fn each_formula_is_judged_by_its_own_constant() {
        let a = converted(|mixed, source| mixed.a_constant = source.a_constant);
        let depth = converted(|mixed, source| mixed.personalized_acd = source.personalized_acd);
        let factor = converted(|mixed, source| mixed.surgeon_factor = source.surgeon_factor);
        let haigis = converted(|mixed, source| mixed.haigis = source.haigis);
        for (formula, own) in [
            (Formula::SrkT, a),
            (Formula::T2, a),
            (Formula::DoubleKNoHistory, a),
            (Formula::DoubleKKnownCorrection, a),
            (Formula::HofferQ, depth),
            (Formula::Holladay1, factor),
            (Formula::Haigis, haigis),
            (Formula::HaigisModifiedRadius, haigis),
        ] {
            for constants in [a, depth, factor, haigis] {
                if constants == own {
                    assert_found(
                        &RULE,
                        plan(formula, constants),
                        Fact::Constant(Obtained::ConvertedFromA),
                        Limit::GivenOrOptimized,
                    );
                } else {
                    assert_satisfied(&RULE, plan(formula, constants));
                }
            }
        }
    }

    #[test]
    fn an_optimized_constant_passes_and_a_missing_one_is_not_judged() {
        let optimized = constants(Obtained::Optimized { eyes: 1 });
        assert_satisfied(&RULE, plan(Formula::Haigis, optimized));
        for formula in [
            Formula::SrkT,
            Formula::HofferQ,
            Formula::Holladay1,
            Formula::Haigis,
        ] {
            assert_not_evaluated(&RULE, plan(formula, RecordConstants::default()));
        }
        assert_not_applicable(
            &RULE,
            plan(Formula::ThickLens, constants(Obtained::ConvertedFromA)),
        );
    }

    #[test]
    fn lens_and_formula_are_needed() {
        for remove in [
            (DraftUnderTest::without_lens) as fn(&mut DraftUnderTest),
            |draft| draft.0.lens.formula = None,
        ] {
            assert_not_evaluated(&RULE, |draft| {
                plan(Formula::SrkT, constants(Obtained::ConvertedFromA))(draft);
                remove(draft);
            });
        }
    }
}
