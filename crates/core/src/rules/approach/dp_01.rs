//! `DP-01`: shallow chamber with a hard nucleus.

use super::nucleus_is_hard;
use crate::evidence::{HOUSE, NO_SOURCE, REPEATABILITY_2022, Standing};
use crate::rules::depth::depth_at_least;
use crate::rules::{Bearing, Facts, Group, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "DP-01",
    title: "Shallow chamber with a hard nucleus",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: Some(Bearing::SmallIncision),
    checks: "Anterior chamber depth of an eye with a hard nucleus against the limit (2.80 mm unless the clinic changed it), counted from the surface the clinic chose. As measured, the limit itself passes. With a spread (1 SD), the measurement's own or the table's for its method, the chance that the true depth lies under the limit decides: from 95 % on the finding is clear, up to 5 % the rule is satisfied, between the two the finding is borderline. A spread of zero, which no measurement has, is replaced by the table's, which the finding says; one below zero is refused. Where no spread is known the plain comparison decides. A depth measured from the other surface has the spread of the corneal thickness added, as independent.",
    why: "In a shallow chamber the pieces of a hard nucleus turn close to the endothelium, so many surgeons prefer small-incision surgery under 2.8 mm. This is common practice without a published source, and which depth is meant is not stated: Millrace counts from the epithelium, as most biometers print it, and shows the aqueous depth beside it. Trials found about the same cell loss with both approaches. Geometry at rest shows no step at this depth: the threshold is practice, not a derivation.",
    options: "Consider manual small-incision surgery, or phacoemulsification, for which AP-01 then asks the reason. If borderline, consider repeating the measurement.",
    sources: &[
        Standing::CommonPractice.of(NO_SOURCE, "depth < 2.8 mm with a hard cataract"),
        Standing::Assumption.of(HOUSE, "depth from the epithelium; 5 % on either side; from which grade a nucleus counts as hard"),
        Standing::Printed.of(REPEATABILITY_2022, "spread where the measurement has none of its own: repeatability 0.13 mm / 2.77 = 0.047 mm (1 SD), upper end of its range"),
    ],
    limits: &[
        "chamber_depth",
        "chamber_depth_start",
        "spread_chamber_depth",
        "spread_length_immersion",
        "spread_length_contact",
        "spread_corneal_thickness",
        "borderline_chance",
        "hard_locs_tenths",
        "hard_who_grade",
        "hard_emery_little_grade",
    ],
    evaluate,
};

/// Evaluates the rule; `DP-02` and `AP-01` ask it too.
pub(super) fn evaluate(facts: &Facts<'_>) -> Look {
    nucleus_is_hard(facts)?;
    let limits = facts.limits;
    depth_at_least(facts, limits.chamber_depth_start, limits.chamber_depth)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{DepthStart, Method};
    use crate::limits::Limits;
    use crate::quantity::Micrometers;
    use crate::rules::testing::{
        DraftUnderTest, assert_certainty, assert_finding, assert_not_applicable,
        assert_not_evaluated, assert_satisfied, limit, micrometers, quantity, verdict,
        verdict_with,
    };
    use crate::rules::{Certainty, Detail, Finding, SpreadOf, Verdict};

    /// A hard nucleus under a depth with a spread of its own.
    fn eye(depth: &str, spread_um: Option<i32>) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.set_hard_nucleus();
            draft.set_depth(depth, Method::Optical);
            draft.operated().chamber_depth.as_mut().unwrap().spread =
                spread_um.map(Micrometers::new);
        }
    }

    /// A hard nucleus under a depth by a method without a spread in the table.
    fn by_hand(depth: &str, spread_um: Option<i32>) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            eye(depth, spread_um)(draft);
            draft.operated().chamber_depth.as_mut().unwrap().method = Method::Manual;
        }
    }

    #[track_caller]
    fn found(verdict: Verdict) -> Finding {
        match verdict {
            Verdict::Finding(finding) => finding,
            other => panic!("no finding but {other:?}"),
        }
    }

    /// The measurement's own, or the table's 47 µm instead of a measured zero.
    fn spread(um: i32) -> Detail {
        Detail::Spread {
            of: SpreadOf::Depth,
            deviation: micrometers(um),
            instead_of_zero: um == 47,
        }
    }

    #[track_caller]
    fn assert_borderline(depth: &str, spread_um: Option<i32>, chance: f64) {
        let verdict = verdict(&RULE, eye(depth, spread_um));
        let finding = assert_certainty(verdict, Certainty::Borderline { chance });
        assert_eq!(finding.details[0], Detail::Repeat);
    }

    #[track_caller]
    fn assert_clear(depth: &str, spread_um: Option<i32>, chance: f64) {
        let verdict = verdict(&RULE, eye(depth, spread_um));
        assert_certainty(verdict, Certainty::Clear { chance });
    }

    /// Printed table of the normal distribution: Φ(0) = 0.5, Φ(0.02) = 0.5080, Φ(1) = 0.8413,
    /// Φ(−1) = 0.1587.
    #[test]
    fn near_the_limit_it_is_borderline() {
        assert_borderline("2.80 mm", Some(50), 0.5);
        assert_borderline("2.80 mm", None, 0.5);
        assert_borderline("2.799 mm", Some(50), 0.5080);
        assert_borderline("2.801 mm", Some(50), 1.0 - 0.5080);
        assert_borderline("2.75 mm", Some(50), 0.8413);
        assert_borderline("2.85 mm", Some(50), 0.1587);
        assert_borderline("2.753 mm", None, 0.8413);
    }

    /// The 95 % point of the normal distribution is z = 1.6449: 1.644 and 1.645 lie on either side.
    /// With 47 µm that is 77.3 µm.
    #[test]
    fn the_edges_of_borderline() {
        assert_borderline("1.156 mm", Some(1_000), 0.9499);
        assert_clear("1.155 mm", Some(1_000), 0.9500);
        assert_borderline("4.444 mm", Some(1_000), 0.0501);
        assert_satisfied(&RULE, eye("4.445 mm", Some(1_000)));
        assert_borderline("2.723 mm", None, 0.9493);
        assert_clear("2.722 mm", None, 0.9515);
        assert_borderline("2.877 mm", None, 0.0507);
        assert_satisfied(&RULE, eye("2.878 mm", None));
    }

    #[test]
    fn far_from_the_limit_it_is_clear_or_satisfied() {
        assert_clear("2.20 mm", None, 1.0);
        assert_satisfied(&RULE, eye("3.40 mm", None));
    }

    #[test]
    fn the_finding_shows_depth_limit_and_aqueous_depth() {
        let finding = found(verdict(&RULE, eye("2.75 mm", Some(50))));
        let depth = quantity("2.75 mm from the epithelium");
        assert_eq!(finding.measured, depth.into());
        assert_eq!(finding.limit, limit("at least 2.80 mm from the epithelium"));
        let aqueous = Detail::AqueousDepth(micrometers(2_210));
        assert_eq!(finding.details, [Detail::Repeat, spread(50), aqueous]);
        let finding = found(verdict(&RULE, |draft| {
            eye("2.75 mm", Some(50))(draft);
            draft.operated().corneal_thickness = None;
        }));
        assert_eq!(finding.details, [Detail::Repeat, spread(50)]);
    }

    #[test]
    fn without_a_spread_the_plain_comparison_decides_and_says_so() {
        for method in Method::ALL {
            if matches!(
                method,
                Method::Optical
                    | Method::Tomographer
                    | Method::ImmersionUltrasound
                    | Method::ContactUltrasound
            ) {
                continue;
            }
            let eye = |depth: &'static str| {
                move |draft: &mut DraftUnderTest| {
                    draft.set_hard_nucleus();
                    draft.set_depth(depth, method);
                }
            };
            assert_satisfied(&RULE, eye("2.80 mm"));
            assert_satisfied(&RULE, eye("2.801 mm"));
            let texts = [
                "2.799 mm from the epithelium",
                "at least 2.80 mm from the epithelium",
            ];
            let finding = assert_finding(&RULE, eye("2.799 mm"), texts);
            assert_eq!(finding.details[0], Detail::SpreadUnknown);
        }
    }

    /// Φ(1) = 0.8413 with the spread of a length by immersion, 30 µm, and by contact, 140 µm.
    #[test]
    fn a_depth_by_sound_spreads_as_its_length() {
        for (method, depth) in [
            (Method::ImmersionUltrasound, "2.77 mm"),
            (Method::ContactUltrasound, "2.66 mm"),
        ] {
            let verdict = verdict(&RULE, |draft| {
                draft.set_hard_nucleus();
                draft.set_depth(depth, method);
            });
            assert_certainty(verdict, Certainty::Borderline { chance: 0.8413 });
        }
    }

    #[test]
    fn any_method_is_judged_by_its_own_spread() {
        let verdict = verdict(&RULE, |draft| {
            eye("2.80 mm", Some(100))(draft);
            draft.operated().chamber_depth.as_mut().unwrap().method = Method::ImmersionUltrasound;
        });
        let certainty = found(verdict).certainty;
        assert!(matches!(certainty, Certainty::Borderline { .. }));
    }

    /// Φ(1) = 0.8413: 47 µm under the limit by the table's spread.
    #[test]
    fn a_spread_of_zero_gives_way_to_the_tables_and_a_negative_one_is_refused() {
        assert_borderline("2.80 mm", Some(0), 0.5);
        let verdict = verdict(&RULE, eye("2.753 mm", Some(0)));
        let finding = assert_certainty(verdict, Certainty::Borderline { chance: 0.8413 });
        let aqueous = Detail::AqueousDepth(micrometers(2_213));
        assert_eq!(finding.details, [Detail::Repeat, spread(47), aqueous]);
        assert_not_evaluated(&RULE, eye("2.00 mm", Some(-1)));
        // Neither method nor measurement gives a spread.
        assert_satisfied(&RULE, by_hand("2.80 mm", Some(0)));
        let texts = [
            "2.799 mm from the epithelium",
            "at least 2.80 mm from the epithelium",
        ];
        assert_finding(&RULE, by_hand("2.799 mm", Some(0)), texts);
    }

    #[test]
    fn a_table_that_a_clinic_set_to_zero_is_refused() {
        let limits = Limits {
            spread_chamber_depth: Micrometers::new(0),
            ..Limits::shipped().clone()
        };
        let verdict = verdict_with(&RULE, &limits, eye("2.00 mm", None));
        assert!(matches!(verdict, Verdict::NotEvaluated(_)));
    }

    /// From the epithelium 3.34 mm, less 0.54 mm of cornea.
    #[test]
    fn a_clinic_may_count_from_the_endothelium() {
        let limits = Limits {
            chamber_depth_start: DepthStart::Endothelium,
            ..Limits::shipped().clone()
        };
        let at = |depth: &'static str| verdict_with(&RULE, &limits, by_hand(depth, None));
        assert_eq!(at("3.34 mm"), Verdict::Satisfied);
        let finding = found(at("3.339 mm"));
        let depth = quantity("2.799 mm from the endothelium");
        assert_eq!(finding.measured, depth.into());
        let least = limit("at least 2.80 mm from the endothelium");
        assert_eq!(finding.limit, least);
        assert_eq!(finding.details, [Detail::SpreadUnknown]);
        let without_thickness = verdict_with(&RULE, &limits, |draft| {
            by_hand("3.34 mm", None)(draft);
            draft.operated().corneal_thickness = None;
        });
        assert!(matches!(without_thickness, Verdict::NotEvaluated(_)));
    }

    fn from_endothelium(draft: &mut DraftUnderTest) {
        let measured = draft.operated().chamber_depth.as_mut().unwrap();
        measured.value.start = DepthStart::Endothelium;
    }

    /// From the endothelium 2.26 mm, plus 0.54 mm of cornea.
    #[test]
    fn a_depth_from_the_endothelium_is_converted_or_refused() {
        let eye = |depth: &'static str| {
            move |draft: &mut DraftUnderTest| {
                by_hand(depth, None)(draft);
                from_endothelium(draft);
            }
        };
        assert_satisfied(&RULE, eye("2.26 mm"));
        let texts = [
            "2.799 mm from the epithelium",
            "at least 2.80 mm from the epithelium",
        ];
        assert_finding(&RULE, eye("2.259 mm"), texts);
        assert_not_evaluated(&RULE, |draft| {
            eye("2.26 mm")(draft);
            draft.operated().corneal_thickness = None;
        });
    }

    /// Depth 40 µm and thickness 30 µm make 50 µm; 2.21 + 0.54 = 2.75 mm is one of them under the
    /// limit, Φ(1) = 0.8413. Counted from the endothelium, 3.29 − 0.54 = 2.75 mm likewise.
    #[test]
    fn the_spread_of_the_thickness_counts_where_the_surface_changes() {
        let spreads = |depth_um: i32, thickness_um: i32| {
            move |draft: &mut DraftUnderTest| {
                let eye = draft.operated();
                eye.chamber_depth.as_mut().unwrap().spread = Some(Micrometers::new(depth_um));
                eye.corneal_thickness.as_mut().unwrap().spread =
                    Some(Micrometers::new(thickness_um));
            }
        };
        let added = verdict(&RULE, |draft| {
            eye("2.21 mm", None)(draft);
            from_endothelium(draft);
            spreads(40, 30)(draft);
        });
        let finding = assert_certainty(added, Certainty::Borderline { chance: 0.8413 });
        let together = Detail::Spread {
            of: SpreadOf::DepthAndThickness,
            deviation: micrometers(50),
            instead_of_zero: false,
        };
        assert_eq!(finding.details[1], together);

        let limits = Limits {
            chamber_depth_start: DepthStart::Endothelium,
            ..Limits::shipped().clone()
        };
        let taken_off = verdict_with(&RULE, &limits, |draft| {
            eye("3.29 mm", None)(draft);
            spreads(40, 30)(draft);
        });
        assert_certainty(taken_off, Certainty::Borderline { chance: 0.8413 });

        // Without a change of surface the thickness plays no part, however odd its spread.
        let alone = verdict(&RULE, |draft| {
            eye("2.75 mm", None)(draft);
            spreads(50, -1)(draft);
        });
        assert_certainty(alone, Certainty::Borderline { chance: 0.8413 });
        assert_not_evaluated(&RULE, |draft| {
            eye("2.21 mm", None)(draft);
            from_endothelium(draft);
            spreads(50, -1)(draft);
        });
    }

    #[test]
    fn a_limit_of_chance_that_is_none_is_refused() {
        for percent in [-1, 50] {
            let limits = Limits {
                borderline_chance: percent,
                ..Limits::shipped().clone()
            };
            let verdict = verdict_with(&RULE, &limits, eye("2.00 mm", None));
            assert!(matches!(verdict, Verdict::NotEvaluated(_)));
        }
    }

    #[test]
    fn nucleus_and_depth_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.set_depth("2.00 mm", Method::Optical));
        assert_not_evaluated(&RULE, |draft| {
            draft.set_hard_nucleus();
            draft.operated().chamber_depth = None;
        });
        assert_not_applicable(&RULE, |draft| {
            draft.set_locs_opalescence(49);
            draft.set_depth("2.00 mm", Method::Optical);
        });
    }
}
