//! `TO-01`: a toric step that may well leave more astigmatism than a lens without a cylinder.

use super::{toric_answer, toric_steps};
use crate::astigmatism::Residual;
use crate::evidence::{HOUSE, OPTICS, REPEATABILITY_2022, Standing};
use crate::prediction::StepCertainty;
use crate::rules::{Detail, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-01",
    title: "Toric step is small against the uncertainty of the cornea",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Chance, by the chosen formula, that the chosen cylinder at the chosen axis leaves a smaller cylinder than the same power without one; without a choice, that of the smallest cylinder the lens is made in, at the suggested axis. To the nearest 0.1 %; the limit itself passes. The chance counts the spreads of keratometry, posterior cornea and incision; the turn of the lens moves the result across, not along, and is left out.",
    why: "A cornea of little astigmatism is measured with a spread of its own size. A toric lens that helps in three eyes of four harms in the fourth, costs more, and can turn.",
    options: "A lens without a cylinder may be chosen, the incision moved to the steep meridian, or keratometry repeated; or the reason recorded.",
    sources: &[
        Standing::Assumption.of(
            HOUSE,
            "chance of 80 %; spread of the posterior cornea 0.30 D",
        ),
        Standing::Printed.of(
            REPEATABILITY_2022,
            "repeatability of mean K 0.42 D (upper end) / 2.77 = 0.15 D (1 SD)",
        ),
        Standing::Derived.of(
            OPTICS,
            "doubled for the difference of two meridians that scatter alike: 0.30 D",
        ),
    ],
    limits: &[
        "toric_chance",
        "toric_keratometry_spread",
        "toric_posterior_spread",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    toric_steps(facts)?;
    toric_answer(facts)?;
    let missing = Missing::StepChance;
    let step = judged(facts).ok_or(missing)?;
    let measured = step.chance_of_less.and_then(tenths).ok_or(missing)?;
    let limit = facts.limits.toric_chance;
    if limit * 10 <= measured {
        return Ok(None);
    }
    let cylinder = |left: Residual| left.cylinder().nearest_hundredth();
    let without = facts.toric().steps.first();
    let detail = Detail::ExpectedToLeave {
        cylinder: step.cylinder,
        axis: step.axis,
        left: cylinder(step.residual).ok_or(missing)?,
        without: without.and_then(|none| cylinder(none.residual)),
    };
    let limit = Limit::AtLeast(Quantity::Percent(limit));
    Finding::new(Quantity::Chance(measured), limit)
        .with([detail])
        .found()
}

/// The chosen step, else the smallest one.
fn judged<'a>(facts: &'a Facts<'_>) -> Option<&'a StepCertainty> {
    if facts.draft.lens.toric().is_some() {
        return facts.toric().chosen.as_ref();
    }
    let mut steps = facts.toric().steps.iter();
    steps.find(|step| step.cylinder.is_some())
}

fn tenths(chance: f64) -> Option<i32> {
    if !(0.0 <= chance && chance <= 1.0) {
        return None;
    }
    #[expect(clippy::cast_possible_truncation, reason = "0 to 1000")]
    let tenths = (chance * 1000.0).round() as i32;
    Some(tenths)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::limits::Limits;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, assert_shows, diopters, meridian, verdict_with,
    };
    use crate::rules::testing_lens::{choose_power, toric};
    use crate::rules::{Detail, Verdict};

    /// A front of 0.90 D.
    fn small(change: fn(&mut DraftUnderTest)) -> impl FnOnce(&mut DraftUnderTest) {
        toric(move |draft| {
            draft.set_keratometry("42.75 D at 1.3375", "43.65 D at 1.3375");
            change(draft);
        })
    }

    /// `tests/oracle/toric_plan.py 42.75 43.65 90 21`: 1.50 D leaves 0.2322 D, none 0.7802 D, chance
    /// 0.74286; 2.25 D has 0.51978. With a front of 2 D 1.50 D has 0.99936.
    #[test]
    fn the_smallest_step_of_a_small_astigmatism() {
        let finding = assert_finding(&RULE, small(|_| {}), ["74.3 %", "at least 80 %"]);
        let detail = Detail::ExpectedToLeave {
            cylinder: Some(diopters(150)),
            axis: Some(meridian(90)),
            left: diopters(23),
            without: Some(diopters(78)),
        };
        assert_eq!(finding.details, [detail]);
        assert_finding(
            &RULE,
            small(|draft| draft.choose_toric(225, 90)),
            ["52.0 %", "at least 80 %"],
        );
        assert_satisfied(&RULE, toric(|_| {}));
        assert_satisfied(&RULE, toric(|draft| draft.choose_toric(225, 90)));
    }

    #[test]
    fn one_percent_on_either_side() {
        let with = |percent| {
            let limits = Limits {
                toric_chance: percent,
                ..Limits::shipped().clone()
            };
            verdict_with(&RULE, &limits, small(|_| {}))
        };
        assert_eq!(with(74), Verdict::Satisfied);
        assert_shows(with(75), ["74.3 %", "at least 75 %"]);
    }

    #[test]
    fn a_toric_lens_and_an_answer_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, toric(|draft| draft.chosen().power = None));
        assert_not_evaluated(&RULE, toric(|draft| draft.0.lens.formula = None));
        assert_not_evaluated(&RULE, toric(|draft| draft.operated().keratometry = None));
    }
}
