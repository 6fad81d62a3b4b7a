//! `PW-02`: the eye needs a power the lens is not made in.

use super::{chosen_record, planned_answer, powers_text};
use crate::evidence::{HOUSE, Source, Standing};
use crate::quantity::HundredthDiopters;
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "PW-02",
    title: "The eye needs a power outside those the lens is made in",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Exact power for the target by the formula planned by, to the nearest 0.01 D, against the lowest and the highest power of the chosen lens, which pass themselves; and whether the convention proposes any power of the lens.",
    why: "With the nearest power that exists, the target is missed by more than the step of the lens, and nothing else on the ladder says so.",
    options: "Consider a lens made in that power; consider another target if the patient agrees; axial length and keratometry may be checked, since such an eye is rare.",
    sources: &[Source {
        work: HOUSE,
        locator: "lowest and highest power count, not gaps between",
        standing: Standing::Assumption,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    look(facts).unwrap_or_else(|verdict| verdict)
}

fn look(facts: &Facts<'_>) -> Result<Verdict, Verdict> {
    let powers = &chosen_record(facts)?.powers;
    let answer = planned_answer(facts)?;
    let exact = answer
        .exact_power
        .nearest_hundredth()
        .ok_or(not_evaluated("usable power by the formula planned by"))?;
    let ends = powers.ranges().first().zip(powers.ranges().last());
    let is_made = |power: HundredthDiopters| {
        ends.is_some_and(|(first, last)| first.from() <= power && power <= last.to())
    };
    let finding = Finding::new(exact, powers_text(powers));
    if !is_made(exact) {
        return Ok(finding.into());
    }
    if facts.draft.lens.convention.is_none() {
        return Err(not_evaluated("convention by which a power is proposed"));
    }
    if answer.proposed.is_none() {
        return Ok(finding
            .with_detail("the convention proposes none of these powers")
            .into());
    }
    Ok(Verdict::Satisfied)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::Powers;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::powers;

    /// Exact power 21.0271 D: SRK/T in closed form at 50 digits (`tests/oracle/closed_forms.py`),
    /// AL 23.50 mm, K 43.50 and 44.00 D, A 119, target 0.
    fn made_in(from: i32, to: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.plan_lens();
            draft.0.lens.record.as_mut().unwrap().powers = powers(from, to, 1);
        }
    }

    #[test]
    fn at_the_ends_and_one_step_beyond() {
        assert_satisfied(&RULE, made_in(2_103, 3_000));
        assert_satisfied(&RULE, made_in(1_000, 2_103));
        let texts = ["+21.03 D", "+21.04 D to +30.00 D by 0.01 D"];
        assert_finding(&RULE, made_in(2_104, 3_000), texts);
        let texts = ["+21.03 D", "+10.00 D to +21.02 D by 0.01 D"];
        assert_finding(&RULE, made_in(1_000, 2_102), texts);
    }

    /// Made from +10 to +15 and from +25 to +30 D only: +21.03 D lies within the ends and far from
    /// every power.
    #[test]
    fn within_the_ends_there_may_still_be_no_power_near() {
        let finding = assert_finding(
            &RULE,
            |draft| {
                draft.plan_lens();
                let both = [powers(1_000, 1_500, 50), powers(2_500, 3_000, 50)];
                let ranges = both
                    .iter()
                    .flat_map(|powers| powers.ranges().to_vec())
                    .collect();
                draft.0.lens.record.as_mut().unwrap().powers = Powers::new(ranges).unwrap();
            },
            [
                "+21.03 D",
                "+10.00 D to +15.00 D by 0.50 D, +25.00 D to +30.00 D by 0.50 D",
            ],
        );
        assert!(finding.detail.unwrap().contains("proposes none"));
    }

    #[test]
    fn lens_target_formula_answer_and_convention_are_needed() {
        let without = |remove: fn(&mut DraftUnderTest)| {
            move |draft: &mut DraftUnderTest| {
                draft.plan_lens();
                remove(draft);
            }
        };
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.record = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.target = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.formula = None));
        assert_not_evaluated(&RULE, without(|draft| draft.operated().axial_length = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.convention = None));
    }

    #[test]
    fn outside_the_ends_no_convention_is_needed() {
        let texts = ["+21.03 D", "+22.00 D to +30.00 D by 0.01 D"];
        assert_finding(
            &RULE,
            |draft| {
                made_in(2_200, 3_000)(draft);
                draft.0.lens.convention = None;
            },
            texts,
        );
    }
}
