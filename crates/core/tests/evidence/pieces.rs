//! Largest dimension of a piece: against brute force in Python, and against the one closed form.

use millrace_core::chamber::{DIVISIONS, Division, Nucleus};
use millrace_core::quantity::Micrometers;

use crate::support::table;

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    diameter_mm: f64,
    thickness_mm: f64,
    pieces: u8,
    largest_mm: f64,
}

fn nucleus(diameter_mm: f64, thickness_mm: f64) -> Nucleus {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a few thousand micrometers"
    )]
    let exact = |mm: f64| Micrometers::new((mm * 1000.0).round() as i32);
    Nucleus::new(exact(diameter_mm), exact(thickness_mm)).unwrap()
}

/// Brute force finds points that exist, so the program may not find less; and with its grid it
/// misses a few micrometers at most.
#[test]
fn brute_force_finds_no_longer_piece() {
    let mut count = 0;
    for row in table("tests/check-values/pieces.csv").into_deserialize() {
        let row: Row = row.unwrap();
        let division = Division::with_pieces(row.pieces).unwrap();
        let nucleus = nucleus(row.diameter_mm, row.thickness_mm);
        let found = division.largest_dimension(nucleus).mm();
        let at = format!("{} × {}, {}", row.diameter_mm, row.thickness_mm, row.pieces);
        // The table has six decimals.
        assert!(
            row.largest_mm <= found + 1e-6,
            "{at}: {found} < {}",
            row.largest_mm
        );
        assert!(
            found - row.largest_mm < 0.005,
            "{at}: {found} > {}",
            row.largest_mm
        );
        count += 1;
    }
    assert_eq!(count, 63);
}

/// Six or more full wedges of a flat nucleus (a² ≥ 2b²) are longest from a pole to the far rim:
/// a²/√(a² − b²).
#[test]
fn flat_wedges_meet_the_closed_form() {
    for diameter in (3_000..=10_000).step_by(250) {
        for thickness in (1_500..=7_000).step_by(250) {
            let (a, b) = (
                f64::from(diameter) / 2_000.0,
                f64::from(thickness) / 2_000.0,
            );
            if a * a < 2.0 * b * b {
                continue;
            }
            let nucleus =
                Nucleus::new(Micrometers::new(diameter), Micrometers::new(thickness)).unwrap();
            let expected = a * a / (a * a - b * b).sqrt();
            for division in DIVISIONS
                .into_iter()
                .filter(|d| d.rings == 1 && 6 <= d.sectors)
            {
                let found = division.largest_dimension(nucleus).mm();
                assert!(
                    (found - expected).abs() < 1e-6,
                    "{diameter} × {thickness}: {found}"
                );
            }
        }
    }
}
