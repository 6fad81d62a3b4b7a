//! Dividing the nucleus: sectors, rings and layers, and how long the longest piece is.
//!
//! # Equation
//!
//! ```text
//! n = sectors × rings × layers       sector angle θ = 360°/sectors
//! a piece is   θ wide, ρ between two radii, z between two heights, inside (ρ/a)² + (z/b)² ≤ 1
//! ring boundaries at equal steps of ρ   layer boundary at z = 0
//! largest dimension² = max over ρ1, ρ2 of  ρ1² + ρ2² − 2·ρ1·ρ2·cos θ + h(ρ1, ρ2)²
//! h = z(ρ1) + z(ρ2) in one layer;  max(z(ρ1), z(ρ2)) in two       z(ρ) = b·√(1 − (ρ/a)²)
//! ```
//!
//! The distance between two points of a piece grows with the angle between them, so the farthest
//! two lie in its two cut faces, an angle θ apart; what remains is a search over two radii.

use super::Nucleus;
use crate::quantity::{Millimeters, math};

/// A way of dividing the nucleus.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Division {
    /// Wedges around the axis.
    pub sectors: u8,
    /// Rings of each wedge, cut at equal steps of its radius.
    pub rings: u8,
    /// Layers, split at the equatorial plane.
    pub layers: u8,
}

const fn division(sectors: u8, rings: u8, layers: u8) -> Division {
    Division {
        sectors,
        rings,
        layers,
    }
}

/// The divisions shown: 4, 6, 8, 12, 16, 24 and 32 pieces (assumption).
pub const DIVISIONS: [Division; 7] = [
    division(4, 1, 1),
    division(6, 1, 1),
    division(8, 1, 1),
    division(6, 2, 1),
    division(8, 2, 1),
    division(8, 3, 1),
    division(8, 2, 2),
];

/// Starting grid of the search over the two radii.
const GRID: u8 = 24;
/// Halvings of the step after the grid: from a twenty-fourth of 5 mm to under a nanometer.
const HALVINGS: u8 = 28;

impl Division {
    pub const fn pieces(self) -> u8 {
        self.sectors * self.rings * self.layers
    }

    /// The division with so many pieces, if it is one of [`DIVISIONS`].
    pub fn with_pieces(pieces: u8) -> Option<Self> {
        DIVISIONS
            .into_iter()
            .find(|division| division.pieces() == pieces)
    }

    /// Largest dimension of the longest piece.
    pub fn largest_dimension(self, nucleus: Nucleus) -> Millimeters {
        let a = nucleus.equatorial_radius().mm();
        let step = a / f64::from(self.rings);
        let longest = (0..self.rings)
            .map(|ring| {
                let inner = f64::from(ring) * step;
                self.longest_in_ring(nucleus, inner, inner + step)
            })
            .fold(0.0, f64::max);
        Millimeters::new(longest)
    }

    fn longest_in_ring(self, nucleus: Nucleus, inner: f64, outer: f64) -> f64 {
        let step = (outer - inner) / f64::from(GRID);
        let mut best = (inner, inner, 0.0);
        for row in 0..=GRID {
            for column in 0..=row {
                let (r1, r2) = (
                    inner + f64::from(row) * step,
                    inner + f64::from(column) * step,
                );
                best = longer(best, (r1, r2, self.squared_distance(nucleus, r1, r2)));
            }
        }
        // The squared distance is smooth in both radii, so closing in on the best grid point finds
        // the maximum.
        let mut step = step;
        for _ in 0..HALVINGS {
            step /= 2.0;
            let (r1, r2, _) = best;
            for r1 in [r1 - step, r1, r1 + step] {
                for r2 in [r2 - step, r2, r2 + step] {
                    let (r1, r2) = (r1.clamp(inner, outer), r2.clamp(inner, outer));
                    best = longer(best, (r1, r2, self.squared_distance(nucleus, r1, r2)));
                }
            }
        }
        best.2.sqrt()
    }

    fn squared_distance(self, nucleus: Nucleus, r1: f64, r2: f64) -> f64 {
        let (a, b) = (
            nucleus.equatorial_radius().mm(),
            nucleus.axial_radius().mm(),
        );
        let half_height = |r: f64| b * (1.0 - (r / a) * (r / a)).max(0.0).sqrt();
        let (z1, z2) = (half_height(r1), half_height(r2));
        let height = if self.layers == 1 {
            z1 + z2
        } else {
            z1.max(z2)
        };
        let cosine = math::cos((360.0 / f64::from(self.sectors)).to_radians());
        r1 * r1 + r2 * r2 - 2.0 * r1 * r2 * cosine + height * height
    }
}

fn longer(best: (f64, f64, f64), found: (f64, f64, f64)) -> (f64, f64, f64) {
    if best.2 < found.2 { found } else { best }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Micrometers;

    fn nucleus(diameter_um: i32, thickness_um: i32) -> Nucleus {
        Nucleus::new(
            Micrometers::new(diameter_um),
            Micrometers::new(thickness_um),
        )
        .unwrap()
    }

    #[test]
    fn the_divisions_are_those_named() {
        assert_eq!(DIVISIONS.map(Division::pieces), [4, 6, 8, 12, 16, 24, 32]);
    }

    /// By hand: a quarter of a sphere of 7 mm spans its whole thickness; a quarter of
    /// a flat disc (9 × 1.5 mm) spans at least the chord of its rim, 2·4.5·sin 45° = 6.36396 mm.
    #[test]
    fn by_hand() {
        let quarter = DIVISIONS[0];
        let sphere = nucleus(7_000, 7_000);
        assert!((quarter.largest_dimension(sphere).mm() - 7.0).abs() < 1e-6);
        let disc = nucleus(9_000, 1_500);
        assert!(6.3639 < quarter.largest_dimension(disc).mm());
    }

    /// More pieces are never longer, for any nucleus as thick as published ones are (at least 0.4 of
    /// their diameter).
    #[test]
    fn more_pieces_are_never_longer() {
        for diameter in (3_000..=10_000).step_by(250) {
            for thickness in (1_500..=diameter.min(7_000)).step_by(250) {
                if thickness * 10 < diameter * 4 {
                    continue;
                }
                let nucleus = nucleus(diameter, thickness);
                let sizes = DIVISIONS.map(|division| division.largest_dimension(nucleus).mm());
                for pair in sizes.windows(2) {
                    assert!(
                        pair[1] <= pair[0] + 1e-9,
                        "{diameter} × {thickness}: {sizes:?}"
                    );
                }
            }
        }
    }
}
