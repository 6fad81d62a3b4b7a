//! A nucleus that comes out undivided, or in two or three parts: under the cornea, through the
//! capsulorhexis, through the tunnel.
//!
//! ```text
//! A = a² − b²    V = r2 − d
//! clearance = r2 − a·√(1 + V²/A)  where A > 0 and b·V ≤ A (nearest on a ring);  else d − b
//! d needed for clearance c: with rc = r2 − c, V = √(A·((rc/a)² − 1)): r2 − V where A > 0, rc > a and
//! b·V ≤ A;  else b + c
//! lift on a pupil of diameter w = b·√(1 − (w/2a)²), 0 from w = 2a on     retreat = max(0, d needed − (D − lift))
//! P = 2π/M·(a² − ½(a² − b²) − Σ 2ⁿ⁻¹·cₙ²), M the arithmetic-geometric mean of a and b
//! half perimeter: whole P/2; halved lengthwise P/4 + b; the middle of three ½·(arcs over |x| ≤ a/3 + 4b·√(8/9))
//! stretch of a capsulorhexis Dc: on edge P/(π·Dc) − 1; flat 2a/Dc − 1
//! ```

use core::f64::consts::PI;

use serde::{Deserialize, Serialize};

use super::Spheroid;
use super::turning::Under;
use crate::quantity::math;

/// In how many parts a nucleus passes the tunnel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Delivery {
    Whole,
    Halves,
    Thirds,
}

impl Delivery {
    /// From one part up.
    pub const ALL: [Self; 3] = [Self::Whole, Self::Halves, Self::Thirds];
}

/// Steps of the arithmetic-geometric mean, and of the arcs of a middle third.
const MEANS: u8 = 8;
const ARC: u8 = 64;

impl Spheroid {
    fn focal(self) -> f64 {
        self.across * self.across - self.along * self.along
    }

    /// Least distance to the cornea of the whole nucleus lying flat with its middle there, mm.
    pub fn clearance_lying_flat(self, under: Under) -> f64 {
        let (focal, from_center) = (self.focal(), under.back_radius - under.distance);
        if 0.0 < focal && self.along * from_center <= focal {
            let ring = (1.0 + from_center * from_center / focal).sqrt();
            under.back_radius - self.across * ring
        } else {
            under.distance - self.along
        }
    }

    /// Depth of its middle from which it lies flat with such a clearance, mm.
    pub fn depth_needed(self, clearance: f64, back_radius: f64) -> f64 {
        let (focal, inner) = (self.focal(), back_radius - clearance);
        if 0.0 < focal && self.across < inner {
            let ratio = inner / self.across;
            let from_center = (focal * (ratio * ratio - 1.0)).sqrt();
            if self.along * from_center <= focal {
                return back_radius - from_center;
            }
        }
        self.along + clearance
    }

    /// How far in front of the pupil plane its middle lies where it rests on a pupil, mm.
    pub fn lift_on(self, pupil: f64) -> f64 {
        let share = pupil / (2.0 * self.across);
        self.along * (1.0 - share * share).max(0.0).sqrt()
    }

    /// How far iris and capsule must fall back before it lies free, mm.
    pub fn retreat(self, depth: f64, back_radius: f64, lift: f64) -> f64 {
        (self.depth_needed(0.0, back_radius) - (depth - lift)).max(0.0)
    }

    /// Around its section along the axis, mm.
    pub fn perimeter(self) -> f64 {
        let (mut mean, mut other) = (self.across, self.along);
        let (mut sum, mut power) = (0.0, 1.0);
        for _ in 0..MEANS {
            let half_difference = (mean - other) / 2.0;
            sum += power * half_difference * half_difference;
            power *= 2.0;
            (mean, other) = (f64::midpoint(mean, other), (mean * other).sqrt());
        }
        let across = self.across * self.across;
        2.0 * PI / mean * (across - 0.5 * self.focal() - sum)
    }

    /// Half the way around the smallest section of what passes the tunnel, mm.
    pub fn half_perimeter(self, delivery: Delivery) -> f64 {
        match delivery {
            Delivery::Whole => self.perimeter() / 2.0,
            Delivery::Halves => self.perimeter() / 4.0 + self.along,
            Delivery::Thirds => {
                let cuts = 4.0 * self.along * (8.0_f64 / 9.0).sqrt();
                f64::midpoint(2.0 * self.arc_over_middle_third(), cuts)
            }
        }
    }

    fn arc_over_middle_third(self) -> f64 {
        let end = math::asin(1.0 / 3.0);
        let step = 2.0 * end / f64::from(ARC);
        let speed = |angle: f64| {
            let (x, z) = (
                self.across * math::cos(angle),
                self.along * math::sin(angle),
            );
            (x * x + z * z).sqrt()
        };
        (0..ARC)
            .map(|at| speed((f64::from(at) + 0.5) * step - end) * step)
            .sum()
    }

    /// By what share the edge of a capsulorhexis stretches around it as it passes on edge.
    pub fn stretch_on_edge(self, capsulorhexis: f64) -> f64 {
        self.perimeter() / (PI * capsulorhexis) - 1.0
    }

    /// The same as it passes flat.
    pub fn stretch_flat(self, capsulorhexis: f64) -> f64 {
        2.0 * self.across / capsulorhexis - 1.0
    }
}
