//! `CL-01`: little room over a turning piece.

use crate::case::Approach;
use crate::evidence::{HOUSE, OPTICS, Source, Standing};
use crate::rules::check::at_least;
use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "CL-01",
    title: "Little room over a turning piece",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Estimated room between the endothelium and the longest piece of the chosen division, turning about its middle in the pupil plane on the axis, the most favorable place, against the house clearance. The comparison is to the nearest 0.001 mm and the limit itself passes; the room is an estimate and shown with two decimals. Asked for a hard nucleus only, and not when it is delivered whole.",
    why: "Contact with hard pieces harms the endothelium. The room is an estimate from the chamber depth and the stated size of the nucleus. No published distance was found under which cells are lost, so the clearance is a house value.",
    options: "Consider more pieces, working deeper in the bag, more viscoelastic, or delivering the nucleus whole.",
    sources: &[
        Source {
            work: HOUSE,
            locator: "clearance 0.50 mm; pieces turn about their middle in the pupil plane",
            standing: Standing::Assumption,
        },
        Source {
            work: OPTICS,
            locator: "largest dimension of a piece of an ellipsoid",
            standing: Standing::Derived,
        },
    ],
    limits: &[
        "clearance",
        "hard_locs_tenths",
        "hard_who_grade",
        "hard_emery_little_grade",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let plan = &facts.draft.approach;
    if plan.approach == Some(Approach::SmallIncision) {
        return not_applicable("the nucleus is delivered whole");
    }
    match facts.nucleus_is_hard() {
        None => return not_evaluated("grade of the nucleus"),
        Some(false) => return not_applicable("the nucleus does not count as hard"),
        Some(true) => {}
    }
    let Some(pieces) = plan.pieces else {
        return not_evaluated("number of pieces");
    };
    let Some(table) = facts.room else {
        return not_evaluated(
            "room in the chamber, which needs keratometry, corneal thickness, chamber depth and the size of the nucleus",
        );
    };
    let Some(row) = table.iter().find(|row| row.division.pieces() == pieces) else {
        return not_evaluated("a way of dividing the nucleus into so many pieces");
    };
    let Some(room) = row.turning_on_axis.nearest_micrometer() else {
        return not_evaluated("usable room in the chamber");
    };
    let verdict = at_least(&room, &facts.limits.clearance);
    let Verdict::Finding(finding) = verdict else {
        return verdict;
    };
    let longest = row.largest_dimension;
    let off_axis = match row.turning_off_axis {
        Some(room) => format!("; room 2 mm off the axis {room}"),
        None => String::new(),
    };
    // An estimate is not good to a micrometer, so it is not shown as if it were.
    let measured = row.turning_on_axis.to_string();
    // The two texts may then read the same, which must not look like a limit that fails.
    let rounded = if measured == facts.limits.clearance.to_string() {
        "; just under the clearance, rounded up to it here"
    } else {
        ""
    };
    let detail = format!("estimate for {pieces} pieces, the longest {longest}{off_axis}{rounded}");
    Finding {
        measured,
        ..finding.with_detail(detail)
    }
    .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::case::Approach;
    use crate::chamber::Nucleus;
    use crate::quantity::Micrometers;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };

    /// A quarter of a sphere of 5 mm spans the whole 5 mm (its edge on the axis), so it needs
    /// 2.5 mm to turn; with 0.54 mm of cornea the limit of 0.50 mm is met at a depth of 3.54 mm.
    fn plan(depth: &str) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.set_hard_nucleus();
            draft.set_depth(depth, Method::Optical);
            let plan = &mut draft.0.approach;
            let size = Micrometers::new(5_000);
            plan.nucleus = Some(Nucleus::new(size, size).unwrap());
            plan.pieces = Some(4);
        }
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, plan("3.54 mm"));
        assert_satisfied(&RULE, plan("3.541 mm"));
        let texts = ["0.50 mm", "at least 0.50 mm"];
        let detail = assert_finding(&RULE, plan("3.539 mm"), texts).detail;
        let end = "; just under the clearance, rounded up to it here";
        assert!(detail.unwrap().ends_with(end));
        let texts = ["0.49 mm", "at least 0.50 mm"];
        let detail = assert_finding(&RULE, plan("3.53 mm"), texts).detail;
        let start = "estimate for 4 pieces, the longest 5.00 mm; room 2 mm off the axis ";
        assert!(detail.unwrap().starts_with(start));
        let texts = ["−0.04 mm", "at least 0.50 mm"];
        assert_finding(&RULE, plan("3.00 mm"), texts);
    }

    #[test]
    fn phacoemulsification_is_judged_the_same_and_whole_delivery_is_not() {
        let with = |approach| {
            move |draft: &mut DraftUnderTest| {
                plan("3.539 mm")(draft);
                draft.0.approach.approach = Some(approach);
            }
        };
        let texts = ["0.50 mm", "at least 0.50 mm"];
        assert_finding(&RULE, with(Approach::Phacoemulsification), texts);
        assert_not_applicable(&RULE, with(Approach::SmallIncision));
    }

    #[test]
    fn only_a_hard_nucleus_is_asked_about() {
        assert_not_applicable(&RULE, |draft| {
            plan("3.00 mm")(draft);
            draft.set_locs_opalescence(49);
        });
        assert_not_evaluated(&RULE, |draft| {
            plan("3.00 mm")(draft);
            draft.operated().state.nucleus = None;
        });
    }

    #[test]
    fn pieces_and_room_are_needed() {
        assert_not_evaluated(&RULE, |draft| {
            plan("3.00 mm")(draft);
            draft.0.approach.pieces = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            plan("3.00 mm")(draft);
            draft.0.approach.pieces = Some(5);
        });
        assert_not_evaluated(&RULE, |draft| {
            plan("3.00 mm")(draft);
            draft.0.approach.nucleus = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            plan("3.00 mm")(draft);
            draft.operated().corneal_thickness = None;
        });
    }
}
