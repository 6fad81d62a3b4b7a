//! `DP-04`: a shallow depth by contact ultrasound that light might not read as shallow.

use super::nucleus_is_hard;
use crate::biometry::Method;
use crate::evidence::{JCRS_2004, Standing};
use crate::rules::depth::depth_from;
use crate::rules::{
    Because, Detail, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity, Which,
};

pub const RULE: Rule = Rule {
    id: "DP-04",
    title: "Contact ultrasound reads the chamber shorter",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Anterior chamber depth by contact ultrasound of an eye with a hard nucleus, where it lies under the limit of DP-01 and would not with the printed difference added. The limit itself counts as reached.",
    why: "In the same 81 eyes contact ultrasound read 2.87 mm where light read 3.33 mm, 0.43 to 0.46 mm apart: the probe presses the cornea in. Optically the chamber is perhaps deeper than the limit.",
    options: "Consider measuring the depth by light or by immersion before the depth decides on the approach.",
    sources: &[Standing::Printed.of(
        JCRS_2004,
        "abstract: 2.87 mm by contact ultrasound, 3.33 mm by light, 81 eyes",
    )],
    limits: &[
        "contact_depth_shorter",
        "chamber_depth",
        "chamber_depth_start",
        "hard_locs_tenths",
        "hard_who_grade",
        "hard_emery_little_grade",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    nucleus_is_hard(facts)?;
    let depth = facts.operated.0.chamber_depth.as_ref();
    let depth = depth.ok_or(Missing::of_this_eye(Which::ChamberDepth))?;
    if depth.method != Method::ContactUltrasound {
        return Err(Because::NotContactUltrasound.into());
    }
    let limits = facts.limits;
    let (from, limit) = (limits.chamber_depth_start, limits.chamber_depth);
    let reading = depth_from(facts, from)?;
    let by_light = reading + limits.contact_depth_shorter;
    if limit <= reading || by_light < limit {
        return Ok(None);
    }
    let at = |depth| Quantity::Depth { depth, from };
    Finding::new(at(reading), Limit::AtLeast(at(limit)))
        .with([Detail::OpticalDepth(by_light)])
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::rules::Detail;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, micrometers,
    };

    fn by(method: Method, depth: &str) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.set_hard_nucleus();
            draft.set_depth(depth, method);
        }
    }

    /// 2.37 + 0.43 = 2.80 mm.
    #[test]
    fn at_both_ends_and_one_step_beyond() {
        let contact = Method::ContactUltrasound;
        for depth in ["2.37 mm", "2.50 mm", "2.799 mm"] {
            let finding = assert_finding(
                &RULE,
                by(contact, depth),
                [
                    &format!("{depth} from the epithelium"),
                    "at least 2.80 mm from the epithelium",
                ],
            );
            if depth == "2.50 mm" {
                assert_eq!(finding.details, [Detail::OpticalDepth(micrometers(2_930))]);
            }
        }
        for depth in ["2.369 mm", "2.80 mm", "3.20 mm"] {
            assert_satisfied(&RULE, by(contact, depth));
        }
    }

    #[test]
    fn only_contact_ultrasound_over_a_hard_nucleus() {
        for method in [Method::Optical, Method::ImmersionUltrasound, Method::Manual] {
            assert_not_applicable(&RULE, by(method, "2.50 mm"));
        }
        assert_not_applicable(&RULE, |draft| {
            by(Method::ContactUltrasound, "2.50 mm")(draft);
            draft.set_locs_opalescence(49);
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.set_hard_nucleus();
            draft.operated().chamber_depth = None;
        });
        assert_not_evaluated(&RULE, |_| {});
    }
}
