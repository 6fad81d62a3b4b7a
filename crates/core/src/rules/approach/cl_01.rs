//! `CL-01`: little room over a turning piece.

use super::nucleus_is_hard;
use crate::case::Approach;
use crate::evidence::{HOUSE, OPTICS, Standing};
use crate::quantity::{Micrometers, Millimeters};
use crate::rules::{
    Because, Detail, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity,
};

pub const RULE: Rule = Rule {
    id: "CL-01",
    title: "Little room over a turning piece",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Estimated room between the endothelium and the longest piece of the chosen division, turning about its middle in the pupil plane on the axis, the most favorable place, against the house clearance. The comparison is to the nearest 0.001 mm and the limit itself passes; the room is an estimate and shown with two decimals. Asked for a hard nucleus only, and not when it is delivered whole.",
    why: "Contact with hard pieces harms the endothelium. The room is an estimate from the chamber depth and the stated size of the nucleus. No published distance was found under which cells are lost, so the clearance is our own value.",
    options: "Consider more pieces, working deeper in the bag, more viscoelastic, or delivering the nucleus whole.",
    sources: &[
        Standing::Assumption.of(
            HOUSE,
            "clearance 0.50 mm; pieces turn about their middle in the pupil plane",
        ),
        Standing::Derived.of(OPTICS, "largest dimension of a piece of an ellipsoid"),
    ],
    limits: &[
        "clearance",
        "hard_locs_tenths",
        "hard_who_grade",
        "hard_emery_little_grade",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let plan = &facts.draft.approach;
    if plan.approach == Some(Approach::SmallIncision) {
        return Err(Because::DeliveredWhole.into());
    }
    nucleus_is_hard(facts)?;
    let pieces = plan.pieces.ok_or(Missing::Pieces)?;
    let table = Some(facts.room()).filter(|table| !table.is_empty());
    let table = table.ok_or(Missing::Room)?;
    let row = table.iter().find(|row| row.division.pieces() == pieces);
    let row = row.ok_or(Missing::Division)?;
    let usable = |room: Millimeters| room.nearest_micrometer().ok_or(Missing::UsableRoom);
    let clearance = facts.limits.clearance;
    let room = usable(row.turning_on_axis)?;
    if room >= clearance {
        return Ok(None);
    }
    // An estimate is not good to a micrometer, so it is not shown as if it were. It may then read as
    // its limit does, which must not look like a limit that fails.
    let shown = to_hundredth_of_millimeter(room);
    let detail = Detail::Estimate {
        pieces,
        longest: to_hundredth_of_millimeter(usable(row.largest_dimension)?),
        off_axis: row
            .turning_off_axis
            .map(usable)
            .transpose()?
            .map(to_hundredth_of_millimeter),
        rounded_up: shown == clearance,
    };
    let limit = Limit::AtLeast(Quantity::Length(clearance));
    Finding::new(Quantity::Length(shown), limit)
        .with([detail])
        .found()
}

fn to_hundredth_of_millimeter(length: Micrometers) -> Micrometers {
    let up = if length.um() < 0 { -5 } else { 5 };
    Micrometers::new((length.um() + up) / 10 * 10)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::case::Approach;
    use crate::chamber::Nucleus;
    use crate::quantity::Micrometers;
    use crate::rules::Detail;
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
        // The room is shown to the hundredth of a millimeter, which may read as its limit does.
        for (depth, measured, rounded_up) in
            [("3.539 mm", "0.50 mm", true), ("3.53 mm", "0.49 mm", false)]
        {
            let texts = [measured, "at least 0.50 mm"];
            let found = assert_finding(&RULE, plan(depth), texts);
            let [
                Detail::Estimate {
                    pieces: 4,
                    longest,
                    off_axis: Some(_),
                    rounded_up: is_rounded_up,
                },
            ] = found.details[..]
            else {
                panic!("{found:?}");
            };
            assert_eq!((longest.um(), is_rounded_up), (5_000, rounded_up));
        }
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
