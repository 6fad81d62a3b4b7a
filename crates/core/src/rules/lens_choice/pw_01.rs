//! `PW-01`: the lens is not made in the chosen power.

use super::{chosen_power, chosen_record};
use crate::evidence::{STEEPLES_2016, Standing};
use crate::rules::{Facts, Finding, Group, Limit, Look, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "PW-01",
    title: "The lens is not made in this power",
    group: Group::LensChoice,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether the chosen power, sign included, is one of the powers in the record of the chosen lens; the same of each lens that lies ready. The first and the last power pass.",
    why: "A power that does not exist was mistyped, has a lost sign, or belongs to another lens. Of 178 reports of wrong lenses, 26 were of transcription and 9 of a plus or minus sign.",
    options: "A power the lens is made in, or another lens, may be chosen; a wrong record may be corrected.",
    sources: &[Standing::Printed.of(
        STEEPLES_2016,
        "178 reports: transcription 26, plus or minus sign 9",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let powers = &chosen_record(facts)?.powers;
    let power = chosen_power(facts)?;
    if powers.contains(power) {
        return Ok(None);
    }
    Finding::new(Quantity::Power(power), Limit::made_in(powers)).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::iol_power::Powers;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied, diopters, quantity,
    };
    use crate::rules::testing_lens::choose_power;
    use crate::rules::{Limit, PowerSpan};

    #[test]
    fn the_ends_pass_and_what_lies_beyond_or_between_does_not() {
        for hundredths in [1_000, 2_150, 3_000] {
            assert_satisfied(&RULE, choose_power(hundredths));
        }
        for (hundredths, measured) in [
            (999, "+9.99 D"),
            (3_001, "+30.01 D"),
            (3_050, "+30.50 D"),
            (2_125, "+21.25 D"),
            (-2_150, "−21.50 D"),
        ] {
            let made = Limit::MadeIn(vec![PowerSpan {
                from: diopters(1_000),
                to: diopters(3_000),
                step: diopters(50),
            }]);
            let found = quantity(measured).into();
            assert_found(&RULE, choose_power(hundredths), found, made);
        }
    }

    #[test]
    fn a_record_without_powers_has_none_of_them() {
        assert_found(
            &RULE,
            |draft| {
                choose_power(2_150)(draft);
                let record = &mut draft.chosen().record;
                record.powers = Powers::new(Vec::new()).unwrap();
            },
            quantity("+21.50 D").into(),
            Limit::MadeIn(Vec::new()),
        );
    }

    #[test]
    fn lens_and_power_are_needed() {
        assert_not_evaluated(&RULE, DraftUnderTest::plan_lens);
        assert_not_evaluated(&RULE, |draft| {
            choose_power(999)(draft);
            draft.without_lens();
        });
    }
}
