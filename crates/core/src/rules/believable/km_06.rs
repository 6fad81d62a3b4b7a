//! `KM-06`: principal meridians of the cornea are not at right angles.

use crate::astigmatism::corneal::RIGHT_ANGLE_TOLERANCE;
use crate::evidence::{HOUSE, Source, Standing};
use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "KM-06",
    title: "Principal meridians are not at right angles",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Angle between the flat and the steep meridian of the operated eye against a right angle. A difference of 10° passes. Equal radii, to the nearest 0.001 mm, have no principal meridians and do not concern this rule.",
    why: "A keratometer reports principal meridians at right angles or nearly so. An angle that is not may be a slip in copying: a digit mistyped, or one meridian written for both. The tolerance of 10° is a house value.",
    options: "Consider comparing both meridians with the printout, and a corneal map if they stand; then the reason may be recorded.",
    sources: &[Source {
        work: HOUSE,
        locator: "within 10° of a right angle",
        standing: Standing::Assumption,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let Some(measured) = &facts.operated.0.keratometry else {
        return not_evaluated("keratometry of the operated eye");
    };
    let (flat, steep) = (measured.value.flat, measured.value.steep);
    let [flat_radius, steep_radius] =
        [flat, steep].map(|meridian| meridian.reading.radius().nearest_micrometer());
    if flat_radius == steep_radius {
        return not_applicable("both radii are equal, so there is nothing to compare");
    }
    let apart = flat.meridian.apart(steep.meridian);
    if 90 - apart <= RIGHT_ANGLE_TOLERANCE {
        return Verdict::Satisfied;
    }
    Finding::new(
        format!(
            "flat {}, steep {}: {apart}° apart",
            flat.meridian, steep.meridian
        ),
        format!("at least {}° apart", 90 - RIGHT_ANGLE_TOLERANCE),
    )
    .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::quantity::Meridian;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };

    fn meridians(flat: u16, steep: u16) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            let keratometry = &mut draft.operated().keratometry.as_mut().unwrap().value;
            keratometry.flat.meridian = Meridian::new(flat).unwrap();
            keratometry.steep.meridian = Meridian::new(steep).unwrap();
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
        for (flat, steep, measured) in [
            (180, 79, "flat 180°, steep 79°: 79° apart"),
            (180, 101, "flat 180°, steep 101°: 79° apart"),
            (5, 106, "flat 5°, steep 106°: 79° apart"),
            (170, 69, "flat 170°, steep 69°: 79° apart"),
            (90, 90, "flat 90°, steep 90°: 0° apart"),
            (175, 5, "flat 175°, steep 5°: 10° apart"),
        ] {
            let texts = [measured, "at least 80° apart"];
            assert_finding(&RULE, meridians(flat, steep), texts);
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
        assert_finding(
            &RULE,
            |draft| {
                draft.set_keratometry("7.80 mm", "7.799 mm");
                meridians(90, 90)(draft);
            },
            ["flat 90°, steep 90°: 0° apart", "at least 80° apart"],
        );
    }

    #[test]
    fn without_keratometry_it_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().keratometry = None);
    }
}
