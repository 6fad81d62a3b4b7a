//! Risk points of Muhtaseb et al. 2004: what makes the operation complicated.
//!
//! Which column the last two items stand in is inferred from the printed table; the bands are
//! recalled.

use crate::finding::{Band, BorderlineDepth, RiskItem};
use crate::quantity::ThousandthDiopters;
use crate::rules::Facts;
use crate::rules::check::either;
use crate::rules::depth::borderline_chance;

/// Points of one eye. An item that nobody recorded is unknown, never zero.
#[derive(Clone, Debug, PartialEq)]
pub struct RiskPoints {
    pub given: Vec<RiskItem>,
    pub unknown: Vec<RiskItem>,
    /// A chamber depth too near to its limit to tell; its point stays as measured.
    pub borderline_depth: Option<BorderlineDepth>,
}

impl RiskItem {
    /// Whether the operated eye has it; `None` if nobody recorded that.
    fn is_present(self, facts: &Facts<'_>) -> Option<bool> {
        let (eye, limits) = (facts.operated.0, facts.limits);
        let state = &eye.state;
        match self {
            Self::PreviousVitrectomy => state.previous_vitrectomy,
            Self::CornealScarring => state.corneal_scarring,
            Self::SmallPupil => {
                let pupil = eye.pupil.as_ref();
                pupil.map(|pupil| pupil.value.get() < limits.risk_pupil)
            }
            Self::ShallowChamber => {
                let depth = eye.depth_from_epithelium();
                depth.map(|depth| depth < limits.risk_depth)
            }
            Self::HighAge => facts.draft.age().map(|age| age > limits.risk_age),
            Self::HighAmetropia => {
                let limit = ThousandthDiopters::from(limits.risk_ametropia);
                let refraction = state.refraction;
                refraction.map(|it| it.spherical_equivalent().abs() > limit)
            }
            Self::CapsulePlaque => state.capsule_plaque,
            Self::PosteriorPolar => state.posterior_polar,
            Self::OtherDifficulty => state.other_difficulty,
            Self::DenseCataract => either(
                state.dense_cataract,
                either(state.white_cataract, state.brunescent),
            ),
            Self::Pseudoexfoliation => state.pseudoexfoliation,
            Self::Phacodonesis => state.phacodonesis,
        }
    }
}

impl RiskPoints {
    /// Points of the items present.
    pub fn total(&self) -> i32 {
        self.given.iter().map(|item| item.points()).sum()
    }

    /// Points if every unknown item were present.
    pub fn at_most(&self) -> i32 {
        let unknown: i32 = self.unknown.iter().map(|item| item.points()).sum();
        self.total() + unknown
    }

    /// The band the total falls into.
    pub fn band(&self) -> Band {
        match self.total() {
            ..=0 => Band::None,
            1..=2 => Band::OneToTwo,
            3..=5 => Band::ThreeToFive,
            6.. => Band::SixOrMore,
        }
    }
}

/// The points of the operated eye.
pub fn risk_points(facts: &Facts<'_>) -> RiskPoints {
    let with = |present: Option<bool>| {
        let items = RiskItem::ALL.into_iter();
        items
            .filter(|item| item.is_present(facts) == present)
            .collect()
    };
    RiskPoints {
        given: with(Some(true)),
        unknown: with(None),
        borderline_depth: borderline_depth(facts),
    }
}

fn borderline_depth(facts: &Facts<'_>) -> Option<BorderlineDepth> {
    let limit = facts.limits.risk_depth;
    Some(BorderlineDepth {
        depth: facts.operated.0.depth_from_epithelium()?,
        limit,
        chance: borderline_chance(facts, limit)?,
    })
}

#[cfg(test)]
mod tests {
    use super::{Band, RiskItem, RiskPoints};
    use crate::biometry::{EyeState, Method};
    use crate::rules::testing::{DraftUnderTest, date, plan, sphere};

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
    fn assert_given(item: RiskItem, worth: i32, change: impl FnOnce(&mut DraftUnderTest)) {
        let points = points(change);
        assert_eq!(points.given, [item]);
        assert_eq!((points.total(), points.at_most()), (worth, worth));
    }

    #[test]
    fn an_unremarkable_eye_has_none() {
        let points = points(|_| {});
        assert_eq!(points.given, []);
        assert!(points.unknown.is_empty());
        assert_eq!((points.total(), points.band()), (0, Band::None));
    }

    #[test]
    fn each_sign_gives_the_printed_points() {
        type Set = fn(&mut EyeState);
        let signs: [(RiskItem, i32, Set); 9] = [
            (RiskItem::PreviousVitrectomy, 1, |state| {
                state.previous_vitrectomy = Some(true);
            }),
            (RiskItem::CornealScarring, 1, |state| {
                state.corneal_scarring = Some(true);
            }),
            (RiskItem::CapsulePlaque, 1, |state| {
                state.capsule_plaque = Some(true);
            }),
            (RiskItem::PosteriorPolar, 1, |state| {
                state.posterior_polar = Some(true);
            }),
            (RiskItem::OtherDifficulty, 1, |state| {
                state.other_difficulty = Some(true);
            }),
            (RiskItem::DenseCataract, 3, |state| {
                state.white_cataract = Some(true);
            }),
            (RiskItem::DenseCataract, 3, |state| {
                state.brunescent = Some(true);
                state.white_cataract = Some(true);
            }),
            (RiskItem::Pseudoexfoliation, 3, |state| {
                state.pseudoexfoliation = Some(true);
            }),
            (RiskItem::Phacodonesis, 3, |state| {
                state.phacodonesis = Some(true);
            }),
        ];
        for (item, worth, set) in signs {
            assert_given(item, worth, |draft| set(&mut draft.operated().state));
        }
    }

    #[test]
    fn measured_items_at_the_limit_and_one_step_beyond() {
        assert_eq!(points(|draft| draft.set_pupil("3.00 mm")).total(), 0);
        assert_given(RiskItem::SmallPupil, 1, |draft| draft.set_pupil("2.999 mm"));

        let depth =
            |depth| move |draft: &mut DraftUnderTest| draft.set_depth(depth, Method::Optical);
        assert_eq!(points(depth("2.50 mm")).total(), 0);
        assert_given(RiskItem::ShallowChamber, 1, depth("2.499 mm"));

        let refraction = |hundredths| {
            move |draft: &mut DraftUnderTest| {
                draft.operated().state.refraction = Some(sphere(hundredths));
            }
        };
        for hundredths in [-600, 600] {
            assert_eq!(points(refraction(hundredths)).total(), 0);
        }
        for hundredths in [-601, 601] {
            assert_given(RiskItem::HighAmetropia, 1, refraction(hundredths));
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
            assert_eq!(points.total(), i32::from(given));
        }
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
        assert_given(RiskItem::HighAge, 1, born(3));
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
        assert_eq!((points.total(), points.at_most()), (0, 18));
    }

    #[test]
    fn one_of_two_signs_of_a_dense_cataract_leaves_the_item_unknown() {
        let points = points(|draft| draft.operated().state.brunescent = None);
        let item = RiskItem::DenseCataract;
        assert_eq!(points.unknown, [item]);
        assert_eq!(points.at_most(), 3);
    }

    #[test]
    fn points_add_up_into_bands() {
        let of = |one: usize, three: usize| {
            let ones = [
                RiskItem::SmallPupil,
                RiskItem::HighAge,
                RiskItem::CapsulePlaque,
            ];
            let threes = [RiskItem::Pseudoexfoliation, RiskItem::Phacodonesis];
            RiskPoints {
                given: [&ones[..one], &threes[..three]].concat(),
                unknown: vec![RiskItem::CornealScarring],
                borderline_depth: None,
            }
        };
        for (one, three, total, band) in [
            (1, 0, 1, Band::OneToTwo),
            (2, 0, 2, Band::OneToTwo),
            (0, 1, 3, Band::ThreeToFive),
            (2, 1, 5, Band::ThreeToFive),
            (0, 2, 6, Band::SixOrMore),
        ] {
            let points = of(one, three);
            assert_eq!((points.total(), points.band()), (total, band));
            assert_eq!(points.at_most(), total + 1);
        }
    }
}
