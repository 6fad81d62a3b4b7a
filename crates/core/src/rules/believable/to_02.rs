//! `TO-02`: two methods disagree on the corneal astigmatism of a toric plan.

use crate::astigmatism::AnteriorAstigmatism;
use crate::biometry::{Keratometry, Measured};
use crate::evidence::{HOUSE, Standing};
use crate::optics::DoubleAngle;
use crate::quantity::HundredthDiopters;
use crate::rules::lens_choice::toric_steps;
use crate::rules::{
    Astigmatism, Detail, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity,
};

pub const RULE: Rule = Rule {
    id: "TO-02",
    title: "Two methods disagree on the corneal astigmatism",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Keratometry of the operative eye against keratometry by another method, for a toric lens: size of the difference as a vector at twice the angle, at index 1.3375, to the nearest 0.01 D, and, where both cylinders are large enough to have a meridian, the angle between the steep meridians to the nearest degree. The limits themselves pass.",
    why: "A toric lens takes its axis from the cornea. Ten degrees off leave a third of the cylinder (printed). Two methods that agree are the plainest sign of a good measurement; the limits are our own values.",
    options: "Consider repeating both, looking at the corneal map and the tear film; then the reason for planning by the first may be recorded.",
    sources: &[Standing::Assumption.of(HOUSE, "0.50 D as a vector; 10° from 1.00 D on")],
    limits: &[
        "toric_vector_difference",
        "toric_axis_difference",
        "toric_axis_cylinder",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    toric_steps(facts)?;
    let eye = facts.operated.0;
    let first = front(eye.keratometry.as_ref()).ok_or(Missing::RegularKeratometry)?;
    let second = front(eye.second_keratometry.as_ref()).ok_or(Missing::RegularSecondKeratometry)?;
    let vector = (first - second).cylinder().nearest_hundredth();
    let vector = vector.ok_or(Missing::ComparablePowers)?;
    let limits = facts.limits;
    let degrees = degrees_apart([first, second], limits.toric_axis_cylinder);
    let far = degrees.is_some_and(|degrees| i32::from(degrees) > limits.toric_axis_difference);
    if vector <= limits.toric_vector_difference && !far {
        return Ok(None);
    }
    let limit = Limit::AtMostVector {
        vector: limits.toric_vector_difference,
        degrees: limits.toric_axis_difference,
    };
    let [first, second] = [first, second].map(Astigmatism::of);
    let detail = first.zip(second);
    let detail = detail.map(|(first, second)| Detail::ByTwoMethods { first, second });
    Finding::new(Fact::VectorApart { vector, degrees }, limit)
        .with(detail)
        .found()
}

fn front<S>(measured: Option<&Measured<Keratometry, S>>) -> Option<DoubleAngle> {
    let front = AnteriorAstigmatism::of(&measured?.value).ok()?;
    Some(front.at_standard_index())
}

/// Angle between the steep meridians, if both cylinders are large enough to have one.
fn degrees_apart(both: [DoubleAngle; 2], smallest: HundredthDiopters) -> Option<u16> {
    let [first, second] = both.map(|astigmatism| {
        let cylinder = astigmatism.cylinder().nearest_hundredth()?;
        (smallest <= cylinder).then(|| astigmatism.steep_meridian())?
    });
    Some(first?.apart(second?))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, diopters, meridian,
    };
    use crate::rules::testing_lens::{choose_power, toric};
    use crate::rules::{Astigmatism, Detail, Fact, Limit};

    /// The toric eye (42.75 D at 180, 44.75 D at 90), measured again with this steep power and meridian.
    fn again(steep: &'static str, degrees: u16) -> impl FnOnce(&mut DraftUnderTest) {
        toric(move |draft| {
            let first = draft.operated().keratometry.clone();
            draft.set_keratometry("42.75 D at 1.3375", steep);
            let mut second = draft.operated().keratometry.clone().unwrap();
            second.value.steep.meridian = meridian(degrees);
            second.value.flat.meridian = meridian(degrees).perpendicular();
            draft.operated().second_keratometry = Some(second);
            draft.operated().keratometry = first;
        })
    }

    const LIMIT: Limit = Limit::AtMostVector {
        vector: diopters(50),
        degrees: 10,
    };

    const fn apart(hundredths: i32, degrees: u16) -> Fact {
        Fact::VectorApart {
            vector: diopters(hundredths),
            degrees: Some(degrees),
        }
    }

    /// By hand, on the same meridian: 45.25 − 44.75 = 0.50 D passes, 0.51 D does not.
    #[test]
    fn at_the_vector_limit_and_one_step_beyond() {
        for steep in [
            "44.25 D at 1.3375",
            "44.75 D at 1.3375",
            "45.25 D at 1.3375",
        ] {
            assert_satisfied(&RULE, again(steep, 90));
        }
        let finding = assert_found(&RULE, again("45.26 D at 1.3375", 90), apart(51, 0), LIMIT);
        let [first, second] = [200, 251].map(|cylinder| Astigmatism {
            cylinder: diopters(cylinder),
            steep: Some(meridian(90)),
        });
        assert_eq!(finding.details, [Detail::ByTwoMethods { first, second }]);
    }

    /// By hand: 2·2·sin 10° = 0.69 D at 10°, so the vector already speaks; 1.00 D each at 11°:
    /// 2·sin 11° = 0.38 D passes as a vector, and 11° do not.
    #[test]
    fn at_the_angle_limit_and_one_degree_beyond() {
        let one_diopter = |degrees: u16| {
            toric(move |draft: &mut DraftUnderTest| {
                draft.set_keratometry("42.75 D at 1.3375", "43.75 D at 1.3375");
                let mut second = draft.operated().keratometry.clone().unwrap();
                second.value.steep.meridian = meridian(degrees);
                second.value.flat.meridian = meridian(degrees).perpendicular();
                draft.operated().second_keratometry = Some(second);
            })
        };
        assert_satisfied(&RULE, one_diopter(100));
        assert_satisfied(&RULE, one_diopter(80));
        assert_found(&RULE, one_diopter(101), apart(38, 11), LIMIT);
    }

    /// By hand: 0.99 D each at 11°: 2·0.99·sin 11° = 0.38 D; too small to have a meridian.
    #[test]
    fn a_small_cylinder_has_no_meridian_to_compare() {
        assert_satisfied(
            &RULE,
            toric(|draft| {
                draft.set_keratometry("42.75 D at 1.3375", "43.74 D at 1.3375");
                let mut second = draft.operated().keratometry.clone().unwrap();
                second.value.steep.meridian = meridian(101);
                second.value.flat.meridian = meridian(11);
                draft.operated().second_keratometry = Some(second);
            }),
        );
    }

    #[test]
    fn a_toric_lens_and_both_measurements_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, toric(|_| {}));
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, |draft| {
            again("44.75 D at 1.3375", 90)(draft);
            draft.operated().keratometry = None;
        });
        // Meridians 60° apart are no regular cornea: KM-06 speaks of that.
        assert_not_evaluated(&RULE, |draft| {
            again("44.75 D at 1.3375", 90)(draft);
            let second = draft.operated().second_keratometry.as_mut().unwrap();
            second.value.steep.meridian = meridian(60);
        });
    }
}
