//! `RK-01`: risk points of a complicated operation.

use super::risk_points;
use crate::evidence::{HOUSE, MUHTASEB_2004, REPEATABILITY_2022, Standing};
use crate::rules::{Detail, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "RK-01",
    title: "Complications are more likely",
    group: Group::Risk,
    severity: Severity::Review,
    bearing: None,
    checks: "Sum of the published risk points against 3; a sum of 3 is a finding. One point each: previous vitrectomy, corneal scarring, pupil under 3 mm, anterior chamber depth (from the epithelium) under 2.5 mm, age over 88, ametropia over 6 D, posterior capsule plaque, posterior polar cataract, any other difficulty; the limits themselves give no point. Each is taken as measured; where the spread of the depth leaves it borderline, as in DP-01, the plan says the chance that the true depth lies under the limit. Three points each: dense, total, white or brunescent cataract, pseudoexfoliation, phacodonesis. An item nobody recorded is unknown: the rule is satisfied only if all unknown items together could not lift the sum to 3.",
    why: "The points mark operations that go wrong more often. The bands 0, 1 to 2, 3 to 5, 6 or more are recalled, and which column the last two items stand in is inferred.",
    options: "Consider who operates, how much time is planned, and what lies at hand (capsular tension ring, hooks, vitrector, backup lenses); the patient may be told of the raised risk.",
    sources: &[
        Standing::Printed.of(MUHTASEB_2004, "table 1; column of the last two items inferred"),
        Standing::Memory.of(MUHTASEB_2004, "bands 0, 1-2, 3-5, ≥ 6"),
        Standing::Assumption.of(HOUSE, "depth from the epithelium, since which depth was meant is not stated; 5 % on either side"),
        Standing::Printed.of(REPEATABILITY_2022, "spread where the measurement has none of its own: repeatability 0.13 mm / 2.77 = 0.047 mm (1 SD), upper end of its range"),
    ],
    limits: &[
        "risk_points",
        "risk_pupil",
        "risk_depth",
        "risk_age",
        "risk_ametropia",
        "spread_chamber_depth",
        "spread_length_immersion",
        "spread_length_contact",
        "spread_corneal_thickness",
        "borderline_chance",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let points = risk_points(facts);
    let limit = facts.limits.risk_points;
    if points.total() >= limit {
        let items = Detail::RiskPoints {
            band: points.band(),
            given: points.given.clone(),
            unknown: points.unknown.clone(),
        };
        let limit = Limit::Under(Quantity::Points(limit));
        return Finding::new(Quantity::Points(points.total()), limit)
            .with([items])
            .with(points.borderline_depth.map(Detail::BorderlineDepth))
            .found();
    }
    if points.at_most() >= limit {
        return Err(Missing::RiskItems.into());
    }
    Ok(None)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::rules::Detail;
    use crate::rules::risk::Band;
    use crate::rules::risk::RiskItem::{
        self, CapsulePlaque, CornealScarring, HighAmetropia, Phacodonesis, PosteriorPolar,
        Pseudoexfoliation, ShallowChamber, SmallPupil,
    };
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied,
    };

    /// Everything recorded; a small pupil and a scar make two points.
    fn two_points(draft: &mut DraftUnderTest) {
        draft.set_unremarkable_state();
        draft.set_pupil("2.50 mm");
        draft.operated().state.corneal_scarring = Some(true);
    }

    fn three_to_five(given: Vec<RiskItem>) -> Detail {
        Detail::RiskPoints {
            band: Band::ThreeToFive,
            given,
            unknown: Vec::new(),
        }
    }

    #[test]
    fn at_the_limit_and_one_point_under() {
        assert_satisfied(&RULE, two_points);
        let finding = assert_finding(
            &RULE,
            |draft| {
                two_points(draft);
                draft.operated().state.capsule_plaque = Some(true);
            },
            ["3 points", "under 3 points"],
        );
        let given = vec![CornealScarring, SmallPupil, CapsulePlaque];
        assert_eq!(finding.details, [three_to_five(given)]);
    }

    #[test]
    fn a_finding_names_what_was_not_recorded() {
        let finding = assert_finding(
            &RULE,
            |draft| {
                draft.set_unremarkable_state();
                draft.set_pupil("7.00 mm");
                let state = &mut draft.operated().state;
                state.pseudoexfoliation = Some(true);
                state.phacodonesis = Some(true);
                state.posterior_polar = None;
                state.refraction = None;
            },
            ["6 points", "under 3 points"],
        );
        let items = Detail::RiskPoints {
            band: Band::SixOrMore,
            given: vec![Pseudoexfoliation, Phacodonesis],
            unknown: vec![HighAmetropia, PosteriorPolar],
        };
        assert_eq!(finding.details, [items]);
    }

    /// 47 µm under 2.50 mm with the table's 47 µm: Φ(1) = 0.8413.
    #[test]
    fn a_finding_says_when_the_depth_is_borderline() {
        let finding = assert_finding(
            &RULE,
            |draft| {
                two_points(draft);
                draft.set_depth("2.453 mm", Method::Optical);
            },
            ["3 points", "under 3 points"],
        );
        let given = vec![CornealScarring, SmallPupil, ShallowChamber];
        let [items, Detail::BorderlineDepth(near)] = &finding.details[..] else {
            panic!("{finding:?}");
        };
        assert_eq!(*items, three_to_five(given));
        assert_eq!((near.depth.um(), near.limit.um()), (2_453, 2_500));
        assert!((near.chance - 0.8413).abs() <= 0.00005);
    }

    #[test]
    fn unknown_items_count_only_if_they_could_reach_the_limit() {
        assert_not_evaluated(&RULE, |draft| {
            two_points(draft);
            draft.operated().state.posterior_polar = None;
        });
        assert_satisfied(&RULE, |draft| {
            two_points(draft);
            draft.operated().state.corneal_scarring = Some(false);
            draft.operated().state.posterior_polar = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.set_unremarkable_state();
            draft.set_pupil("7.00 mm");
            draft.operated().state.phacodonesis = None;
        });
        assert_not_evaluated(&RULE, |_| {});
    }
}
