//! `TO-04`: astigmatism drifts against the rule with age.

use super::toric_steps;
use crate::astigmatism::Orientation;
use crate::evidence::{RECALLED, Standing};
use crate::optics::DoubleAngle;
use crate::quantity::{HundredthDiopters, Meridian};
use crate::rules::{Drift, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-04",
    title: "Corneal astigmatism drifts against the rule with age",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "For a toric lens: whether the front of the cornea is steep within 30° of the vertical (with the rule), or whether the chosen cylinder is expected to leave the eye steep within 30° of the horizontal (against the rule), by 0.01 D or more.",
    why: "Over the years the cornea gains astigmatism against the rule. What a toric lens corrects with the rule today may be too much later, and what is left against the rule grows. Millrace has no number for it that it could cite, and allows for none.",
    options: "A little may be left with the rule, if the surgeon so wishes.",
    sources: &[Standing::Memory.of(RECALLED, "drift against the rule with age, no number")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    toric_steps(facts)?;
    let terms = facts.toric().cornea.as_ref();
    let terms = terms.map_err(|_| Missing::CorneaAfter)?;
    let front = steep(terms.front.at_standard_index(), Orientation::WithTheRule);
    let left = facts.toric().chosen.as_ref();
    let left = left.and_then(|step| steep(step.residual.left(), Orientation::AgainstTheRule));
    let front = front.map(|(cylinder, steep)| Drift::FrontWithTheRule { cylinder, steep });
    let left = left.map(|(cylinder, steep)| Drift::LeftAgainstTheRule { cylinder, steep });
    let drifts: Vec<_> = front.into_iter().chain(left).collect();
    if drifts.is_empty() {
        return Ok(None);
    }
    Finding::new(Fact::Drifts(drifts), Limit::NoDrift).found()
}

/// Cylinder and steep meridian of an astigmatism of this orientation; nothing for any other.
fn steep(
    astigmatism: DoubleAngle,
    orientation: Orientation,
) -> Option<(HundredthDiopters, Meridian)> {
    let cylinder = astigmatism.cylinder().nearest_hundredth()?;
    let is_so = astigmatism.steep_degrees().map(Orientation::of) == Some(orientation);
    let steep = astigmatism.steep_meridian()?;
    (is_so && cylinder.hundredths() > 0).then_some((cylinder, steep))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, diopters, meridian,
    };
    use crate::rules::testing_lens::{choose_power, toric};
    use crate::rules::{Drift, Fact, Limit};

    fn steep_at(degrees: u16, change: fn(&mut DraftUnderTest)) -> impl FnOnce(&mut DraftUnderTest) {
        toric(move |draft| {
            let keratometry = &mut draft.operated().keratometry.as_mut().unwrap().value;
            keratometry.steep.meridian = meridian(degrees);
            keratometry.flat.meridian = meridian(degrees).perpendicular();
            change(draft);
        })
    }

    #[test]
    fn with_the_rule_up_to_thirty_degrees_from_the_vertical() {
        for degrees in [60, 120] {
            let front = Drift::FrontWithTheRule {
                cylinder: diopters(200),
                steep: meridian(degrees),
            };
            let found = Fact::Drifts(vec![front]);
            assert_found(&RULE, steep_at(degrees, |_| {}), found, Limit::NoDrift);
        }
        assert_satisfied(&RULE, steep_at(59, |_| {}));
        assert_satisfied(&RULE, steep_at(121, |_| {}));
    }

    /// `tests/oracle/toric_plan.py 42.75 44.75 180 21`: 3.00 D at 180 leaves −0.048 D × 90, so the eye
    /// is left steep at 180; 3.75 D leaves −0.458 D × 180.
    #[test]
    fn left_against_the_rule() {
        let left = Drift::LeftAgainstTheRule {
            cylinder: diopters(5),
            steep: meridian(180),
        };
        assert_found(
            &RULE,
            steep_at(180, |draft| draft.choose_toric(300, 180)),
            Fact::Drifts(vec![left]),
            Limit::NoDrift,
        );
        assert_satisfied(&RULE, steep_at(180, |draft| draft.choose_toric(375, 180)));
    }

    #[test]
    fn a_toric_lens_and_a_cornea_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, toric(|draft| draft.operated().keratometry = None));
    }
}
