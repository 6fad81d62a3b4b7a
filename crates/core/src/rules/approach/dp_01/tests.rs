//! At the limit, near it and far from it; a nucleus that may be hard; what is missing.

use super::RULE;
use crate::biometry::{DepthStart, LocsTenths, Method, NucleusGrade};
use crate::limits::Limits;
use crate::quantity::Micrometers;
use crate::rules::approach::dp_02;
use crate::rules::testing::{
    DraftUnderTest, assert_certainty, assert_finding, assert_not_applicable, assert_not_evaluated,
    assert_satisfied, limit, micrometers, quantity, verdict, verdict_with,
};
use crate::rules::{Certainty, Detail, Finding, Place, SpreadOf, Verdict};

/// A hard nucleus under a depth with a spread of its own.
fn eye(depth: &str, spread_um: Option<i32>) -> impl FnOnce(&mut DraftUnderTest) {
    move |draft| {
        draft.set_hard_nucleus();
        draft.set_depth(depth, Method::Optical);
        draft.operated().chamber_depth.as_mut().unwrap().spread = spread_um.map(Micrometers::new);
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

/// The 90 % that 5 % on either side leave.
fn interval(low_um: i32, high_um: i32, place: Place) -> Detail {
    Detail::Interval {
        percent: 90,
        low: micrometers(low_um),
        high: micrometers(high_um),
        place,
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

/// 2.81 to 2.87 mm was said in the words of one side only. Whatever the side, the depth, the limit
/// and the interval are said alike; exactly one of the two rules says them, and the interval tells
/// where: 1.6449 · 47 µm = 77 µm on either side of the depth.
#[test]
fn under_undecided_and_over_are_said_alike_and_by_one_rule() {
    for (depth, low, high, place) in [
        ("2.70 mm", 2_623, 2_777, Place::Under),
        ("2.75 mm", 2_673, 2_827, Place::Undecided),
        ("2.81 mm", 2_733, 2_887, Place::Undecided),
        ("2.85 mm", 2_773, 2_927, Place::Undecided),
        ("2.87 mm", 2_793, 2_947, Place::Undecided),
        ("2.90 mm", 2_823, 2_977, Place::Over),
    ] {
        let shallow = verdict(&RULE, eye(depth, None));
        let deep = verdict(&dp_02::RULE, eye(depth, None));
        let (speaks, silent) = match place {
            Place::Over => (deep, shallow),
            Place::Under | Place::Undecided => (shallow, deep),
        };
        assert_eq!(silent, Verdict::Satisfied, "{depth}");
        let finding = found(speaks);
        let measured = quantity(&format!("{depth} from the epithelium"));
        assert_eq!(finding.measured, measured.into());
        assert_eq!(finding.limit, limit("at least 2.80 mm from the epithelium"));
        let interval = interval(low, high, place);
        assert!(finding.details.contains(&interval), "{finding:?}");
    }
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
    // 1.6449 · 50 µm = 82 µm on either side.
    let interval = interval(2_668, 2_832, Place::Undecided);
    let all = [Detail::Repeat, spread(50), interval.clone(), aqueous];
    assert_eq!(finding.details, all);
    let finding = found(verdict(&RULE, |draft| {
        eye("2.75 mm", Some(50))(draft);
        draft.operated().corneal_thickness = None;
    }));
    assert_eq!(finding.details, [Detail::Repeat, spread(50), interval]);
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
    // 1.6449 · 47 µm = 77 µm on either side.
    let interval = interval(2_676, 2_830, Place::Undecided);
    let all = [Detail::Repeat, spread(47), interval, aqueous];
    assert_eq!(finding.details, all);
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
            eye.corneal_thickness.as_mut().unwrap().spread = Some(Micrometers::new(thickness_um));
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

/// Four of the eyes that came back without a word: brunescent, white or dense without a grade,
/// and opalescence 4.5 with color 6.9.
#[test]
fn a_nucleus_that_may_be_hard_is_looked_at() {
    let shallow = |nucleus: fn(&mut DraftUnderTest)| {
        found(verdict(&RULE, |draft| {
            nucleus(draft);
            draft.set_depth("2.30 mm", Method::Optical);
        }))
    };
    let taken = |finding: &Finding| {
        let mut details = finding.details.iter();
        details.any(|detail| matches!(detail, Detail::TakenAsHard(_)))
    };
    let brown = shallow(|draft| draft.operated().state.brunescent = Some(true));
    assert!(!taken(&brown));
    for seen in [
        |draft: &mut DraftUnderTest| draft.operated().state.white_cataract = Some(true),
        |draft: &mut DraftUnderTest| draft.operated().state.dense_cataract = Some(true),
        |draft: &mut DraftUnderTest| {
            draft.set_locs_opalescence(20);
            draft.operated().state.brunescent = Some(true);
        },
    ] {
        assert!(taken(&shallow(seen)));
    }
    let color = shallow(|draft| {
        draft.operated().state.nucleus = Some(NucleusGrade::LocsIii {
            opalescence: LocsTenths::new(45).unwrap(),
            color: Some(LocsTenths::new(69).unwrap()),
        });
    });
    assert!(!taken(&color));
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
