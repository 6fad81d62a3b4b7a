//! `TO-02`: two methods disagree on the corneal astigmatism of a toric plan.

use crate::astigmatism::AnteriorAstigmatism;
use crate::biometry::Keratometry;
use crate::evidence::{HOUSE, Source, Standing};
use crate::optics::DoubleAngle;
use crate::rules::check::Unsigned;
use crate::rules::lens_choice::toric_steps;
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "TO-02",
    title: "Two methods disagree on the corneal astigmatism",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Keratometry of the operated eye against keratometry by another method, for a toric lens: size of the difference as a vector at twice the angle, at index 1.3375, to the nearest 0.01 D, and, where both cylinders are large enough to have a meridian, the angle between the steep meridians to the nearest degree. The limits themselves pass.",
    why: "A toric lens takes its axis from the cornea. Ten degrees off leave a third of the cylinder (printed). Two methods that agree are the plainest sign of a good measurement; the limits are house values.",
    options: "Consider repeating both, looking at the corneal map and the tear film; then the reason for planning by the first may be recorded.",
    sources: &[Source {
        work: HOUSE,
        locator: "0.50 D as a vector; 10° from 1.00 D on",
        standing: Standing::Assumption,
    }],
    limits: &[
        "toric_vector_difference",
        "toric_axis_difference",
        "toric_axis_cylinder",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    look(facts).unwrap_or_else(|verdict| verdict)
}

fn look(facts: &Facts<'_>) -> Result<Verdict, Verdict> {
    toric_steps(facts)?;
    let eye = facts.operated.0;
    let first = eye.keratometry.as_ref();
    let first = front(
        first.map(|measured| &measured.value),
        "keratometry of the operated eye with meridians at right angles",
    )?;
    let second = eye.second_keratometry.as_ref();
    let second = front(
        second.map(|measured| &measured.value),
        "keratometry by another method with meridians at right angles",
    )?;
    let no_power = not_evaluated("corneal powers that can be compared");
    let difference = Unsigned::nearest((first - second).cylinder()).ok_or(no_power)?;
    let limits = facts.limits;
    let off = degrees_apart([first, second], Unsigned(limits.toric_axis_cylinder));
    let far = off.is_some_and(|degrees| limits.toric_axis_difference < i32::from(degrees));
    if difference <= Unsigned(limits.toric_vector_difference) && !far {
        return Ok(Verdict::Satisfied);
    }
    let apart = off.map_or_else(String::new, |degrees| format!(", {degrees}° apart"));
    Ok(Finding::new(
        format!("{difference} as a vector{apart}"),
        format!(
            "at most {} as a vector, {}° apart",
            Unsigned(limits.toric_vector_difference),
            limits.toric_axis_difference
        ),
    )
    .with_detail(format!(
        "{}; by the other method {}",
        shown(first),
        shown(second)
    ))
    .into())
}

fn front(keratometry: Option<&Keratometry>, missing: &'static str) -> Result<DoubleAngle, Verdict> {
    keratometry
        .and_then(|keratometry| AnteriorAstigmatism::of(keratometry).ok())
        .map(|front| front.at_standard_index())
        .ok_or(not_evaluated(missing))
}

/// Angle between the steep meridians, if both cylinders are large enough to have one.
fn degrees_apart(both: [DoubleAngle; 2], smallest: Unsigned) -> Option<u16> {
    let [first, second] = both.map(|astigmatism| {
        let cylinder = Unsigned::nearest(astigmatism.cylinder())?;
        (smallest <= cylinder).then(|| astigmatism.steep_meridian())?
    });
    Some(first?.apart(second?))
}

fn shown(astigmatism: DoubleAngle) -> String {
    let cylinder = astigmatism.cylinder().d();
    match astigmatism.steep_meridian() {
        Some(steep) => format!("{cylinder:.2} D steep at {steep}"),
        None => format!("{cylinder:.2} D"),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::quantity::Meridian;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};

    /// The toric eye (42.75 D at 180, 44.75 D at 90), measured again with this steep power and meridian.
    fn again(steep: &'static str, degrees: u16) -> impl FnOnce(&mut DraftUnderTest) {
        toric(move |draft| {
            let first = draft.operated().keratometry.clone();
            draft.set_keratometry("42.75 D at 1.3375", steep);
            let mut second = draft.operated().keratometry.clone().unwrap();
            second.value.steep.meridian = Meridian::new(degrees).unwrap();
            second.value.flat.meridian = Meridian::new(degrees).unwrap().perpendicular();
            draft.operated().second_keratometry = Some(second);
            draft.operated().keratometry = first;
        })
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
        let limit = "at most 0.50 D as a vector, 10° apart";
        let finding = assert_finding(
            &RULE,
            again("45.26 D at 1.3375", 90),
            ["0.51 D as a vector, 0° apart", limit],
        );
        assert_eq!(
            finding.detail.as_deref(),
            Some("2.00 D steep at 90°; by the other method 2.51 D steep at 90°")
        );
    }

    /// By hand: 2·2·sin 10° = 0.69 D at 10°, so the vector already speaks; 1.00 D each at 11°:
    /// 2·sin 11° = 0.38 D passes as a vector, and 11° do not.
    #[test]
    fn at_the_angle_limit_and_one_degree_beyond() {
        let one_diopter = |degrees: u16| {
            toric(move |draft: &mut DraftUnderTest| {
                draft.set_keratometry("42.75 D at 1.3375", "43.75 D at 1.3375");
                let mut second = draft.operated().keratometry.clone().unwrap();
                second.value.steep.meridian = Meridian::new(degrees).unwrap();
                second.value.flat.meridian = Meridian::new(degrees).unwrap().perpendicular();
                draft.operated().second_keratometry = Some(second);
            })
        };
        assert_satisfied(&RULE, one_diopter(100));
        assert_satisfied(&RULE, one_diopter(80));
        let limit = "at most 0.50 D as a vector, 10° apart";
        assert_finding(
            &RULE,
            one_diopter(101),
            ["0.38 D as a vector, 11° apart", limit],
        );
    }

    /// By hand: 0.99 D each at 11°: 2·0.99·sin 11° = 0.38 D; too small to have a meridian.
    #[test]
    fn a_small_cylinder_has_no_meridian_to_compare() {
        assert_satisfied(
            &RULE,
            toric(|draft| {
                draft.set_keratometry("42.75 D at 1.3375", "43.74 D at 1.3375");
                let mut second = draft.operated().keratometry.clone().unwrap();
                second.value.steep.meridian = Meridian::new(101).unwrap();
                second.value.flat.meridian = Meridian::new(11).unwrap();
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
            second.value.steep.meridian = Meridian::new(60).unwrap();
        });
    }
}
