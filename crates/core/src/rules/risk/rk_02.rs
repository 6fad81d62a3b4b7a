//! `RK-02`: published odds ratios that apply.

use super::{BASE_RATE_PERCENT, OddsRatio, odds_ratios};
use crate::evidence::{NATIONAL_AUDIT_2024, Source, Standing};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "RK-02",
    title: "Odds of capsule rupture are raised",
    group: Group::Risk,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether a factor of the national audit applies: trainee of less experience (odds ratio 3.75), pseudoexfoliation or phacodonesis (3.47), brunescent, white or mature cataract (2.41). One is enough. Younger male (3.05) is listed but decides nothing, since its age limit is not printed: a male without another factor passes. A sex nobody recorded is not evaluated.",
    why: "In 961,208 operations the posterior capsule ruptured in 1.01 %. The ratios are not multiplied and no percentage is computed for this eye, since no intercept is printed.",
    options: "Consider who operates and what lies at hand; the patient may be told of the raised risk, in words.",
    sources: &[Source {
        work: NATIONAL_AUDIT_2024,
        locator: "abstract: odds ratios 3.75, 3.47, 3.05, 2.41; rupture 1.01 %",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let ratios = odds_ratios(facts);
    let applying: Vec<_> = ratios
        .iter()
        .filter(|ratio| ratio.applies == Some(true))
        .map(|ratio| format!("{} {:.2}", ratio.factor, ratio.ratio))
        .collect();
    if applying.is_empty() {
        // A factor that nobody could apply, for want of its printed limit, is not a gap in the case.
        let unrecorded = |ratio: &&OddsRatio| ratio.applies.is_none() && ratio.note.is_none();
        return match ratios.iter().find(unrecorded) {
            None => Verdict::Satisfied,
            Some(_) => {
                not_evaluated("surgeon, sex, or signs of weak zonules or of a dense cataract")
            }
        };
    }
    let mut detail = vec![format!(
        "not multiplied, and no percentage is given for this eye, since no intercept is printed; {BASE_RATE_PERCENT:.2} % of all operations"
    )];
    detail.extend(ratios.iter().filter_map(|ratio| match ratio.note {
        Some(note) => Some(format!("{} {:.2} {note}", ratio.factor, ratio.ratio)),
        None if ratio.applies.is_none() => Some(format!("not recorded: {}", ratio.factor)),
        None => None,
    }));
    Finding::new(applying.join(", "), "no raised odds")
        .with_detail(detail.join("; "))
        .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::{Sex, SurgeonGrade};

    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied,
    };

    fn no_factor(draft: &mut DraftUnderTest) {
        draft.set_unremarkable_state();
        draft.0.operation.surgeon = Some(SurgeonGrade::Independent);
        draft.0.patient.sex = Some(Sex::Female);
    }

    #[test]
    fn factors_are_listed_and_never_multiplied() {
        assert_satisfied(&RULE, no_factor);
        let finding = assert_finding(
            &RULE,
            |draft| {
                no_factor(draft);
                draft.0.operation.surgeon = Some(SurgeonGrade::Trainee);
                draft.0.patient.sex = Some(Sex::Male);
                draft.operated().state.white_cataract = Some(true);
                draft.operated().state.phacodonesis = None;
            },
            [
                "trainee of less experience 3.75, brunescent, white or mature cataract 2.41",
                "no raised odds",
            ],
        );
        assert_eq!(
            finding.detail.unwrap(),
            "not multiplied, and no percentage is given for this eye, since no intercept is printed; \
             1.01 % of all operations; not recorded: pseudoexfoliation or phacodonesis; \
             younger male 3.05 not applied: the age limit is not printed"
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
