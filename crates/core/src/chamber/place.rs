//! Where in the chamber the pieces are worked on, and how far that is from the endothelium.
//!
//! ```text
//! p = D + LT/2 in the bag    D in the pupil plane    D/2 in the middle of the chamber
//! d = r2 − √((r2 − p)² + x²)     the cornea's back is a sphere, so this is exact
//! ```

use serde::{Deserialize, Serialize};

use super::turning::Under;

/// The plane of the middle of a piece while it is worked on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WorkingPlane {
    /// Half the lens behind the pupil plane.
    Bag,
    Pupil,
    /// Half way between endothelium and pupil plane.
    Chamber,
}

impl WorkingPlane {
    /// From the deepest forward.
    pub const ALL: [Self; 3] = [Self::Bag, Self::Pupil, Self::Chamber];
}

/// The chamber as it is worked in, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Space {
    /// Endothelium to pupil plane, with what irrigation adds.
    pub depth: f64,
    /// Radius of the corneal back.
    pub back_radius: f64,
    pub lens_thickness: f64,
}

impl Space {
    /// Volume of the chamber over the pupil plane, mm³.
    pub fn volume(&self) -> f64 {
        core::f64::consts::PI * self.depth * self.depth * (3.0 * self.back_radius - self.depth)
            / 3.0
    }

    /// The middle of a piece in a plane, so far off the axis. Nothing at or behind the middle of the
    /// corneal sphere, from where the nearest part of that sphere is no cornea.
    pub fn under(&self, plane: WorkingPlane, off_axis: f64) -> Option<Under> {
        let depth = match plane {
            WorkingPlane::Bag => self.depth + self.lens_thickness / 2.0,
            WorkingPlane::Pupil => self.depth,
            WorkingPlane::Chamber => self.depth / 2.0,
        };
        let to_middle = self.back_radius - depth;
        (0.0 < to_middle).then(|| Under {
            back_radius: self.back_radius,
            distance: self.back_radius - (to_middle * to_middle + off_axis * off_axis).sqrt(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 6.4 − 3.9 = 2.5 mm before the middle of the sphere; with 6 mm aside √(6.25 + 36) =
    /// 6.5 mm, so 0.1 mm outside the sphere.
    #[test]
    fn the_distance_is_that_to_the_sphere() {
        let space = Space {
            depth: 3.9,
            back_radius: 6.4,
            lens_thickness: 4.0,
        };
        let distance = |plane, off_axis| space.under(plane, off_axis).unwrap().distance;
        for (plane, off_axis, expected) in [
            (WorkingPlane::Pupil, 0.0, 3.9),
            (WorkingPlane::Pupil, 6.0, -0.1),
            (WorkingPlane::Bag, 0.0, 5.9),
            (WorkingPlane::Chamber, 0.0, 1.95),
        ] {
            let found = distance(plane, off_axis);
            assert!((found - expected).abs() < 1e-12, "{plane:?}: {found}");
        }
    }

    #[test]
    fn behind_the_middle_of_the_sphere_there_is_no_distance() {
        let space = Space {
            depth: 4.4,
            back_radius: 6.4,
            lens_thickness: 4.0,
        };
        assert_eq!(space.under(WorkingPlane::Bag, 0.0), None);
        assert!(space.under(WorkingPlane::Pupil, 0.0).is_some());
    }
}
