//! `TO-13`: Haigis takes the mean of the cornea in two ways.

use super::{chosen_step, planned_formula, toric_steps};
use crate::evidence::{HOUSE, OPTICS, Standing};
use crate::iol_power::Formula;
use crate::lens::PowerLabel;
use crate::quantity::{Diopters, HundredthDiopters};
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

/// Difference that passes: what is left of a cylinder has a small part in it too (house value).
const PASSES: HundredthDiopters = HundredthDiopters::new(2);

pub const RULE: Rule = Rule {
    id: "TO-13",
    title: "Toric calculation and lens power table differ by Haigis",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "For a toric lens planned by Haigis and labeled by its spherical equivalent: the spherical equivalent that the toric calculation predicts for the chosen cylinder against the refraction in the lens power table, both to the nearest 0.01 D. A difference of 0.02 D passes.",
    why: "Haigis takes the power of the mean radius, and so does the table. The toric calculation goes meridian by meridian, and the mean of two powers is a little more than the power of the mean radius: 0.02 D for a corneal astigmatism of 2 D, 0.14 D for 5 D. Neither is corrected toward the other.",
    options: "Both numbers may be held against the target; another formula takes the mean of the powers in both places.",
    sources: &[
        Standing::Derived.of(
            OPTICS,
            "mean of 331.5/r in two meridians against 331.5 over the mean radius",
        ),
        Standing::Assumption.of(HOUSE, "0.02 D passes"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    if toric_steps(facts)?.label() == PowerLabel::WeakestMeridian {
        return Err(Because::LabelIsWeakest.into());
    }
    let formula = planned_formula(facts)?;
    if formula != Formula::Haigis {
        return Err(Because::MeanOfPowers.into());
    }
    let left = chosen_step(facts)?.outcome.as_ref();
    let left = left.map_err(|_| Missing::WhatIsLeft)?;
    let predicted = left.spherical_equivalent().nearest_hundredth();
    let predicted = predicted.ok_or(Missing::WhatIsLeft)?;
    let power = facts.draft.lens.power().ok_or(Missing::Power)?;
    let on_ladder = facts
        .ladder()
        .and_then(|ladder| ladder.predicted(formula, power))
        .and_then(Diopters::nearest_hundredth)
        .ok_or(Missing::LadderPrediction)?;
    if (predicted - on_ladder).abs() <= PASSES {
        return Ok(None);
    }
    let found = Fact::EquivalentWithCylinder(predicted);
    Finding::new(found, Limit::OnLadder(on_ladder)).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::iol_power::Formula;
    use crate::lens::PowerLabel;
    use crate::rules::testing::{
        DraftUnderTest, assert_not_applicable, assert_not_evaluated, assert_satisfied, verdict,
    };
    use crate::rules::testing_lens::{choose_power, toric, toric_steps};
    use crate::rules::{Fact, Limit, Verdict};

    fn by_haigis(flat: &str, steep: &str) -> impl FnOnce(&mut DraftUnderTest) {
        let (flat, steep) = (flat.to_owned(), steep.to_owned());
        toric(move |draft| {
            draft.0.lens.formula = Some(Formula::Haigis);
            draft.set_keratometry(&flat, &steep);
            draft.choose_toric(375, 90);
        })
    }

    /// By hand, K 41.00 and 47.00 D: radii 8.231707 and 7.180851 mm, mean 7.706279, of which 331.5 makes
    /// 43.0169 D; in the meridians 40.2711 and 46.1644 D, mean 43.2178. A cornea stronger by 0.2009 D
    /// leaves the eye as much more myopic, but for what is left of the cylinder.
    #[test]
    fn the_two_means_of_the_cornea_are_named_side_by_side() {
        let verdict = verdict(&RULE, by_haigis("41.00 D at 1.3375", "47.00 D at 1.3375"));
        let Verdict::Finding(finding) = verdict else {
            panic!("{verdict:?}");
        };
        let (Fact::EquivalentWithCylinder(toric), Limit::OnLadder(table)) =
            (&finding.measured, &finding.limit)
        else {
            panic!("{finding:?}");
        };
        let apart = (*toric - *table).hundredths();
        assert!((-25..=-16).contains(&apart), "{apart}");
    }

    /// K 43.70 and 43.80 D: the means differ by 0.00006 D.
    #[test]
    fn where_both_are_the_same_it_passes() {
        assert_satisfied(&RULE, |draft| {
            by_haigis("43.70 D at 1.3375", "43.80 D at 1.3375")(draft);
            draft.choose_toric(150, 90);
        });
    }

    #[test]
    fn only_for_haigis_and_a_label_of_the_equivalent() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_applicable(&RULE, toric(|draft| draft.choose_toric(300, 90)));
        let (flat, steep) = ("41.00 D at 1.3375", "47.00 D at 1.3375");
        assert_not_applicable(&RULE, |draft| {
            by_haigis(flat, steep)(draft);
            draft.chosen().record.toric = toric_steps(PowerLabel::WeakestMeridian);
        });
        assert_not_evaluated(&RULE, |draft| {
            by_haigis(flat, steep)(draft);
            draft.chosen().toric = None;
        });
    }
}
