//! How near pieces and whole nucleus come: the check values of the model, which another program
//! computed, and what must hold of every nucleus in every chamber.

use millrace_core::chamber::{
    DIVISIONS, Delivery, Division, EIGHTY_PERCENT, InputSpread, Nearness, Piece, Slopes, Space,
    Spheroid, Under, WorkingPlane,
};
use proptest::prelude::*;

use crate::support::table;

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    id: String,
    #[serde(rename = "quantity")]
    _quantity: String,
    values: String,
    kind: Kind,
}

#[derive(Clone, Copy, Debug, serde::Deserialize)]
enum Kind {
    /// Closed form.
    E,
    /// Quadrature over directions.
    Q,
    /// Midpoint rule of 64 steps.
    Q64,
}

/// Every nucleus of the tables.
const HARD: Spheroid = spheroid(8.5, 4.0);
const ORDINARY: Spheroid = spheroid(7.13, 3.05);
const LARGE: Spheroid = spheroid(9.0, 5.0);

const fn spheroid(diameter: f64, thickness: f64) -> Spheroid {
    Spheroid {
        across: diameter / 2.0,
        along: thickness / 2.0,
    }
}

fn space(depth: f64) -> Space {
    Space {
        depth,
        back_radius: 6.4,
        lens_thickness: 4.37,
    }
}

fn of_pieces(pieces: u8) -> Division {
    Division::with_pieces(pieces).unwrap()
}

fn piece(pieces: u8, ring: u8) -> Piece {
    Piece::of_ring(of_pieces(pieces), HARD, ring)
}

fn near(pieces: u8) -> Nearness {
    let under = space(2.26).under(WorkingPlane::Pupil, 0.0).unwrap();
    Nearness::of(of_pieces(pieces), HARD, under)
}

/// 7.13 × 3.05 mm in four pieces at D 2.66.
fn ordinary(plane: WorkingPlane, off_axis: f64) -> Nearness {
    let under = space(2.66).under(plane, off_axis).unwrap();
    Nearness::of(of_pieces(4), ORDINARY, under)
}

fn slopes() -> Slopes {
    Slopes::of(of_pieces(8), HARD, space(2.26), WorkingPlane::Pupil).unwrap()
}

fn deviation() -> f64 {
    slopes().deviation(InputSpread {
        depth: 0.047,
        diameter: 0.76,
        thickness: 0.48,
    })
}

fn at(distance: f64) -> Under {
    Under {
        back_radius: 6.4,
        distance,
    }
}

fn computed(id: &str) -> Vec<f64> {
    let one = match id {
        "P01" => {
            space(2.26)
                .under(WorkingPlane::Pupil, 2.0)
                .unwrap()
                .distance
        }
        "P02" => space(2.66).volume(),
        "P13" => return piece(8, 0).extents().to_vec(),
        "P14" => return piece(16, 1).extents().to_vec(),
        "P37" => {
            let half = deviation() * EIGHTY_PERCENT;
            let margin = near(8).margin;
            return vec![margin - half, margin + half];
        }
        "P33" => slopes().depth,
        "P34" => slopes().diameter,
        "P35" => slopes().thickness,
        "P36" => deviation(),
        _ => of_a_piece(id)
            .or_else(|| of_pieces_turning(id))
            .or_else(|| of_the_whole(id))
            .unwrap_or_else(|| panic!("{id} is not computed")),
    };
    vec![one]
}

fn of_a_piece(id: &str) -> Option<f64> {
    Some(match id {
        "P03" => piece(4, 0).volume(),
        "P04" => piece(12, 1).volume(),
        "P05" => piece(4, 0).centroid()[0],
        "P06" => piece(8, 0).centroid()[0],
        "P07" => piece(12, 1).centroid()[0],
        "P08" => piece(32, 1).centroid()[1],
        "P09" => piece(32, 0).centroid()[1],
        "P10" => piece(4, 0).turning_radius(),
        "P11" => piece(8, 0).turning_radius(),
        "P12" => piece(32, 1).turning_radius(),
        _ => return None,
    })
}

fn of_pieces_turning(id: &str) -> Option<f64> {
    Some(match id {
        "P15" => near(4).margin,
        "P16" => near(6).margin,
        "P17" => near(8).margin,
        "P18" => near(12).margin,
        "P19" => near(16).margin,
        "P20" => near(24).margin,
        "P21" => near(32).margin,
        "P22" => near(4).touch_share,
        "P23" => near(8).touch_share,
        "P24" => near(12).touch_share,
        "P25" => near(8).worst,
        "P26" => near(8).lying_flat,
        "P27" => near(8).nine_in_ten,
        "P28" => ordinary(WorkingPlane::Pupil, 0.0).margin,
        "P29" => ordinary(WorkingPlane::Pupil, 0.0).worst,
        "P30" => ordinary(WorkingPlane::Bag, 0.0).margin,
        "P31" => ordinary(WorkingPlane::Chamber, 0.0).margin,
        "P32" => ordinary(WorkingPlane::Pupil, 2.0).margin,
        _ => return None,
    })
}

fn of_the_whole(id: &str) -> Option<f64> {
    Some(match id {
        "P38" => HARD.clearance_lying_flat(at(2.26)),
        "P39" => spheroid(7.0, 6.0).clearance_lying_flat(at(3.2)),
        "P40" => HARD.depth_needed(0.0, 6.4),
        "P41" => HARD.depth_needed(0.25, 6.4),
        "P42" => HARD.lift_on(7.0),
        "P43" => HARD.retreat(2.26, 6.4, HARD.lift_on(7.0)),
        "P44" => HARD.retreat(2.26, 6.4, HARD.lift_on(0.0)),
        "P45" => spheroid(8.2, 4.2).perimeter(),
        "P46" => HARD.perimeter(),
        "P47" => HARD.half_perimeter(Delivery::Halves),
        "P48" => HARD.half_perimeter(Delivery::Thirds),
        "P49" => HARD.half_perimeter(Delivery::Whole) / 7.0,
        "P50" => LARGE.stretch_on_edge(5.0),
        "P51" => LARGE.stretch_flat(5.0),
        _ => return None,
    })
}

#[test]
fn every_check_value_is_met() {
    let mut count = 0;
    for row in table("tests/check-values/proximity.csv").into_deserialize() {
        let row: Row = row.unwrap();
        let found = computed(&row.id);
        let printed: Vec<&str> = row.values.split(' ').collect();
        assert_eq!(found.len(), printed.len(), "{}", row.id);
        for (found, printed) in found.into_iter().zip(printed) {
            let expected: f64 = printed.parse().unwrap();
            let digits = printed.split_once('.').map_or(0, |(_, rest)| rest.len());
            let tolerance = match row.kind {
                // A closed form that comes out even is given with few digits.
                Kind::E if digits < 6 => 1e-9,
                Kind::E | Kind::Q64 => format!("0.501e-{digits}").parse::<f64>().unwrap().max(1e-9),
                Kind::Q => 1e-6,
            };
            let off = (found - expected).abs();
            assert!(off <= tolerance, "{}: {found} for {expected}", row.id);
        }
        count += 1;
    }
    assert_eq!(count, 51);
}

/// The table of results, pupil plane, hundredths: margins of 4, 6, 8, 12, 16, 24, 32 pieces.
#[test]
fn margins_are_those_of_the_table() {
    for (nucleus, chamber_depth, expected) in [
        (
            ORDINARY,
            2.0,
            [-0.63, -0.44, -0.36, -0.13, 0.03, 0.12, 0.23],
        ),
        (ORDINARY, 3.2, [0.54, 0.73, 0.81, 1.05, 1.21, 1.30, 1.42]),
        (HARD, 2.0, [-1.11, -0.89, -0.80, -0.52, -0.35, -0.25, -0.05]),
        (HARD, 4.0, [0.81, 1.03, 1.11, 1.44, 1.59, 1.70, 1.91]),
        (
            spheroid(9.0, 4.5),
            2.4,
            [-0.92, -0.70, -0.61, -0.29, -0.15, -0.03, 0.23],
        ),
    ] {
        let space = space(chamber_depth - 0.54);
        let under = space.under(WorkingPlane::Pupil, 0.0).unwrap();
        for (division, expected) in DIVISIONS.into_iter().zip(expected) {
            let found = Nearness::of(division, nucleus, under).margin;
            assert!(
                (found - expected).abs() <= 0.0051,
                "{chamber_depth}, {division:?}: {found} for {expected}"
            );
        }
    }
}

/// Under a flat cornea a ball of radius r in n sectors reaches r·(1/4 + π/8 + 1/(2n)).
#[test]
fn sectors_of_a_ball_meet_the_mean_curvature() {
    let (ball, radius, distance) = (spheroid(4.0, 4.0), 2.0, 5.0);
    let under = Under {
        back_radius: 1e6,
        distance,
    };
    for sectors in 2..=16 {
        let division = Division {
            sectors,
            rings: 1,
            layers: 1,
        };
        let reach = distance - Nearness::of(division, ball, under).margin;
        let n = f64::from(sectors);
        let expected = radius * (0.25 + core::f64::consts::PI / 8.0 + 1.0 / (2.0 * n));
        assert!((reach - expected).abs() < 0.001, "{sectors}: {reach}");
    }
}

/// A whole ball turns on the spot.
#[test]
fn a_whole_ball_reaches_its_radius_at_every_plane() {
    let ball = spheroid(5.0, 5.0);
    let whole = Division {
        sectors: 1,
        rings: 1,
        layers: 1,
    };
    for plane in WorkingPlane::ALL {
        let under = space(3.0).under(plane, 0.0).unwrap();
        let margin = Nearness::of(whole, ball, under).margin;
        assert!((margin - (under.distance - 2.5)).abs() < 0.001, "{margin}");
    }
}

/// A nucleus that a lens can hold, and the depth of the aqueous over it.
fn eyes() -> impl Strategy<Value = (Spheroid, f64)> {
    (6.0..10.0_f64, 0.35..0.92_f64, 1.4..3.6_f64)
        .prop_map(|(diameter, flatness, depth)| (spheroid(diameter, diameter * flatness), depth))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Not in the bag: near the middle of the corneal sphere its sides count as much as its vertex, and
    /// more sectors may come a little nearer.
    #[test]
    fn more_pieces_never_come_nearer((nucleus, depth) in eyes()) {
        for plane in [WorkingPlane::Pupil, WorkingPlane::Chamber] {
            let under = space(depth).under(plane, 0.0).unwrap();
            let margins = DIVISIONS.map(|division| Nearness::of(division, nucleus, under).margin);
            for pair in margins.windows(2) {
                prop_assert!(pair[0] <= pair[1] + 1e-9, "{plane:?}: {margins:?}");
            }
        }
    }

    #[test]
    fn the_deeper_the_plane_the_more_margin((nucleus, depth) in eyes()) {
        for division in DIVISIONS {
            let margins: Vec<f64> = WorkingPlane::ALL
                .into_iter()
                .filter_map(|plane| space(depth).under(plane, 0.0))
                .map(|under| Nearness::of(division, nucleus, under).margin)
                .collect();
            for pair in margins.windows(2) {
                prop_assert!(pair[1] < pair[0], "{division:?}: {margins:?}");
            }
        }
    }

    #[test]
    fn what_never_touches_in_the_worst_direction_touches_in_none((nucleus, depth) in eyes()) {
        let under = space(depth).under(WorkingPlane::Pupil, 0.0).unwrap();
        for division in DIVISIONS {
            let near = Nearness::of(division, nucleus, under);
            prop_assert!(near.worst <= near.margin);
            prop_assert!((0.0..=1.0).contains(&near.touch_share));
            if 0.0 < near.worst {
                prop_assert!(near.touch_share == 0.0);
            }
        }
    }

    /// A millimeter of depth is worth a little less than one of margin at the pupil plane; the ends of
    /// the printed range of nuclei and depths.
    #[test]
    fn depth_is_worth_nearly_itself(
        diameter in 7.0..9.0_f64, flatness in 0.42..0.5_f64, depth in 1.5..3.4_f64
    ) {
        let nucleus = spheroid(diameter, diameter * flatness);
        for division in DIVISIONS {
            let slopes = Slopes::of(division, nucleus, space(depth), WorkingPlane::Pupil).unwrap();
            prop_assert!((0.9..=1.0).contains(&slopes.depth), "{division:?}: {slopes:?}");
            prop_assert!(slopes.diameter <= 0.0 && slopes.thickness <= 0.0, "{slopes:?}");
        }
    }

    #[test]
    fn a_whole_nucleus_clears_more_the_deeper_it_lies((nucleus, depth) in eyes()) {
        let clearance = |distance| nucleus.clearance_lying_flat(at(distance));
        prop_assert!(clearance(depth) < clearance(depth + 0.1));
        // The depth it needs for the clearance it has is the depth it has.
        let needed = nucleus.depth_needed(clearance(depth), 6.4);
        prop_assert!((needed - depth).abs() < 1e-9, "{needed} for {depth}");
    }

    #[test]
    fn iris_and_capsule_fall_back_no_farther_in_a_deeper_chamber_or_on_a_wider_pupil(
        (nucleus, depth) in eyes(), pupil in 2.0..9.0_f64
    ) {
        let retreat = |depth, pupil| nucleus.retreat(depth, 6.4, nucleus.lift_on(pupil));
        prop_assert!(retreat(depth + 0.1, pupil) <= retreat(depth, pupil));
        prop_assert!(retreat(depth, pupil + 0.1) <= retreat(depth, pupil));
    }
}

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Cloud {
    diameter_mm: f64,
    thickness_mm: f64,
    back_radius_mm: f64,
    distance_mm: f64,
    pieces: u8,
    margin_mm: f64,
    worst_mm: f64,
    touch_share: f64,
}

/// A cloud of points turned into thousands of directions; its own grain is a few micrometers, and a
/// point or two in a hundred of the share that touches.
#[test]
fn brute_force_agrees() {
    let mut count = 0;
    for row in table("tests/check-values/proximity_cloud.csv").into_deserialize() {
        let row: Cloud = row.unwrap();
        let under = Under {
            back_radius: row.back_radius_mm,
            distance: row.distance_mm,
        };
        let nucleus = spheroid(row.diameter_mm, row.thickness_mm);
        let near = Nearness::of(of_pieces(row.pieces), nucleus, under);
        for (what, found, expected, tolerance) in [
            ("margin", near.margin, row.margin_mm, 0.005),
            ("worst", near.worst, row.worst_mm, 0.005),
            ("touching", near.touch_share, row.touch_share, 0.02),
        ] {
            assert!(
                (found - expected).abs() <= tolerance,
                "{what} of {nucleus:?} in {}: {found} for {expected}",
                row.pieces
            );
        }
        count += 1;
    }
    assert_eq!(count, 28);
}
