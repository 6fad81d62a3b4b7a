//! How near the pieces of a division come, as numbers of the division.

use core::cmp::Ordering;

use super::turning::{Under, count};
use super::{Division, Piece, Spheroid};

/// How near the pieces of one division come to the endothelium, at rest, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearness {
    /// Mean clearance over all directions, of the piece with the least.
    pub margin: f64,
    /// Clearance in the most unfavorable direction of all.
    pub worst: f64,
    /// What the clearance is at least in nine directions of ten, of the piece with the least mean.
    pub nine_in_ten: f64,
    /// Share of directions in which a piece touches, pieces counted by their volume, 0 to 1.
    pub touch_share: f64,
    /// Least clearance of a piece lying flat.
    pub lying_flat: f64,
    /// The piece with the least mean clearance.
    pub nearest: Piece,
}

impl Nearness {
    /// Of the pieces of a division whose middle lies where they turn.
    pub fn of(division: Division, nucleus: Spheroid, under: Under) -> Self {
        let mut nearest = NearestPiece::none(Piece::of_ring(division, nucleus, 0));
        let (mut touching, mut volume) = (0.0, 0.0);
        let (mut worst, mut lying_flat) = (f64::INFINITY, f64::INFINITY);
        for piece in Piece::all(division, nucleus) {
            let cells = piece.clearances(under);
            let touches = cells.iter().filter(|clearance| **clearance <= 0.0).count();
            touching += piece.volume() * count(touches) / count(cells.len());
            volume += piece.volume();
            worst = worst.min(under.distance - piece.turning_radius());
            lying_flat = lying_flat.min(piece.clearance_lying_flat(under));
            nearest = nearest.or_nearer(piece, cells);
        }
        Self {
            margin: nearest.mean,
            worst,
            nine_in_ten: nearest.nine_in_ten(),
            // Where everything touches, rounding may leave a last digit over one.
            touch_share: (touching / volume).min(1.0),
            lying_flat,
            nearest: nearest.piece,
        }
    }
}

/// The least mean clearance alone, for slopes.
pub(super) fn margin(division: Division, nucleus: Spheroid, under: Under) -> f64 {
    Piece::all(division, nucleus)
        .map(|piece| piece.mean_clearance(under))
        .fold(f64::INFINITY, f64::min)
}

struct NearestPiece {
    piece: Piece,
    mean: f64,
    cells: Vec<f64>,
}

impl NearestPiece {
    const fn none(piece: Piece) -> Self {
        Self {
            piece,
            mean: f64::INFINITY,
            cells: Vec::new(),
        }
    }

    fn or_nearer(self, piece: Piece, cells: Vec<f64>) -> Self {
        let mean = cells.iter().sum::<f64>() / count(cells.len());
        if mean < self.mean {
            Self { piece, mean, cells }
        } else {
            self
        }
    }

    /// Cells sorted upward, the one at a tenth of them.
    fn nine_in_ten(&self) -> f64 {
        let mut cells = self.cells.clone();
        let at = cells.len() / 10;
        let by_size = |a: &f64, b: &f64| a.partial_cmp(b).unwrap_or(Ordering::Equal);
        if cells.len() <= at {
            return f64::NAN;
        }
        let (_, found, _) = cells.select_nth_unstable_by(at, by_size);
        *found
    }
}
