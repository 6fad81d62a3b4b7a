//! A piece that turns freely about its middle under the cornea: how near it comes, over all
//! directions, as a sum over fixed cells of the sphere of directions.
//!
//! ```text
//! the back of the cornea is a sphere, so a pose is one unit vector u toward it, in the piece's frame
//! V = (r2 − d)·u − C      clearance(u) = r2 − max over the points g of the piece of |V + g|
//! Vh = √(Vx² + Vy²)       p = Vh where Vx ≥ Vh·cos α, else Vx·cos α + Vy·sin α
//! max² = Vh² + max over k = 0..16 of ρk·(ρk + 2p) + w
//! tk = t1 + (t2 − t1)·k/16    ρk = a·sin tk    zk = b·cos tk
//! w  = (|Vz| + zk)² in one layer;  max((Vz + zk)², Vz²) in two
//! cells: cos β = (i + ½)/12, ψ = π·(j + ½)/24, u = (sin β cos ψ, sin β sin ψ, cos β), equal weights;
//! i = 0..11 in one layer, −12..11 in two; j = 0..23
//! ```

use core::f64::consts::PI;
use std::sync::LazyLock;

use super::Piece;
use crate::quantity::math;

/// Steps along the outline of a piece, from its inner to its outer edge.
const OUTLINE: usize = 17;
/// Cells of a quarter turn of β, and of a half turn of ψ.
const BETA: u8 = 12;
const PSI: u8 = 24;

/// Directions over the equator first, then the same under it.
static DIRECTIONS: LazyLock<Vec<[f64; 3]>> = LazyLock::new(|| {
    let half = |sign: f64| {
        (0..BETA).flat_map(move |i| {
            let up = (f64::from(i) + 0.5) / f64::from(BETA);
            let out = (1.0 - up * up).sqrt();
            (0..PSI).map(move |j| {
                let psi = PI * (f64::from(j) + 0.5) / f64::from(PSI);
                [out * math::cos(psi), out * math::sin(psi), sign * up]
            })
        })
    };
    half(1.0).chain(half(-1.0)).collect()
});

/// Where a piece turns: radius of the corneal back and distance of the piece's middle from it, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Under {
    pub back_radius: f64,
    pub distance: f64,
}

/// A piece with the points of its outline that can be the farthest.
struct Outline<'a> {
    piece: &'a Piece,
    /// From the axis, and over the equator.
    points: [[f64; 2]; OUTLINE],
}

impl<'a> Outline<'a> {
    fn of(piece: &'a Piece) -> Self {
        let [t1, t2] = piece.angles();
        let mut points = [[0.0; 2]; OUTLINE];
        for (step, point) in (0_u8..).zip(&mut points) {
            let t = t1 + (t2 - t1) * f64::from(step) / 16.0;
            *point = [
                piece.nucleus.across * math::sin(t),
                piece.nucleus.along * math::cos(t),
            ];
        }
        Self { piece, points }
    }

    fn clearance(&self, under: Under, [ux, uy, uz]: [f64; 3]) -> f64 {
        let piece = self.piece;
        let from_center = under.back_radius - under.distance;
        let [out, up] = piece.centroid;
        let (vx, vy, vz) = (
            from_center * ux - out,
            from_center * uy,
            from_center * uz - up,
        );
        let level = (vx * vx + vy * vy).sqrt();
        let along = if level * piece.cos_half_angle <= vx {
            level
        } else {
            vx * piece.cos_half_angle + vy * piece.sin_half_angle
        };
        // From below everything: the term can be negative.
        let mut farthest = f64::NEG_INFINITY;
        for [rho, z] in self.points {
            let height = if piece.layers == 1 {
                let reach = vz.abs() + z;
                reach * reach
            } else {
                let (top, bottom) = ((vz + z) * (vz + z), vz * vz);
                if top < bottom { bottom } else { top }
            };
            let found = rho * (rho + 2.0 * along) + height;
            if farthest < found {
                farthest = found;
            }
        }
        under.back_radius - (level * level + farthest).max(0.0).sqrt()
    }
}

impl Piece {
    fn directions(&self) -> &'static [[f64; 3]] {
        let all = DIRECTIONS.as_slice();
        match self.layers {
            1 => all.get(..all.len() / 2).unwrap_or(all),
            _ => all,
        }
    }

    /// Its clearance in each cell, mm.
    pub fn clearances(&self, under: Under) -> Vec<f64> {
        let outline = Outline::of(self);
        let cells = self.directions().iter();
        cells
            .map(|direction| outline.clearance(under, *direction))
            .collect()
    }

    /// The mean of its clearance over all directions, mm.
    pub fn mean_clearance(&self, under: Under) -> f64 {
        let outline = Outline::of(self);
        let cells = self.directions();
        let sum: f64 = cells
            .iter()
            .map(|direction| outline.clearance(under, *direction))
            .sum();
        sum / count(cells.len())
    }

    /// Its clearance lying flat, its axis toward the cornea, mm.
    pub fn clearance_lying_flat(&self, under: Under) -> f64 {
        Outline::of(self).clearance(under, [0.0, 0.0, 1.0])
    }
}

/// A number of cells.
pub(super) fn count(cells: usize) -> f64 {
    f64::from(u32::try_from(cells).unwrap_or(u32::MAX))
}
