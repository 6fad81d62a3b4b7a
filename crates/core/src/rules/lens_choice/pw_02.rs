//! `PW-02`: the eye needs a power the lens is not made in.

use super::{chosen_record, planned_answer};
use crate::evidence::{HOUSE, Standing};
use crate::quantity::HundredthDiopters;
use crate::rules::{Detail, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "PW-02",
    title: "The eye needs a power outside those the lens is made in",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Exact power for the target by the chosen formula, to the nearest 0.01 D, against the lowest and the highest power of the chosen lens, which pass themselves; and whether the convention proposes any power of the lens.",
    why: "With the nearest power that exists, the target is missed by more than the step of the lens, and nothing else in the lens power table says so.",
    options: "Consider a lens made in that power; consider another target if the patient agrees; axial length and keratometry may be checked, since such an eye is rare.",
    sources: &[Standing::Assumption.of(HOUSE, "lowest and highest power count, not gaps between")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let powers = &chosen_record(facts)?.powers;
    let answer = planned_answer(facts)?;
    let exact = answer.exact_power.nearest_hundredth();
    let exact = exact.ok_or(Missing::UsablePower)?;
    let ends = powers.ranges().first().zip(powers.ranges().last());
    let is_made = |power: HundredthDiopters| {
        ends.is_some_and(|(first, last)| first.from() <= power && power <= last.to())
    };
    let finding = Finding::new(Quantity::Power(exact), Limit::made_in(powers));
    if !is_made(exact) {
        return finding.found();
    }
    facts.draft.lens.convention.ok_or(Missing::Convention)?;
    if answer.proposed.is_none() {
        return finding.with([Detail::NoneProposed]).found();
    }
    Ok(None)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::iol_power::Powers;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied, diopters, quantity,
    };
    use crate::rules::testing_lens::powers;
    use crate::rules::{Detail, Finding, Limit, PowerSpan};

    /// Exact power 21.0271 D: SRK/T in closed form at 50 digits (`tests/oracle/closed_forms.py`),
    /// AL 23.50 mm, K 43.50 and 44.00 D, A 119, target 0.
    fn made_in(from: i32, to: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.plan_lens();
            draft.chosen().record.powers = powers(from, to, 1);
        }
    }

    fn made<const N: usize>(spans: [[i32; 3]; N]) -> Limit {
        let span = |hundredths: [i32; 3]| {
            let [from, to, step] = hundredths.map(diopters);
            PowerSpan { from, to, step }
        };
        Limit::MadeIn(spans.map(span).to_vec())
    }

    #[track_caller]
    fn assert_needed(change: impl FnOnce(&mut DraftUnderTest), limit: Limit) -> Finding {
        assert_found(&RULE, change, quantity("+21.03 D").into(), limit)
    }

    #[test]
    fn at_the_ends_and_one_step_beyond() {
        assert_satisfied(&RULE, made_in(2_103, 3_000));
        assert_satisfied(&RULE, made_in(1_000, 2_103));
        let limit = made([[2104, 3000, 1]]);
        assert_needed(made_in(2_104, 3_000), limit);
        let limit = made([[1000, 2102, 1]]);
        assert_needed(made_in(1_000, 2_102), limit);
    }

    /// Made from +10 to +15 and from +25 to +30 D only: +21.03 D lies within the ends and far from
    /// every power.
    #[test]
    fn within_the_ends_there_may_still_be_no_power_near() {
        let finding = assert_needed(
            |draft| {
                draft.plan_lens();
                let both = [powers(1_000, 1_500, 50), powers(2_500, 3_000, 50)];
                let ranges = both
                    .iter()
                    .flat_map(|powers| powers.ranges().to_vec())
                    .collect();
                draft.chosen().record.powers = Powers::new(ranges).unwrap();
            },
            made([[1_000, 1_500, 50], [2_500, 3_000, 50]]),
        );
        assert_eq!(finding.details, [Detail::NoneProposed]);
    }

    #[test]
    fn lens_target_formula_answer_and_convention_are_needed() {
        let without = |remove: fn(&mut DraftUnderTest)| {
            move |draft: &mut DraftUnderTest| {
                draft.plan_lens();
                remove(draft);
            }
        };
        assert_not_evaluated(&RULE, without(DraftUnderTest::without_lens));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.target = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.formula = None));
        assert_not_evaluated(&RULE, without(|draft| draft.operated().axial_length = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.convention = None));
    }

    #[test]
    fn outside_the_ends_no_convention_is_needed() {
        let limit = made([[2200, 3000, 1]]);
        assert_needed(
            |draft| {
                made_in(2_200, 3_000)(draft);
                draft.0.lens.convention = None;
            },
            limit,
        );
    }
}
