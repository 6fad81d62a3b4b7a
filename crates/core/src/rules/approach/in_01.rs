//! `IN-01`: incision width unusual for the chosen approach.

use crate::case::Approach;
use crate::evidence::{INCISION_WIDTHS, Standing};
use crate::rules::check::within;
use crate::rules::{Facts, Group, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "IN-01",
    title: "Incision width is unusual for the approach",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Width of the incision against 2.2 to 2.8 mm for phacoemulsification and 6 to 7 mm for small-incision surgery. The limits themselves pass.",
    why: "A width from the other approach is easily left behind when the approach changes, and the width bears on astigmatism (common practice).",
    options: "Width and approach may be compared; an unusual width may be wanted.",
    sources: &[Standing::Printed.of(
        INCISION_WIDTHS,
        "small-incision surgery 6-7 mm, phacoemulsification 2.2-2.8 mm",
    )],
    limits: &[
        "small_incision_narrowest",
        "small_incision_widest",
        "phaco_incision_narrowest",
        "phaco_incision_widest",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let plan = &facts.draft.approach;
    let approach = plan.approach.ok_or(Missing::Approach)?;
    let width = plan.incision_width.ok_or(Missing::IncisionWidth)?;
    let limits = facts.limits;
    let limits = match approach {
        Approach::Phacoemulsification => [
            limits.phaco_incision_narrowest,
            limits.phaco_incision_widest,
        ],
        Approach::SmallIncision => [
            limits.small_incision_narrowest,
            limits.small_incision_widest,
        ],
    };
    Ok(within(Quantity::Length, width, limits))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::Approach::{self, Phacoemulsification, SmallIncision};
    use crate::quantity::Micrometers;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied,
    };

    fn plan(approach: Approach, width_um: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.0.approach.approach = Some(approach);
            draft.0.approach.incision_width = Some(Micrometers::new(width_um));
        }
    }

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for (approach, width_um) in [
            (Phacoemulsification, 2_200),
            (Phacoemulsification, 2_800),
            (SmallIncision, 6_000),
            (SmallIncision, 7_000),
        ] {
            assert_satisfied(&RULE, plan(approach, width_um));
        }
        for (approach, width_um, texts) in [
            (
                Phacoemulsification,
                2_199,
                ["2.199 mm", "2.20 mm to 2.80 mm"],
            ),
            (
                Phacoemulsification,
                2_801,
                ["2.801 mm", "2.20 mm to 2.80 mm"],
            ),
            (SmallIncision, 5_999, ["5.999 mm", "6.00 mm to 7.00 mm"]),
            (SmallIncision, 7_001, ["7.001 mm", "6.00 mm to 7.00 mm"]),
            (SmallIncision, 2_400, ["2.40 mm", "6.00 mm to 7.00 mm"]),
        ] {
            assert_finding(&RULE, plan(approach, width_um), texts);
        }
    }

    #[test]
    fn approach_and_width_are_needed() {
        assert_not_evaluated(&RULE, |draft| {
            plan(SmallIncision, 2_400)(draft);
            draft.0.approach.approach = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.0.approach.approach = Some(SmallIncision);
        });
    }
}
