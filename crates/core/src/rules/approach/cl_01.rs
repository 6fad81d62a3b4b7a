//! `CL-01`: little margin over a turning piece.

use super::{nearest_hundredth, nucleus_is_hard, percent};
use crate::case::Approach;
use crate::chamber::{Delivery, DivisionProximity};
use crate::evidence::{HAYASHI_1996, HOUSE, NUCLEUS_1995, OPTICS, Standing};
use crate::quantity::{Micrometers, Millimeters, math};
use crate::rules::look::NoLook;
use crate::rules::{
    Because, Certainty, Detail, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule,
    Severity, Which,
};

pub const RULE: Rule = Rule {
    id: "CL-01",
    title: "Little margin over a turning piece",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Estimated mean margin between the endothelium and a piece of the chosen division that turns freely about its middle at the chosen working plane, at rest, against a limit of the clinic's own; shipped without one. With its 80 % range: clear where the upper end lies under the limit, borderline where the range holds it, else satisfied. Asked for a hard nucleus only, and not with small-incision surgery; without a working plane it cannot be told.",
    why: "Contact with pieces of a hard nucleus is held to harm the endothelium. The margin is geometry at rest, from the chamber depth and the stated size of the nucleus. No published distance was found under which cells are lost, so any limit is the clinic's own.",
    options: "Consider more pieces, cross cuts besides radial ones, a deeper working plane, or a deeper chamber.",
    sources: &[
        Standing::Assumption.of(
            HOUSE,
            "no limit unless the clinic sets one; a piece turns about its middle, all directions equally likely",
        ),
        Standing::Derived.of(OPTICS, "mean clearance of a piece of an ellipsoid under a sphere"),
        Standing::Printed.of(HAYASHI_1996, "abstract: a large nucleus predicts loss, contact with pieces the principal cause"),
        Standing::Printed.of(NUCLEUS_1995, "spread of diameter 0.76 and thickness 0.48 mm where the size is a guess"),
    ],
    limits: &[
        "piece_margin",
        "spread_chamber_depth",
        "spread_length_immersion",
        "spread_length_contact",
        "spread_corneal_thickness",
        "hard_locs_tenths",
        "hard_who_grade",
        "hard_emery_little_grade",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let limit = facts.limits.piece_margin.ok_or(Because::LimitOff)?;
    let plan = &facts.draft.approach;
    if plan.approach == Some(Approach::SmallIncision) {
        return Err(match plan.delivery {
            Some(Delivery::Whole) => Because::DeliveredWhole.into(),
            _ => Because::SmallIncisionChosen.into(),
        });
    }
    nucleus_is_hard(facts)?;
    let pieces = plan.pieces.ok_or(Missing::Pieces)?;
    let plane = plan.working_plane.ok_or(Missing::WorkingPlane)?;
    let proximity = facts.proximity().ok_or(Missing::Room)?;
    let at = proximity.at(plane).ok_or(Missing::PlaneUnderCornea)?;
    let near = at.of_pieces(pieces).ok_or(Missing::Division)?;
    let which = Which::ChamberDepth;
    let unusable = Missing::UsableSpread { which };
    let deviation = near.deviation.ok_or(unusable)?;
    let Some(certainty) = under(near, deviation, limit)? else {
        return Ok(None);
    };
    let [low, high] = near.interval().ok_or(unusable)?;
    let detail = Detail::Margin {
        plane,
        pieces,
        low: shown(low)?,
        high: shown(high)?,
        worst: shown(near.worst)?,
        touch_percent: percent(near.touch_share).ok_or(Missing::UsableRoom)?,
    };
    let limit = Limit::AtLeast(Quantity::Length(limit));
    let finding = Finding::new(Quantity::Length(shown(near.margin)?), limit).with([detail]);
    Finding {
        certainty,
        ..finding
    }
    .found()
}

fn shown(length: Millimeters) -> Result<Micrometers, NoLook> {
    Ok(nearest_hundredth(length).ok_or(Missing::UsableRoom)?)
}

/// How surely the margin is under a limit: the ends of its middle 80 % decide.
fn under(
    near: &DivisionProximity,
    deviation: Millimeters,
    limit: Micrometers,
) -> Result<Option<Certainty>, NoLook> {
    let [low, high] = near.interval().ok_or(Missing::UsableRoom)?;
    let limit = limit.millimeters();
    let chance = math::normal_cdf((limit - near.margin).mm() / deviation.mm());
    Ok(if high.mm() < limit.mm() {
        Some(Certainty::Clear { chance })
    } else if low.mm() <= limit.mm() {
        Some(Certainty::Borderline { chance })
    } else {
        None
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::case::Approach;
    use crate::chamber::{Delivery, Nucleus, WorkingPlane};
    use crate::limits::Limits;
    use crate::quantity::Micrometers;
    use crate::rules::testing::{DraftUnderTest, verdict, verdict_with};
    use crate::rules::{Because, Certainty, Detail, Missing, Verdict};

    /// 8.5 × 4.0 mm at 2.26 mm of aqueous, as in the check values of the model: posterior radius
    /// measured as 6.4 mm, cornea 0.54 mm.
    fn plan(pieces: u8) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.set_hard_nucleus();
            draft.set_depth("2.80 mm", Method::Optical);
            draft.set_posterior_radius("6.40 mm");
            let plan = &mut draft.0.approach;
            let um = Micrometers::new;
            plan.nucleus = Some(Nucleus::new(um(8_500), um(4_000)).unwrap());
            plan.pieces = Some(pieces);
            plan.working_plane = Some(WorkingPlane::Pupil);
        }
    }

    fn with_limit(um: i32) -> Limits {
        Limits {
            piece_margin: Some(Micrometers::new(um)),
            ..Limits::shipped().clone()
        }
    }

    fn judged(um: i32, change: impl FnOnce(&mut DraftUnderTest)) -> Verdict {
        verdict_with(&RULE, &with_limit(um), change)
    }

    #[test]
    fn without_a_limit_of_the_clinic_nothing_is_said() {
        assert_eq!(
            verdict(&RULE, plan(4)),
            Verdict::NotApplicable(Because::LimitOff)
        );
    }

    /// The model's own notes: 8 pieces, margin -0.03, 80 % -0.31 to 0.25 mm (P17, P37), worst -0.89
    /// (P25), touching in 41 % of directions (P23).
    #[test]
    fn the_ends_of_the_range_decide() {
        for (um, is_clear) in [(0, false), (240, false), (260, true)] {
            let Verdict::Finding(finding) = judged(um, plan(8)) else {
                panic!("{um}: no finding");
            };
            assert_eq!(
                matches!(finding.certainty, Certainty::Clear { .. }),
                is_clear,
                "{um}: {finding:?}"
            );
            let mm = |um| Micrometers::new(um);
            assert_eq!(
                finding.details,
                [Detail::Margin {
                    plane: WorkingPlane::Pupil,
                    pieces: 8,
                    low: mm(-310),
                    high: mm(250),
                    worst: mm(-890),
                    touch_percent: 41,
                }]
            );
        }
        // 32 pieces: 0.74 (0.56 to 0.93) mm.
        assert_eq!(judged(550, plan(32)), Verdict::Satisfied);
        assert!(matches!(judged(600, plan(32)), Verdict::Finding(_)));
    }

    /// In the bag no piece of such a nucleus comes near.
    #[test]
    fn the_plane_counts() {
        let in_bag = |draft: &mut DraftUnderTest| {
            plan(4)(draft);
            draft.0.approach.working_plane = Some(WorkingPlane::Bag);
        };
        assert_eq!(judged(500, in_bag), Verdict::Satisfied);
    }

    #[test]
    fn a_nucleus_that_is_not_divided_in_the_chamber_is_not_asked_about() {
        for (delivery, because) in [
            (Some(Delivery::Whole), Because::DeliveredWhole),
            (Some(Delivery::Halves), Because::SmallIncisionChosen),
            (None, Because::SmallIncisionChosen),
        ] {
            let found = judged(500, |draft| {
                plan(4)(draft);
                draft.0.approach.approach = Some(Approach::SmallIncision);
                draft.0.approach.delivery = delivery;
            });
            assert_eq!(found, Verdict::NotApplicable(because));
        }
        let soft = judged(500, |draft| {
            plan(4)(draft);
            draft.set_locs_opalescence(49);
        });
        assert_eq!(soft, Verdict::NotApplicable(Because::NucleusNotHard));
    }

    #[test]
    fn what_it_rests_on_is_needed() {
        let missing = |change: fn(&mut DraftUnderTest)| match judged(500, |draft| {
            plan(4)(draft);
            change(draft);
        }) {
            Verdict::NotEvaluated(missing) => missing,
            other => panic!("{other:?}"),
        };
        assert_eq!(
            missing(|draft| draft.0.approach.working_plane = None),
            Missing::WorkingPlane
        );
        assert_eq!(
            missing(|draft| draft.0.approach.pieces = None),
            Missing::Pieces
        );
        assert_eq!(
            missing(|draft| draft.0.approach.nucleus = None),
            Missing::Room
        );
        assert_eq!(
            missing(|draft| draft.operated().corneal_thickness = None),
            Missing::Room
        );
        assert_eq!(
            missing(|draft| draft.operated().state.nucleus = None),
            Missing::NucleusGrade
        );
        // No spread is known of a depth measured by hand.
        let by_hand = missing(|draft| draft.set_depth("2.80 mm", Method::Manual));
        assert!(
            matches!(by_hand, Missing::UsableSpread { .. }),
            "{by_hand:?}"
        );
    }
}
