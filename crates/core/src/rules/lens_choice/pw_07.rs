//! `PW-07`: plus was taken for minus.

use super::in_place::predicted;
use crate::evidence::{HOUSE, STEEPLES_2016, Standing};
use crate::quantity::HundredthDiopters;
use crate::rules::{Facts, Finding, Group, Limit, Look, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "PW-07",
    title: "The power has the other sign than the eye needs",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "The sign of the chosen power, of the planned lens and of each lens that lies ready, against that of the power the eye needs for the target in that place, as PW-05 computes it. A power of no sign passes, and so does one that leaves the eye within the target ± 1.00 D.",
    why: "An eye that needs a few diopters may get as many of the other sign, and the numbers look alike. Of 178 reports of wrong lenses, 9 were of a plus or minus sign.",
    options: "A power of the other sign may be chosen, or a lens made in such powers. If it stands, the reason may be recorded.",
    sources: &[
        Standing::Printed.of(STEEPLES_2016, "178 reports: plus or minus sign 9"),
        Standing::Assumption.of(HOUSE, "near the target the sign is no mistake"),
    ],
    limits: &["target_band", "sulcus_shift"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let predicted = predicted(facts)?;
    let [chosen, needed] = [predicted.power, predicted.needed].map(HundredthDiopters::hundredths);
    let differ = chosen.signum() * needed.signum() < 0;
    if !differ || predicted.off() <= facts.limits.target_band {
        return Ok(None);
    }
    let limit = Limit::SignOf(predicted.needed);
    Finding::new(Quantity::Power(predicted.power), limit).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied, diopters,
    };
    use crate::rules::testing_lens::choose_power;
    use crate::rules::{Limit, Quantity};

    fn long(length: &str, power: i32) -> impl FnOnce(&mut DraftUnderTest) {
        let length = length.to_owned();
        move |draft| {
            choose_power(power)(draft);
            draft.set_axial_length(&length);
        }
    }

    /// SRK/T in closed form, K 43.50 and 44.00 D, A 119. AL 30.00 mm needs +2.2385 D: −1.00 D leaves
    /// +1.8251 D. AL 31.00 mm needs −0.1896 D: +1.00 D leaves −0.6908 D, +2.00 D −1.2859 D.
    #[test]
    fn the_other_sign_is_stopped_unless_it_ends_near_the_target() {
        let power = |hundredths| Quantity::Power(diopters(hundredths)).into();
        let needed = Limit::SignOf(diopters(224));
        assert_found(&RULE, long("30.00 mm", -100), power(-100), needed);
        let needed = Limit::SignOf(diopters(-19));
        assert_found(&RULE, long("31.00 mm", 200), power(200), needed);
        assert_satisfied(&RULE, long("31.00 mm", 100));
        // No sign, and the same sign however far off.
        assert_satisfied(&RULE, long("30.00 mm", 0));
        assert_satisfied(&RULE, long("30.00 mm", 2_000));
    }

    #[test]
    fn a_power_is_needed() {
        assert_not_evaluated(&RULE, DraftUnderTest::plan_lens);
    }
}
