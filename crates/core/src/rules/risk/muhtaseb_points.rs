//! Risk points of Muhtaseb et al. 2004: what makes the operation complicated.
//!
//! Which column the last two items stand in is inferred from the printed table; the bands are
//! recalled.

use core::fmt;

use crate::quantity::{HundredthDiopters, Micrometers};
use crate::rules::check::either;
use crate::rules::depth::borderline_chance;
use crate::rules::{Facts, percent};

/// Points of one eye. An item that nobody recorded is unknown, never zero.
#[derive(Clone, Debug, PartialEq)]
pub struct RiskPoints {
    /// Items present, each with its points.
    pub given: Vec<(&'static str, u32)>,
    /// Items nobody recorded.
    pub unknown: Vec<&'static str>,
    /// Points the unknown items would add if all were present.
    pub unknown_points: u32,
    /// A chamber depth too near to its limit to tell; its point stays as measured.
    pub borderline_depth: Option<BorderlineDepth>,
}

/// A chamber depth, from the epithelium, too near to the limit of its risk point to tell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BorderlineDepth {
    /// As measured.
    pub depth: Micrometers,
    /// Under it a point is given.
    pub limit: Micrometers,
    /// Chance that the true depth lies under the limit, 0 to 1.
    pub chance: f64,
}

impl BorderlineDepth {
    /// Whether the point is given, which the depth as measured decides.
    #[must_use]
    pub fn is_given(&self) -> bool {
        self.depth < self.limit
    }
}

impl fmt::Display for BorderlineDepth {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let given = if self.is_given() {
            "given"
        } else {
            "not given"
        };
        write!(
            f,
            "borderline: anterior chamber depth {}, its point {given} as measured, chance that the \
             true depth lies under {} {}",
            self.depth,
            self.limit,
            percent(self.chance)
        )
    }
}

impl RiskPoints {
    /// Points of the items present.
    #[must_use]
    pub fn total(&self) -> u32 {
        self.given.iter().map(|(_, points)| points).sum()
    }

    /// Points if every unknown item were present.
    #[must_use]
    pub fn at_most(&self) -> u32 {
        self.total() + self.unknown_points
    }

    /// The band the total falls into, from memory.
    #[must_use]
    pub fn band(&self) -> &'static str {
        match self.total() {
            0 => "0",
            1..=2 => "1 to 2",
            3..=5 => "3 to 5",
            _ => "6 or more",
        }
    }
}

/// The points of the operated eye.
#[must_use]
pub fn risk_points(facts: &Facts<'_>) -> RiskPoints {
    let mut points = RiskPoints {
        given: Vec::new(),
        unknown: Vec::new(),
        unknown_points: 0,
        borderline_depth: borderline_depth(facts),
    };
    for (item, worth, present) in items(facts) {
        match present {
            Some(true) => points.given.push((item, worth)),
            Some(false) => {}
            None => {
                points.unknown.push(item);
                points.unknown_points += worth;
            }
        }
    }
    points
}

fn borderline_depth(facts: &Facts<'_>) -> Option<BorderlineDepth> {
    let limit = facts.limits.risk_depth;
    Some(BorderlineDepth {
        depth: facts.operated.0.depth_from_epithelium()?,
        limit,
        chance: borderline_chance(facts, limit)?,
    })
}

fn items(facts: &Facts<'_>) -> [(&'static str, u32, Option<bool>); 12] {
    let (eye, limits) = (facts.operated.0, facts.limits);
    let state = &eye.state;
    let pupil = eye.pupil.as_ref().map(|pupil| pupil.value.get());
    let ametropia = state
        .refraction
        .map(|refraction| HundredthDiopters::new(refraction.hundredths().abs()));
    [
        ("previous vitrectomy", 1, state.previous_vitrectomy),
        ("corneal scarring", 1, state.corneal_scarring),
        (
            "small pupil",
            1,
            pupil.map(|pupil| pupil < limits.risk_pupil),
        ),
        (
            "shallow anterior chamber",
            1,
            eye.depth_from_epithelium()
                .map(|depth| depth < limits.risk_depth),
        ),
        (
            "high age",
            1,
            facts.draft.age().map(|age| limits.risk_age < age),
        ),
        (
            "high ametropia",
            1,
            ametropia.map(|ametropia| limits.risk_ametropia < ametropia),
        ),
        ("posterior capsule plaque", 1, state.capsule_plaque),
        ("posterior polar cataract", 1, state.posterior_polar),
        ("other difficulty", 1, state.other_difficulty),
        (
            "dense, total, white or brunescent cataract",
            3,
            either(
                state.dense_cataract,
                either(state.white_cataract, state.brunescent),
            ),
        ),
        ("pseudoexfoliation", 3, state.pseudoexfoliation),
        ("phacodonesis", 3, state.phacodonesis),
    ]
}

#[cfg(test)]
mod tests {
    use super::RiskPoints;
    use crate::biometry::{EyeState, Method};
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{DraftUnderTest, date, plan};

    /// Everything recorded, nothing present: AL 23.50 mm, ACD 3.20 mm, age 75.
    fn unremarkable(draft: &mut DraftUnderTest) {
        draft.set_unremarkable_state();
        draft.set_pupil("7.00 mm");
    }

    fn points(change: impl FnOnce(&mut DraftUnderTest)) -> RiskPoints {
        plan(|draft| {
            unremarkable(draft);
            change(draft);
        })
        .risk
    }

    #[track_caller]
    fn assert_given(item: &'static str, worth: u32, change: impl FnOnce(&mut DraftUnderTest)) {
        let points = points(change);
        assert_eq!(points.given, [(item, worth)]);
        assert_eq!(points.unknown_points, 0);
    }

    #[test]
    fn an_unremarkable_eye_has_none() {
        let points = points(|_| {});
        assert_eq!(points.given, []);
        assert!(points.unknown.is_empty());
        assert_eq!((points.total(), points.band()), (0, "0"));
    }

    #[test]
    fn each_sign_gives_the_printed_points() {
        type Set = fn(&mut EyeState);
        let signs: [(&str, u32, Set); 9] = [
            ("previous vitrectomy", 1, |state| {
                state.previous_vitrectomy = Some(true);
            }),
            ("corneal scarring", 1, |state| {
                state.corneal_scarring = Some(true);
            }),
            ("posterior capsule plaque", 1, |state| {
                state.capsule_plaque = Some(true);
            }),
            ("posterior polar cataract", 1, |state| {
                state.posterior_polar = Some(true);
            }),
            ("other difficulty", 1, |state| {
                state.other_difficulty = Some(true);
            }),
            ("dense, total, white or brunescent cataract", 3, |state| {
                state.white_cataract = Some(true);
            }),
            ("dense, total, white or brunescent cataract", 3, |state| {
                state.brunescent = Some(true);
                state.white_cataract = Some(true);
            }),
            ("pseudoexfoliation", 3, |state| {
                state.pseudoexfoliation = Some(true);
            }),
            ("phacodonesis", 3, |state| state.phacodonesis = Some(true)),
        ];
        for (item, worth, set) in signs {
            assert_given(item, worth, |draft| set(&mut draft.operated().state));
        }
    }

    #[test]
    fn measured_items_at_the_limit_and_one_step_beyond() {
        assert_eq!(points(|draft| draft.set_pupil("3.00 mm")).total(), 0);
        assert_given("small pupil", 1, |draft| draft.set_pupil("2.999 mm"));

        let depth =
            |depth| move |draft: &mut DraftUnderTest| draft.set_depth(depth, Method::Optical);
        assert_eq!(points(depth("2.50 mm")).total(), 0);
        assert_given("shallow anterior chamber", 1, depth("2.499 mm"));

        let refraction = |hundredths| {
            move |draft: &mut DraftUnderTest| {
                let refraction = HundredthDiopters::new(hundredths);
                draft.operated().state.refraction = Some(refraction);
            }
        };
        for hundredths in [-600, 600] {
            assert_eq!(points(refraction(hundredths)).total(), 0);
        }
        for hundredths in [-601, 601] {
            assert_given("high ametropia", 1, refraction(hundredths));
        }
    }

    /// The table's 47 µm: Φ(1) = 0.8413, Φ(−1) = 0.1587; 78 µm off is 1.66 SD, beyond the 5 % of
    /// z = 1.645, and 77 µm is within.
    #[test]
    fn a_borderline_depth_leaves_the_point_as_measured_and_says_the_chance() {
        let at = |depth| points(|draft| draft.set_depth(depth, Method::Optical));
        for (depth, given, chance) in [
            ("2.453 mm", true, 0.8413),
            ("2.547 mm", false, 0.1587),
            ("2.50 mm", false, 0.5),
        ] {
            let points = at(depth);
            let near = points.borderline_depth.unwrap();
            assert!((near.chance - chance).abs() <= 0.00005, "{near:?}");
            assert_eq!(near.is_given(), given);
            assert_eq!(points.total(), u32::from(given));
        }
        assert_eq!(
            at("2.453 mm").borderline_depth.unwrap().to_string(),
            "borderline: anterior chamber depth 2.453 mm, its point given as measured, chance that \
             the true depth lies under 2.50 mm 84 %"
        );
        for depth in ["2.423 mm", "2.577 mm"] {
            assert!(at(depth).borderline_depth.is_some(), "{depth}");
        }
        for depth in ["2.422 mm", "2.578 mm"] {
            assert_eq!(at(depth).borderline_depth, None, "{depth}");
        }
        // No spread, no chance.
        let by_hand = points(|draft| draft.set_depth("2.499 mm", Method::Manual));
        assert_eq!((by_hand.total(), by_hand.borderline_depth), (1, None));
    }

    /// The operation is on 2026-12-03: born a day after 1937-12-03 the patient is still 88.
    #[test]
    fn age_counts_from_the_89th_birthday() {
        let born = |day| {
            move |draft: &mut DraftUnderTest| {
                draft.0.patient.birth_date = Some(date(1937, 12, day));
            }
        };
        assert_eq!(points(born(4)).total(), 0);
        assert_given("high age", 1, born(3));
    }

    #[test]
    fn what_nobody_recorded_is_unknown_and_weighed() {
        let points = points(|draft| {
            let eye = draft.operated();
            eye.pupil = None;
            eye.chamber_depth = None;
            eye.state = EyeState::default();
            draft.0.patient.birth_date = None;
        });
        assert_eq!(points.given, []);
        assert_eq!(points.unknown.len(), 12);
        assert_eq!(points.unknown_points, 18);
        assert_eq!(points.at_most(), 18);
    }

    #[test]
    fn one_of_two_signs_of_a_dense_cataract_leaves_the_item_unknown() {
        let points = points(|draft| draft.operated().state.brunescent = None);
        let item = "dense, total, white or brunescent cataract";
        assert_eq!(points.unknown, [item]);
        assert_eq!(points.unknown_points, 3);
    }

    #[test]
    fn points_add_up_into_bands() {
        let of = |points: &[u32]| RiskPoints {
            given: points.iter().map(|&worth| ("item", worth)).collect(),
            unknown: vec!["another"],
            unknown_points: 1,
            borderline_depth: None,
        };
        for (points, total, band) in [
            (&[1][..], 1, "1 to 2"),
            (&[1, 1], 2, "1 to 2"),
            (&[3], 3, "3 to 5"),
            (&[3, 1, 1], 5, "3 to 5"),
            (&[3, 3], 6, "6 or more"),
        ] {
            let points = of(points);
            assert_eq!((points.total(), points.band()), (total, band));
            assert_eq!(points.at_most(), total + 1);
        }
    }
}
