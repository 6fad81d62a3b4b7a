//! `CL-04` and `CL-05`: a capsulorhexis that must stretch around a whole nucleus, and one that would
//! tear.

use super::{delivered_whole, percent};
use crate::evidence::{HOUSE, IOVS_1991, OPTICS, Source, Standing};
use crate::rules::check::at_most;
use crate::rules::{Because, Detail, Facts, Group, Look, Missing, Quantity, Rule, Severity};

const TEARING: Source = Standing::Printed.of(
    IOVS_1991,
    "abstract: the edge stretches by 62 % before it tears, at any age, 35 eyes after death",
);
const SECTION: Source = Standing::Derived.of(
    OPTICS,
    "the way around the section of an ellipsoid against that of a circle",
);

pub const STRETCHES: Rule = Rule {
    id: "CL-04",
    title: "Capsulorhexis stretches around the nucleus",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "By what share of itself the edge of the capsulorhexis stretches as the whole nucleus passes it on edge (tumbled), against 31 %. Compared in whole percent; the limit itself passes. Over the share at which it tears CL-05 speaks instead. Asked where small-incision surgery delivers the nucleus whole.",
    why: "Half of the stretch at which a capsulorhexis tears is used. Passing flat, as with fluid, it stretches more than on edge.",
    options: "Consider a wider capsulorhexis, relaxing cuts, or dividing the nucleus before it leaves the bag.",
    sources: &[
        Standing::Assumption.of(HOUSE, "half of the stretch at which it tears"),
        TEARING,
        SECTION,
    ],
    limits: &["capsulorhexis_stretch", "capsulorhexis_tear"],
    evaluate: stretches,
};

pub const TEARS: Rule = Rule {
    id: "CL-05",
    title: "Capsulorhexis would tear around the nucleus",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "By what share of itself the edge of the capsulorhexis stretches as the whole nucleus passes it on edge (tumbled), against 62 %. Compared in whole percent; the limit itself passes. Asked where small-incision surgery delivers the nucleus whole.",
    why: "In eyes after death the edge of a capsulorhexis stretched by 62 % before it tore, at any age.",
    options: STRETCHES.options,
    sources: &[TEARING, SECTION],
    limits: &["capsulorhexis_tear"],
    evaluate: tears,
};

fn stretches(facts: &Facts<'_>) -> Look {
    let [on_edge, flat] = stretch(facts)?;
    if facts.limits.capsulorhexis_tear < on_edge {
        return Err(Because::BeyondTearing.into());
    }
    let limit = facts.limits.capsulorhexis_stretch;
    Ok(at_most(Quantity::Percent, on_edge, limit)
        .map(|finding| finding.with([Detail::StretchFlat(flat)])))
}

fn tears(facts: &Facts<'_>) -> Look {
    let [on_edge, flat] = stretch(facts)?;
    let limit = facts.limits.capsulorhexis_tear;
    Ok(at_most(Quantity::Percent, on_edge, limit)
        .map(|finding| finding.with([Detail::StretchFlat(flat)])))
}

/// On edge and flat, whole percent.
fn stretch(facts: &Facts<'_>) -> Result<[i32; 2], crate::rules::look::NoLook> {
    delivered_whole(facts)?;
    let passage = facts.passage().ok_or(Missing::NucleusSize)?;
    let [on_edge, flat] = passage.stretch.ok_or(Missing::Capsulorhexis)?;
    let whole = |share| percent(share).ok_or(Missing::UsableRoom);
    Ok([whole(on_edge)?, whole(flat)?])
}

#[cfg(test)]
mod tests {
    use super::{STRETCHES, TEARS};
    use crate::case::Approach;
    use crate::chamber::{Delivery, Nucleus};
    use crate::quantity::Micrometers;
    use crate::rules::Detail;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };

    /// A nucleus of 9 × 5 mm: by the model's own notes it stretches a capsulorhexis of 5.0 mm by 43 % on
    /// edge and 80 % flat, of 5.5 by 30 %, and 7.14 mm not at all.
    fn plan(capsulorhexis_um: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            let plan = &mut draft.0.approach;
            let um = Micrometers::new;
            plan.nucleus = Some(Nucleus::new(um(9_000), um(5_000)).unwrap());
            plan.approach = Some(Approach::SmallIncision);
            plan.delivery = Some(Delivery::Whole);
            plan.capsulorhexis = Some(um(capsulorhexis_um));
        }
    }

    /// 7.1436 mm around: 5.45 mm is stretched by 31.1 %, 5.42 by 31.8, 4.41 by 62.0, 4.39 by 62.7.
    #[test]
    fn at_the_limits_and_one_step_beyond() {
        assert_satisfied(&STRETCHES, plan(5_450));
        assert_finding(&STRETCHES, plan(5_420), ["32 %", "at most 31 %"]);
        let finding = assert_finding(&STRETCHES, plan(5_000), ["43 %", "at most 31 %"]);
        assert_eq!(finding.details, [Detail::StretchFlat(80)]);
        assert_satisfied(&TEARS, plan(4_410));
        assert_finding(&STRETCHES, plan(4_410), ["62 %", "at most 31 %"]);
        assert_finding(&TEARS, plan(4_390), ["63 %", "at most 62 %"]);
        assert_not_applicable(&STRETCHES, plan(4_390));
        assert_satisfied(&STRETCHES, plan(8_000));
    }

    #[test]
    fn only_a_whole_nucleus_is_asked_about_and_its_size_is_needed() {
        for rule in [&STRETCHES, &TEARS] {
            assert_not_applicable(rule, |draft| {
                plan(4_390)(draft);
                draft.0.approach.delivery = Some(Delivery::Thirds);
            });
            assert_not_applicable(rule, |draft| {
                plan(4_390)(draft);
                draft.0.approach.approach = Some(Approach::Phacoemulsification);
            });
            let without: [fn(&mut DraftUnderTest); 3] = [
                |draft| draft.0.approach.nucleus = None,
                |draft| draft.0.approach.capsulorhexis = None,
                |draft| draft.0.approach.delivery = None,
            ];
            for without in without {
                assert_not_evaluated(rule, |draft| {
                    plan(4_390)(draft);
                    without(draft);
                });
            }
        }
    }
}
