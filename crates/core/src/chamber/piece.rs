//! A piece of the nucleus: a sector of a ring, through its whole thickness or of its upper half.
//!
//! ```text
//! (ρ/a)² + (z/b)² ≤ 1    half angle α = π/sectors    s1 ≤ ρ/a ≤ s2    z ≥ 0 where there are two layers
//! t = asin s   c = cos t   q = (c1³ − c2³)/3
//! volume = 4/3·π·a²·b·3q/(sectors·layers)
//! Cρ = a·(F(t2) − F(t1))/q · sin α/α    F(t) = (t − sin(4t)/4)/8
//! Cz = 0 in one layer;  b/2·((s2²/2 − s2⁴/4) − (s1²/2 − s1⁴/4))/q in two
//! R² = max over s in {s1, s2} of  ρ² − 2·ρ·Cρ·cos α + Cρ² + v
//! v  = z² in one layer;  max((z − Cz)², Cz²) in two
//! ```

use core::f64::consts::PI;

use super::Division;
use crate::quantity::math;

/// Half axes of an ellipsoid of revolution, mm: across and along its axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spheroid {
    pub across: f64,
    pub along: f64,
}

impl Spheroid {
    /// Height of the surface over the equator at a share of the radius.
    fn height(self, share: f64) -> f64 {
        self.along * (1.0 - share * share).max(0.0).sqrt()
    }

    /// mm³.
    pub fn volume(self) -> f64 {
        4.0 / 3.0 * PI * self.across * self.across * self.along
    }
}

/// One piece, about the axis of the nucleus. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    pub(super) nucleus: Spheroid,
    sectors: f64,
    pub(super) layers: u8,
    /// Its inner and outer radius, as shares of that of the nucleus.
    shares: [f64; 2],
    pub(super) sin_half_angle: f64,
    pub(super) cos_half_angle: f64,
    /// Middle of its volume: from the axis and over the equator.
    pub(super) centroid: [f64; 2],
}

impl Piece {
    /// The pieces of a division that differ, from the axis outward.
    pub fn all(division: Division, nucleus: Spheroid) -> impl Iterator<Item = Self> {
        (0..division.rings).map(move |ring| Self::of_ring(division, nucleus, ring))
    }

    /// The piece of a ring, counted from the axis.
    pub fn of_ring(division: Division, nucleus: Spheroid, ring: u8) -> Self {
        let rings = f64::from(division.rings);
        let shares = [f64::from(ring) / rings, f64::from(ring + 1) / rings];
        let sectors = f64::from(division.sectors);
        let half_angle = PI / sectors;
        let (sin_half_angle, cos_half_angle) = (math::sin(half_angle), math::cos(half_angle));
        let [t1, t2] = shares.map(math::asin);
        let q = cubes(t1, t2);
        let radial = |t: f64| (t - math::sin(4.0 * t) / 4.0) / 8.0;
        let out = nucleus.across * (radial(t2) - radial(t1)) / q * sin_half_angle / half_angle;
        let axial = |s: f64| s * s / 2.0 - s * s * s * s / 4.0;
        let up = match division.layers {
            1 => 0.0,
            _ => nucleus.along / 2.0 * (axial(shares[1]) - axial(shares[0])) / q,
        };
        Self {
            nucleus,
            sectors,
            layers: division.layers,
            shares,
            sin_half_angle,
            cos_half_angle,
            centroid: [out, up],
        }
    }

    /// mm³.
    pub fn volume(&self) -> f64 {
        let [t1, t2] = self.angles();
        let parts = self.sectors * f64::from(self.layers);
        self.nucleus.volume() * 3.0 * cubes(t1, t2) / parts
    }

    /// From the axis of the nucleus and over its equator.
    pub const fn centroid(&self) -> [f64; 2] {
        self.centroid
    }

    /// Along its middle, across it, and its thickness.
    pub fn extents(&self) -> [f64; 3] {
        let (a, [s1, s2]) = (self.nucleus.across, self.shares);
        [
            a * s2 - a * s1 * self.cos_half_angle,
            2.0 * a * s2 * self.sin_half_angle,
            2.0 * self.nucleus.height(s1) / f64::from(self.layers),
        ]
    }

    /// From its middle to its farthest point: what it sweeps as it turns.
    pub fn turning_radius(&self) -> f64 {
        let [out, up] = self.centroid;
        let squared = self.shares.map(|s| {
            let (rho, z) = (self.nucleus.across * s, self.nucleus.height(s));
            let height = match self.layers {
                1 => z * z,
                _ => ((z - up) * (z - up)).max(up * up),
            };
            rho * rho - 2.0 * rho * out * self.cos_half_angle + out * out + height
        });
        squared[0].max(squared[1]).sqrt()
    }

    /// The angle whose sine is the share of the radius, at the inner and the outer edge.
    pub(super) fn angles(&self) -> [f64; 2] {
        self.shares.map(math::asin)
    }
}

fn cubes(t1: f64, t2: f64) -> f64 {
    let [c1, c2] = [t1, t2].map(math::cos);
    (c1 * c1 * c1 - c2 * c2 * c2) / 3.0
}
