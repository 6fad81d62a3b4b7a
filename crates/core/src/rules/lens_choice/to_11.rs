//! `TO-11`: the label of the toric lens names its weakest meridian, the ladder its label.

use super::{chosen_step, toric_steps};
use crate::evidence::{OPTICS, Standing};
use crate::lens::PowerLabel;
use crate::quantity::Diopters;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-11",
    title: "The lens power table does not count half of the cylinder",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the label of the chosen toric lens names the power of its weakest meridian, so that its mean power is stronger than its label by half of the chosen cylinder. Only a label that names the spherical equivalent passes.",
    why: "The lens power table takes a labeled power as the mean power of the lens. With a cylinder of 3 D it then shows a refraction that is about a diopter too hyperopic. The toric calculation counts the cylinder.",
    options: "The spherical equivalent that the toric calculation predicts may be compared with the target, and a weaker label chosen.",
    sources: &[Standing::Derived.of(
        OPTICS,
        "mean power = weakest meridian + half of the cylinder",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    if toric_steps(facts)?.label() == PowerLabel::SphericalEquivalent {
        return Err(Because::LabelIsEquivalent.into());
    }
    let left = chosen_step(facts)?.outcome.as_ref();
    let left = left.map_err(|_| Missing::WhatIsLeft)?;
    let predicted = left.spherical_equivalent().nearest_hundredth();
    let predicted = predicted.ok_or(Missing::WhatIsLeft)?;
    let (formula, power) = (facts.draft.lens.formula, facts.draft.lens.power());
    let on_ladder = facts
        .ladder()
        .zip(formula.zip(power))
        .and_then(|(ladder, (formula, power))| ladder.predicted(formula, power))
        .and_then(Diopters::nearest_hundredth)
        .ok_or(Missing::LadderPrediction)?;
    let found = Fact::EquivalentWithCylinder(predicted);
    Finding::new(found, Limit::OnLadder(on_ladder)).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::PowerLabel;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated, diopters,
    };
    use crate::rules::testing_lens::{choose_power, toric, toric_steps};
    use crate::rules::{Fact, Limit};

    fn weakest(change: fn(&mut DraftUnderTest)) -> impl FnOnce(&mut DraftUnderTest) {
        toric(move |draft| {
            let record = &mut draft.chosen().record;
            record.toric = toric_steps(PowerLabel::WeakestMeridian);
            draft.choose_toric(300, 90);
            change(draft);
        })
    }

    /// `tests/oracle/toric_plan.py 42.75 44.75 90 21 weakest`: 3.00 D at 90 leaves a mean of −1.01708 D.
    /// `closed_forms.py`, SRK/T, AL 23.5, K 42.75 and 44.75, A 119, +21.00 D: +0.01830 D, a cornea
    /// without the posterior and the incision having the same mean.
    #[test]
    fn half_of_the_cylinder_is_named() {
        assert_found(
            &RULE,
            weakest(|_| {}),
            Fact::EquivalentWithCylinder(diopters(-102)),
            Limit::OnLadder(diopters(2)),
        );
    }

    #[test]
    fn only_such_a_label_and_a_chosen_cylinder_concern_it() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_applicable(&RULE, toric(|draft| draft.choose_toric(300, 90)));
        assert_not_evaluated(&RULE, weakest(|draft| draft.chosen().toric = None));
        assert_not_evaluated(&RULE, weakest(|draft| draft.operated().keratometry = None));
    }
}
