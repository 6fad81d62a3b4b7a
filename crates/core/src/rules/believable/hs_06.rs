//! `HS-06`: powers for emmetropia of the two eyes differ more than the stricter screening set of 1988 allows.

use super::strictly;
use crate::evidence::{HOLLADAY_1988, Source, Standing};
use crate::rules::check::{Unsigned, at_most};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "HS-06",
    title: "Power for emmetropia differs between the eyes",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Applied only if the clinic switched the stricter set on. Difference between the eyes of the power for emmetropia by the formula planned by and the chosen lens, to the nearest 0.01 D, against 1.00 D unless the clinic sets another limit. The limit itself passes.",
    why: "The stricter set was published in 1988 as the first part, the screening, of a three-part system. Lengths and corneas that each pass may still add up.",
    options: "Consider repeating the measurement. If it stands, the reason may be recorded. A clinic may switch the set off in its limits.",
    sources: &[Source {
        work: HOLLADAY_1988,
        locator: "between eyes emmetropic power > 1 D (limits from a summary; that screening is part one of three is printed in the abstract)",
        standing: Standing::Secondary,
    }],
    limits: &["strict_screening", "strict_power_difference"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    strictly(facts, || {
        let [Some(operated), Some(fellow)] = facts.emmetropic_power else {
            return not_evaluated("power for emmetropia of both eyes by the formula planned by");
        };
        let Some(apart) = Unsigned::apart(operated, fellow) else {
            return not_evaluated("usable powers for emmetropia");
        };
        let limit = Unsigned(facts.limits.strict_power_difference);
        at_most(&apart, &limit).detailed(|| {
            format!("power for emmetropia {operated} in the operated eye, {fellow} in the other")
        })
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::BiometryKind;
    use crate::quantity::Diopters;
    use crate::rules::Verdict;
    use crate::rules::testing::{
        assert_not_applicable, assert_shows, not_evaluated_strictly, verdict_strictly,
        verdict_with_powers,
    };

    fn for_powers(operated_d: f64, fellow_d: f64) -> Verdict {
        let powers = [operated_d, fellow_d].map(|power_d| Some(Diopters::new(power_d)));
        verdict_with_powers(&RULE, powers, |_| {})
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for fellow_d in [20.50, 20.51, 22.50] {
            assert_eq!(for_powers(21.50, fellow_d), Verdict::Satisfied);
        }
        let below = assert_shows(for_powers(21.50, 20.49), ["1.01 D", "at most 1.00 D"]);
        assert_eq!(
            below.detail.as_deref(),
            Some("power for emmetropia +21.50 D in the operated eye, +20.49 D in the other")
        );
        assert_shows(for_powers(21.50, 22.51), ["1.01 D", "at most 1.00 D"]);
    }

    /// SRK/T for 43.75 D and an A constant of 118.4, worked apart from this code: 20.3028 D for
    /// 23.50 mm, 21.2218 D for 23.20 mm, 21.5327 D for 23.10 mm.
    #[test]
    fn the_powers_are_those_of_the_formula_planned_by() {
        let verdict = |fellow| {
            verdict_strictly(&RULE, |draft| {
                draft.choose_lens(BiometryKind::Optical);
                draft.set_axial_lengths("23.50 mm", fellow);
            })
        };
        assert_eq!(verdict("23.20 mm"), Verdict::Satisfied);
        assert_shows(verdict("23.10 mm"), ["1.23 D", "at most 1.00 D"]);
    }

    #[test]
    fn both_powers_are_needed() {
        not_evaluated_strictly(&RULE, |_| {});
        not_evaluated_strictly(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.operated().axial_length = None;
        });
        not_evaluated_strictly(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.fellow().axial_length = None;
        });
        let verdict = for_powers(21.50, f64::NAN);
        assert!(matches!(verdict, Verdict::NotEvaluated { .. }));
    }

    #[test]
    fn switched_off_it_does_not_apply() {
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.set_axial_lengths("23.50 mm", "21.50 mm");
        });
    }
}
