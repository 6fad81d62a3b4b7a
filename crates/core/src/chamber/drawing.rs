//! Places of the section for a drawing, millimeters beside the axis and under the corneal vertex.
//! The desk and the sheet draw the same places.

use super::{ChamberSection, LENS_DIAMETER, Nucleus};
use crate::biometry::DepthStart;
use crate::quantity::{Micrometers, Millimeters, math};

/// Thickness of the iris, for the drawing only (assumption), mm.
pub const IRIS_MM: f64 = 0.35;
/// Places along a curve.
const STEPS: u8 = 48;

/// From −1 to 1.
fn steps() -> impl Iterator<Item = f64> {
    (0..=STEPS).map(|step| f64::from(step) / f64::from(STEPS) * 2.0 - 1.0)
}

/// A spherical surface: depth `vertex + r − √(r² − x²)`.
pub fn sphere(vertex_mm: f64, radius_mm: f64, half_mm: f64) -> Vec<[f64; 2]> {
    steps()
        .map(|step| {
            let x = step * half_mm;
            // Half is less than the radius, so that only rounding could bring a square below zero.
            let inside = (radius_mm * radius_mm - x * x).max(0.0);
            [x, vertex_mm + radius_mm - inside.sqrt()]
        })
        .collect()
}

/// An ellipse around a place.
pub fn ellipse([x, depth]: [f64; 2], [across, along]: [f64; 2]) -> Vec<[f64; 2]> {
    steps()
        .map(|step| step * core::f64::consts::PI)
        .map(|angle| {
            [
                x + across * math::cos(angle),
                depth + along * math::sin(angle),
            ]
        })
        .collect()
}

impl ChamberSection {
    /// Where the back of the cornea meets the pupil plane; half the corneal diameter where the
    /// sphere reaches farther, mm.
    pub fn angle_mm(&self) -> f64 {
        let (radius, depth) = (self.back_radius.mm(), self.aqueous_depth.mm());
        let height = radius - depth;
        let reach = (radius * radius - height * height).max(0.0).sqrt();
        match self.corneal_diameter {
            Some(diameter) => reach.min(diameter.mm() / 2.0),
            None => reach,
        }
    }

    /// Half the width of the cornea that is drawn, mm.
    pub fn half_cornea_mm(&self) -> f64 {
        let half = match self.corneal_diameter {
            Some(diameter) => diameter.mm() / 2.0,
            None => self.angle_mm() + self.endothelium.mm(),
        };
        half.min(self.front_radius.mm() * 0.95)
    }

    /// Depth of a limit's line from the corneal vertex, mm.
    pub fn limit_mm(&self, (limit, start): (Micrometers, DepthStart)) -> f64 {
        let from_start = limit.millimeters().mm();
        match start {
            DepthStart::Epithelium => from_start,
            DepthStart::Endothelium => self.endothelium.mm() + from_start,
        }
    }

    /// Width and depth of what is drawn, mm, from the corneal vertex down.
    pub fn extent_mm(
        &self,
        limit: (Micrometers, DepthStart),
        nucleus: Option<Nucleus>,
    ) -> [f64; 2] {
        // Under the pupil plane where no lens is drawn.
        const BELOW_MM: f64 = 1.5;
        let half = self.half_cornea_mm().max(LENS_DIAMETER.mm() / 2.0);
        let plane = self.pupil_plane.mm();
        let back = self.lens_back.map_or(plane + BELOW_MM, Millimeters::mm);
        // No piece is longer than the nucleus is wide. The room of one piece would do for itself, and
        // the picture would grow and shrink from piece to piece.
        let piece = nucleus.map_or(0.0, |nucleus| plane + nucleus.equatorial_radius().mm());
        [2.0 * half, back.max(self.limit_mm(limit)).max(piece)]
    }

    /// The measured depth, from the surface a limit counts from.
    pub const fn depth_from(&self, start: DepthStart) -> Millimeters {
        match start {
            DepthStart::Epithelium => self.pupil_plane,
            DepthStart::Endothelium => self.aqueous_depth,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn section() -> ChamberSection {
        ChamberSection {
            front_radius: Millimeters::new(7.7),
            back_radius: Millimeters::new(6.24),
            back_radius_measured: false,
            endothelium: Millimeters::new(0.54),
            pupil_plane: Millimeters::new(2.55),
            aqueous_depth: Millimeters::new(2.01),
            corneal_diameter: Some(Millimeters::new(11.4)),
            pupil_diameter: Some(Millimeters::new(6.8)),
            lens_back: Some(Millimeters::new(7.6)),
        }
    }

    /// By hand: √(6.24² − (6.24 − 2.01)²) = √(38.9376 − 17.8929) = 4.5875 mm.
    #[test]
    fn the_back_of_the_cornea_meets_the_pupil_plane_where_the_sphere_says() {
        assert!((section().angle_mm() - 4.5875).abs() < 1e-4);
    }

    /// By hand: at the edge the front has sunk 7.7 − √(7.7² − 5.7²) = 2.5231 mm.
    #[test]
    fn the_front_is_the_sphere_of_the_keratometry() {
        let places = sphere(0.0, 7.7, 5.7);
        let (first, middle) = (places.first().unwrap(), &places[24]);
        assert!((first[0] + 5.7).abs() < 1e-9 && (first[1] - 2.5231).abs() < 1e-4);
        assert!(middle[0].abs() < 1e-9 && middle[1].abs() < 1e-9);
    }

    #[test]
    fn a_limit_counts_from_its_own_surface() {
        let limit = Micrometers::new(2_800);
        let at = |start| section().limit_mm((limit, start));
        assert!((at(DepthStart::Epithelium) - 2.80).abs() < 1e-9);
        assert!((at(DepthStart::Endothelium) - 3.34).abs() < 1e-9);
    }

    /// Nothing that can be typed makes a place that cannot be drawn.
    #[test]
    fn every_eye_that_can_be_typed_has_places_that_can_be_drawn() {
        for back in [4.0, 6.24, 9.0] {
            for depth in [0.2, 2.0, 6.0] {
                for diameter in [None, Some(9.0), Some(14.0)] {
                    let mut section = section();
                    section.back_radius = Millimeters::new(back);
                    section.aqueous_depth = Millimeters::new(depth);
                    section.corneal_diameter = diameter.map(Millimeters::new);
                    let half = section.half_cornea_mm();
                    let places = sphere(0.0, section.front_radius.mm(), half);
                    assert!(places.iter().flatten().all(|place| place.is_finite()));
                    assert!(section.angle_mm().is_finite() && 0.0 < half);
                    let limit = (Micrometers::new(2_800), DepthStart::Epithelium);
                    let extent = section.extent_mm(limit, None);
                    assert!(extent.iter().all(|extent| 0.0 < *extent));
                }
            }
        }
    }

    /// By hand: it begins and ends left of its place, and passes below, right and above it.
    #[test]
    fn an_ellipse_goes_once_around_its_place() {
        let places = ellipse([1.0, 2.0], [3.0, 0.5]);
        for (step, [x, depth]) in [
            (0, [-2.0, 2.0]),
            (12, [1.0, 1.5]),
            (24, [4.0, 2.0]),
            (36, [1.0, 2.5]),
            (48, [-2.0, 2.0]),
        ] {
            let found = places[step];
            assert!((found[0] - x).abs() < 1e-12, "{step}: {found:?}");
            assert!((found[1] - depth).abs() < 1e-12, "{step}: {found:?}");
        }
    }
}
