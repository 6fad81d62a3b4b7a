//! `TO-09`: considerable corneal astigmatism and a lens without a cylinder.

use super::chosen_record;
use crate::evidence::{HOUSE, Standing};
use crate::rules::believable::corneal_astigmatism;
use crate::rules::check::at_most;
use crate::rules::{Because, Detail, Facts, Group, Look, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-09",
    title: "Considerable corneal astigmatism and a lens without a cylinder",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "Difference of the two principal corneal powers of the operative eye at index 1.3375, to the nearest 0.01 D, against the limit, while the chosen lens is not toric. The limit itself passes.",
    why: "A lens without a cylinder leaves the astigmatism of the cornea in the glasses. The limit is our own value.",
    options: "A toric lens may be offered, or the incision placed on the steep meridian, which it flattens; or the astigmatism left to glasses, as agreed with the patient.",
    sources: &[Standing::Assumption.of(HOUSE, "over 1.25 D")],
    limits: &["considerable_astigmatism"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    if chosen_record(facts)?.toric.is_some() {
        return Err(Because::Toric.into());
    }
    let plan = facts.toric().alternative.as_ref().ok();
    let detail = plan.map(|plan| Detail::SteepIncision {
        eye: facts.side,
        at: plan.alternative.direction,
    });
    let limit = facts.limits.considerable_astigmatism;
    let found = at_most(Quantity::Magnitude, corneal_astigmatism(facts)?, limit);
    Ok(found.map(|finding| finding.with(detail)))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Side;
    use crate::quantity::Direction;
    use crate::rules::Detail;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};

    fn steep(power: &'static str) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            choose_power(2_100)(draft);
            draft.set_keratometry("43.00 D at 1.3375", power);
        }
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, steep("44.25 D at 1.3375"));
        let texts = ["1.26 D", "at most 1.25 D"];
        let finding = assert_finding(&RULE, steep("44.26 D at 1.3375"), texts);
        assert_eq!(finding.details, [], "no incision is planned");
    }

    /// Steep at 90, planned at 180: both ends are as near, and the upper one is named.
    #[test]
    fn the_steep_meridian_is_named_when_an_incision_is_planned() {
        let finding = assert_finding(
            &RULE,
            toric(|draft| draft.chosen().record.toric = None),
            ["2.00 D", "at most 1.25 D"],
        );
        let detail = Detail::SteepIncision {
            eye: Side::Right,
            at: Direction::new(90).unwrap(),
        };
        assert_eq!(finding.details, [detail]);
    }

    #[test]
    fn lens_and_keratometry_are_needed() {
        assert_not_applicable(&RULE, toric(|_| {}));
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, |draft| {
            choose_power(2_100)(draft);
            draft.operated().keratometry = None;
        });
    }
}
