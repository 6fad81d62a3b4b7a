//! `KM-06`: principal meridians of the cornea are not at right angles.

use crate::astigmatism::corneal::RIGHT_ANGLE_TOLERANCE;
use crate::evidence::{HOUSE, Standing};
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "KM-06",
    title: "Principal meridians are not at right angles",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Angle between the flat and the steep meridian of the operative eye against a right angle. A difference of 10° passes. Equal radii, to the nearest 0.001 mm, have no principal meridians and do not concern this rule.",
    why: "A keratometer reports principal meridians at right angles or nearly so. An angle that is not may be a slip in copying: a digit mistyped, or one meridian written for both. The tolerance of 10° is our own value.",
    options: "Consider comparing both meridians with the printout, and a corneal map if they stand; then the reason may be recorded.",
    sources: &[Standing::Assumption.of(HOUSE, "within 10° of a right angle")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let keratometry = facts.keratometry()?;
    let (flat, steep) = (keratometry.flat, keratometry.steep);
    let [flat_radius, steep_radius] =
        [flat, steep].map(|meridian| meridian.reading.radius().nearest_micrometer());
    if flat_radius == steep_radius {
        return Err(Because::EqualRadii.into());
    }
    let apart = flat.meridian.apart(steep.meridian);
    if 90 - apart <= RIGHT_ANGLE_TOLERANCE {
        return Ok(None);
    }
    let found = Fact::Meridians {
        flat: flat.meridian,
        steep: steep.meridian,
        apart,
    };
    Finding::new(
        found,
        Limit::AtLeastApart(90 - i32::from(RIGHT_ANGLE_TOLERANCE)),
    )
    .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, meridian,
    };
    use crate::rules::{Fact, Limit};

    #[track_caller]
    fn assert_apart(change: impl FnOnce(&mut DraftUnderTest), [flat, steep, apart]: [u16; 3]) {
        let [flat, steep] = [flat, steep].map(meridian);
        let found = Fact::Meridians { flat, steep, apart };
        assert_found(&RULE, change, found, Limit::AtLeastApart(80));
    }

    fn meridians(flat: u16, steep: u16) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            let keratometry = &mut draft.operated().keratometry.as_mut().unwrap().value;
            keratometry.flat.meridian = meridian(flat);
            keratometry.steep.meridian = meridian(steep);
        }
    }

    #[test]
    fn at_the_tolerance_and_one_degree_beyond() {
        for (flat, steep) in [
            (180, 90),
            (180, 80),
            (180, 100),
            (5, 95),
            (95, 5),
            (5, 105),
            (170, 70),
        ] {
            assert_satisfied(&RULE, meridians(flat, steep));
        }
        for (flat, steep, apart) in [
            (180, 79, 79),
            (180, 101, 79),
            (5, 106, 79),
            (170, 69, 79),
            (90, 90, 0),
            (175, 5, 10),
        ] {
            assert_apart(meridians(flat, steep), [flat, steep, apart]);
        }
    }

    /// By hand: 337.5/7.80 = 43.269 D, so 43.27 D is 7.7999 mm.
    #[test]
    fn equal_radii_have_no_principal_meridians() {
        for (flat, steep) in [
            ("7.80 mm", "7.80 mm"),
            ("7.80 mm", "43.27 D at 1.3375"),
            ("44.00 D at 1.3375", "44.00 D at 1.3375"),
        ] {
            assert_not_applicable(&RULE, |draft| {
                draft.set_keratometry(flat, steep);
                meridians(90, 90)(draft);
            });
        }
        assert_apart(
            |draft| {
                draft.set_keratometry("7.80 mm", "7.799 mm");
                meridians(90, 90)(draft);
            },
            [90, 90, 0],
        );
    }

    #[test]
    fn without_keratometry_it_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().keratometry = None);
    }
}
