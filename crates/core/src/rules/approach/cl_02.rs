//! `CL-02`: a whole nucleus that needs more depth than the chamber gains.

use super::{delivered_whole, nearest_hundredth};
use crate::evidence::{BJO_1978, HOUSE, OPTICS, Standing};
use crate::rules::check::at_most;
use crate::rules::{Detail, Facts, Group, Look, Missing, Quantity, Rule, Severity, Which};

pub const RULE: Rule = Rule {
    id: "CL-02",
    title: "Whole nucleus needs much depth in the chamber",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "How far iris and capsule must fall back before the whole nucleus, lying flat on the recorded pupil, lies free of the endothelium, an estimate at rest, against 0.74 mm. Compared as shown, to 0.01 mm; the limit itself passes. Asked where small-incision surgery delivers the nucleus whole.",
    why: "By distance alone the whole nucleus is the nearer body, most in the eyes small-incision surgery is chosen for. After lens removal the pupil margin lay 0.74 mm deeper; more with viscoelastic, by an amount nobody printed. Trials found the two operations equal: what small-incision surgery has instead is one slow passage with viscoelastic between.",
    options: "Consider more viscoelastic over the nucleus, a wider pupil, delivery in two or three parts, or phacoemulsification in the bag.",
    sources: &[
        Standing::Printed.of(
            BJO_1978,
            "abstract: pupil margin 0.74 mm deeper after lens removal, 80 eyes",
        ),
        Standing::Assumption.of(HOUSE, "that depth as a yardstick"),
        Standing::Derived.of(OPTICS, "an ellipsoid lying flat under a sphere"),
    ],
    limits: &["nucleus_retreat"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    delivered_whole(facts)?;
    facts.draft.approach.nucleus.ok_or(Missing::NucleusSize)?;
    let pupil = facts.operated.0.pupil.as_ref();
    let pupil = pupil.ok_or(Missing::of_this_eye(Which::Pupil))?.value.get();
    let whole = facts.whole_proximity().ok_or(Missing::Room)?;
    let retreat = whole.retreat_on_pupil.ok_or(Missing::Room)?;
    let retreat = nearest_hundredth(retreat).ok_or(Missing::UsableRoom)?;
    let limit = facts.limits.nucleus_retreat;
    Ok(at_most(Quantity::Length, retreat, limit)
        .map(|finding| finding.with([Detail::OnPupil(pupil)])))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::case::Approach;
    use crate::chamber::{Delivery, Nucleus};
    use crate::quantity::Micrometers;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };

    /// 8.5 × 4.0 mm on a pupil of 7 mm, posterior radius 6.4 mm: by the model's own notes it must fall
    /// back 1.05 mm at a depth of 2.8 and 0.65 mm at 3.2; a millimeter deeper is a millimeter less.
    fn plan(depth: &str) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.set_depth(depth, Method::Optical);
            draft.set_posterior_radius("6.40 mm");
            draft.set_pupil("7.00 mm");
            let plan = &mut draft.0.approach;
            let um = Micrometers::new;
            plan.nucleus = Some(Nucleus::new(um(8_500), um(4_000)).unwrap());
            plan.approach = Some(Approach::SmallIncision);
            plan.delivery = Some(Delivery::Whole);
        }
    }

    /// 1.0524 at 2.800 mm: 0.7424 at 3.110 and 0.7454 at 3.107 mm, shown as 0.74 and 0.75.
    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, plan("3.11 mm"));
        assert_finding(&RULE, plan("3.107 mm"), ["0.75 mm", "at most 0.74 mm"]);
        assert_finding(&RULE, plan("2.80 mm"), ["1.05 mm", "at most 0.74 mm"]);
        assert_satisfied(&RULE, plan("3.20 mm"));
    }

    /// Irrigation is depth.
    #[test]
    fn deepening_counts() {
        assert_satisfied(&RULE, |draft| {
            plan("2.80 mm")(draft);
            draft.0.approach.deepening = Some(Micrometers::new(330));
        });
    }

    #[test]
    fn only_a_whole_nucleus_is_asked_about() {
        assert_not_applicable(&RULE, |draft| {
            plan("2.80 mm")(draft);
            draft.0.approach.delivery = Some(Delivery::Halves);
        });
        assert_not_applicable(&RULE, |draft| {
            plan("2.80 mm")(draft);
            draft.0.approach.approach = Some(Approach::Phacoemulsification);
        });
        assert_not_evaluated(&RULE, |draft| {
            plan("2.80 mm")(draft);
            draft.0.approach.delivery = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            plan("2.80 mm")(draft);
            draft.0.approach.approach = None;
        });
    }

    #[test]
    fn nucleus_pupil_and_depth_are_needed() {
        let without: [fn(&mut DraftUnderTest); 3] = [
            |draft| draft.0.approach.nucleus = None,
            |draft| draft.operated().pupil = None,
            |draft| draft.operated().chamber_depth = None,
        ];
        for without in without {
            assert_not_evaluated(&RULE, |draft| {
                plan("2.80 mm")(draft);
                without(draft);
            });
        }
    }
}
