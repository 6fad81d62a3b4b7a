//! `TO-07`: the lens is not made with this cylinder.

use super::{chosen_power, chosen_record};
use crate::evidence::{STEEPLES_2016, Standing};
use crate::rules::{
    Because, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity,
};

pub const RULE: Rule = Rule {
    id: "TO-07",
    title: "The lens is not made with this cylinder",
    group: Group::LensChoice,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether the chosen cylinder is one of those in the record of the chosen lens; the same of each lens that lies ready. A cylinder chosen for a lens that is not toric does not pass.",
    why: "A cylinder that does not exist was mistyped or belongs to another lens. Of 178 reports of wrong lenses, 26 were of transcription.",
    options: "A cylinder the lens is made with, or another lens, may be chosen; a wrong record may be corrected.",
    sources: &[Standing::Printed.of(STEEPLES_2016, "178 reports: transcription 26")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let steps = chosen_record(facts)?.toric.as_ref();
    let Some(choice) = facts.lens().and_then(|lens| lens.toric) else {
        steps.ok_or(Because::NotToric)?;
        if facts.backup().is_some() {
            // A lens that lies ready without a power is not asked for its cylinder either.
            chosen_power(facts)?;
        }
        return Err(Missing::CylinderAndAxis.into());
    };
    let limit = match steps {
        None => Limit::WithoutCylinder,
        Some(steps) if steps.contains(choice.cylinder) => return Ok(None),
        Some(steps) => Limit::CylindersMade(steps.cylinders().to_vec()),
    };
    Finding::new(Quantity::Power(choice.cylinder), limit).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::Limit;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, diopters, quantity,
    };
    use crate::rules::testing_lens::{choose_power, toric};

    #[test]
    fn what_is_made_passes_and_what_lies_beside_it_does_not() {
        for hundredths in [150, 225, 300, 375] {
            assert_satisfied(&RULE, toric(|draft| draft.choose_toric(hundredths, 90)));
        }
        for (hundredths, measured) in [(149, "+1.49 D"), (226, "+2.26 D"), (450, "+4.50 D")] {
            let made = [150, 225, 300, 375].map(diopters);
            let made = Limit::CylindersMade(made.to_vec());
            let chosen = toric(|draft| draft.choose_toric(hundredths, 90));
            assert_found(&RULE, chosen, quantity(measured).into(), made);
        }
    }

    #[test]
    fn a_cylinder_for_a_lens_without_one_does_not_pass() {
        assert_found(
            &RULE,
            |draft| {
                choose_power(2_100)(draft);
                draft.choose_toric(225, 90);
            },
            quantity("+2.25 D").into(),
            Limit::WithoutCylinder,
        );
        assert_not_applicable(&RULE, choose_power(2_100));
    }

    #[test]
    fn lens_and_choice_are_needed() {
        assert_not_evaluated(&RULE, toric(|_| {}));
        assert_not_evaluated(&RULE, toric(DraftUnderTest::without_lens));
    }
}
