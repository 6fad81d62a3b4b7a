//! How sure a margin is: from the spread of the depth and of the size of the nucleus.
//!
//! ```text
//! SD² = (mD·σD)² + (md·σd)² + (mt·σt)² + 2ρ·md·σd·mt·σt     80 %: ± 1.2815515655 SD
//! slopes by central differences, ± 0.05 mm in depth, diameter, thickness
//! ```

use super::nearness::margin;
use super::{Division, Space, Spheroid, WorkingPlane};

/// Half width of the middle 80 % of a normal distribution, in standard deviations.
pub const EIGHTY_PERCENT: f64 = 1.281_551_565_5;
/// Correlation of diameter and thickness of a nucleus (assumption).
const CORRELATION: f64 = 0.5;
const STEP: f64 = 0.05;

/// One standard deviation of what a margin rests on, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InputSpread {
    pub depth: f64,
    pub diameter: f64,
    pub thickness: f64,
}

/// How a margin moves with what it rests on, mm per mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slopes {
    pub depth: f64,
    pub diameter: f64,
    pub thickness: f64,
}

impl Slopes {
    /// Of a division at a plane, on the axis; nothing where the plane has no distance.
    pub fn of(
        division: Division,
        nucleus: Spheroid,
        space: Space,
        plane: WorkingPlane,
    ) -> Option<Self> {
        let at = |nucleus: Spheroid, space: Space| {
            let under = space.under(plane, 0.0)?;
            Some(margin(division, nucleus, under))
        };
        let deeper = |by: f64| Space {
            depth: space.depth + by,
            ..space
        };
        let wider = |by: f64| Spheroid {
            across: nucleus.across + by / 2.0,
            ..nucleus
        };
        let thicker = |by: f64| Spheroid {
            along: nucleus.along + by / 2.0,
            ..nucleus
        };
        let slope = |high: f64, low: f64| (high - low) / (2.0 * STEP);
        Some(Self {
            depth: slope(at(nucleus, deeper(STEP))?, at(nucleus, deeper(-STEP))?),
            diameter: slope(at(wider(STEP), space)?, at(wider(-STEP), space)?),
            thickness: slope(at(thicker(STEP), space)?, at(thicker(-STEP), space)?),
        })
    }

    /// One standard deviation of the margin, mm.
    pub fn deviation(&self, spread: InputSpread) -> f64 {
        let depth = self.depth * spread.depth;
        let diameter = self.diameter * spread.diameter;
        let thickness = self.thickness * spread.thickness;
        let squared = depth * depth
            + diameter * diameter
            + thickness * thickness
            + 2.0 * CORRELATION * diameter * thickness;
        squared.max(0.0).sqrt()
    }
}
