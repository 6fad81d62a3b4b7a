//! `RK-02`: published odds ratios that apply.

use super::odds_ratios;
use crate::evidence::{NATIONAL_AUDIT_2024, Standing};
use crate::rules::{Detail, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "RK-02",
    title: "Odds of capsule rupture are raised",
    group: Group::Risk,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether a factor of the national audit applies: less experienced trainee (odds ratio 3.75), pseudoexfoliation or phacodonesis (3.47), brunescent, white or mature cataract (2.41). One is enough. Younger male (3.05) is listed but decides nothing, since its age limit is not printed: a male without another factor passes. A sex nobody recorded is not evaluated. Left out are the ratios of the paper that its abstract does not print: whatever else raises the odds (a small pupil, a long eye, injections, a fundus without view, age) is not counted here, and the finding says so.",
    why: "In 961,208 operations the posterior capsule ruptured in 1.01 %. The ratios are not multiplied and no percentage is computed for this eye, since no intercept is printed.",
    options: "Consider who operates and what lies at hand; the patient may be told of the raised risk, in words.",
    sources: &[Standing::Printed.of(
        NATIONAL_AUDIT_2024,
        "abstract: odds ratios 3.75, 3.47, 3.05, 2.41; rupture 1.01 %",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let ratios = odds_ratios(facts);
    let applying: Vec<_> = ratios
        .iter()
        .filter(|ratio| ratio.applies == Some(true))
        .map(|ratio| ratio.factor)
        .collect();
    // A factor that nobody could apply, for want of its printed limit, is not a gap in the case.
    let untold = ratios.iter().filter_map(|ratio| match ratio.applies {
        None if ratio.limit_not_printed => Some(Detail::FactorNotApplied(ratio.factor)),
        None => Some(Detail::FactorNotRecorded(ratio.factor)),
        Some(_) => None,
    });
    if applying.is_empty() {
        let mut untold = untold;
        let gap = untold.any(|detail| matches!(detail, Detail::FactorNotRecorded(_)));
        return if gap {
            Err(Missing::OddsFactors.into())
        } else {
            Ok(None)
        };
    }
    Finding::new(Fact::Factors(applying), Limit::NoRaisedOdds)
        .with([Detail::NotMultiplied, Detail::RatiosLeftOut])
        .with(untold)
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::{Sex, SurgeonGrade};
    use crate::rules::risk::OddsFactor;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::{Detail, Fact, Limit};

    fn no_factor(draft: &mut DraftUnderTest) {
        draft.set_unremarkable_state();
        draft.0.operation.surgeon = Some(SurgeonGrade::Independent);
        draft.0.patient.sex = Some(Sex::Female);
    }

    #[test]
    fn factors_are_listed_and_never_multiplied() {
        assert_satisfied(&RULE, no_factor);
        let finding = assert_found(
            &RULE,
            |draft| {
                no_factor(draft);
                draft.0.operation.surgeon = Some(SurgeonGrade::Trainee);
                draft.0.patient.sex = Some(Sex::Male);
                draft.operated().state.white_cataract = Some(true);
                draft.operated().state.phacodonesis = None;
            },
            Fact::Factors(vec![OddsFactor::Trainee, OddsFactor::DenseCataract]),
            Limit::NoRaisedOdds,
        );
        assert_eq!(
            finding.details,
            [
                Detail::NotMultiplied,
                Detail::RatiosLeftOut,
                Detail::FactorNotRecorded(OddsFactor::WeakZonules),
                Detail::FactorNotApplied(OddsFactor::YoungerMale),
            ]
        );
    }

    #[test]
    fn what_is_unknown_is_not_absent() {
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, |draft| {
            no_factor(draft);
            draft.0.operation.surgeon = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            no_factor(draft);
            draft.operated().state.brunescent = None;
        });
    }

    #[test]
    fn a_factor_without_its_printed_limit_is_no_gap() {
        assert_satisfied(&RULE, |draft| {
            no_factor(draft);
            draft.0.patient.sex = Some(Sex::Male);
        });
    }
}
