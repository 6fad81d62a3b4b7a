//! `HS-03`: power for emmetropia is far from the lens's average.

use super::strictly;
use crate::evidence::{HOLLADAY_1988, Source, Standing};
use crate::rules::check::{Unsigned, at_most};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "HS-03",
    title: "Power for emmetropia is far from the average of the lens",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Applied only if the clinic switched the stricter set on. Power for emmetropia of the operated eye by the formula planned by, against the average power of the lens in its record: the difference, to the nearest 0.01 D, may be 3.00 D unless the clinic sets another limit. The limit itself passes.",
    why: "The stricter set was published in 1988 as the first part, the screening, of a three-part system. A power far from what the lens is usually implanted in belongs to an unusual eye or to an unusual error.",
    options: "Consider repeating the measurement. If it stands, the reason may be recorded. A clinic may switch the set off in its limits.",
    sources: &[Source {
        work: HOLLADAY_1988,
        locator: "emmetropic power > 3 D from the average of the lens (limits from a summary; that screening is part one of three is printed in the abstract)",
        standing: Standing::Secondary,
    }],
    limits: &["strict_screening", "strict_power_off_average"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    strictly(facts, || {
        let record = facts.draft.lens.record.as_ref();
        let Some(average) = record.and_then(|record| record.average_power) else {
            return not_evaluated("average power in the lens record");
        };
        let [Some(power), _] = facts.emmetropic_power else {
            return not_evaluated("power for emmetropia by the formula planned by");
        };
        let Some(apart) = Unsigned::apart(power, average.diopters()) else {
            return not_evaluated("a usable power for emmetropia");
        };
        let limit = Unsigned(facts.limits.strict_power_off_average);
        at_most(&apart, &limit)
            .detailed(|| format!("power for emmetropia {power}, average of the lens {average}"))
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::BiometryKind;
    use crate::quantity::{Diopters, HundredthDiopters};
    use crate::rules::Verdict;
    use crate::rules::testing::{
        assert_not_applicable, assert_shows, not_evaluated_strictly, verdict_strictly,
        verdict_with_powers,
    };

    /// The verdict for this power and a lens whose average power is +21.00 D.
    fn for_power(power_d: f64) -> Verdict {
        verdict_with_powers(&RULE, [Some(Diopters::new(power_d)), None], |draft| {
            draft.choose_lens(BiometryKind::Optical);
        })
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for power_d in [18.00, 18.01, 21.00, 23.99, 24.00] {
            assert_eq!(for_power(power_d), Verdict::Satisfied);
        }
        let above = assert_shows(for_power(24.01), ["3.01 D", "at most 3.00 D"]);
        assert_eq!(
            above.detail.as_deref(),
            Some("power for emmetropia +24.01 D, average of the lens +21.00 D")
        );
        assert_shows(for_power(17.99), ["3.01 D", "at most 3.00 D"]);
    }

    /// SRK/T for 23.50 mm, 43.75 D and an A constant of 118.4, worked apart from this code: 20.3028 D.
    #[test]
    fn the_power_is_that_of_the_formula_planned_by() {
        let verdict = |average: i32| {
            verdict_strictly(&RULE, |draft| {
                let record = draft.choose_lens(BiometryKind::Optical);
                record.average_power = Some(HundredthDiopters::new(average));
            })
        };
        assert_eq!(verdict(1_730), Verdict::Satisfied);
        assert_shows(verdict(1_729), ["3.01 D", "at most 3.00 D"]);
    }

    #[test]
    fn power_and_average_are_needed() {
        not_evaluated_strictly(&RULE, |_| {});
        not_evaluated_strictly(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical).average_power = None;
        });
        not_evaluated_strictly(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.0.lens.formula = None;
        });
        not_evaluated_strictly(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.operated().axial_length = None;
        });
        for power_d in [f64::NAN, f64::INFINITY] {
            assert!(matches!(for_power(power_d), Verdict::NotEvaluated { .. }));
        }
    }

    #[test]
    fn switched_off_it_does_not_apply() {
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical).average_power =
                Some(HundredthDiopters::new(3_000));
        });
    }
}
