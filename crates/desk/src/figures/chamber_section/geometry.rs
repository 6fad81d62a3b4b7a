//! Places of the section, millimeters beside the axis and under the corneal vertex.

use core::f32::consts::PI;

use millrace_core::biometry::DepthStart;
use millrace_core::chamber::LENS_DIAMETER;
use millrace_core::quantity::Millimeters;

use super::ChamberFigure;

/// Thickness of the iris, for the drawing only (assumption), mm.
pub(super) const IRIS_MM: f32 = 0.35;
/// Places along a curve.
const STEPS: u8 = 48;

#[expect(
    clippy::cast_possible_truncation,
    reason = "a picture needs no more than single precision"
)]
pub(super) const fn mm(length: Millimeters) -> f32 {
    length.mm() as f32
}

/// From −1 to 1.
fn steps() -> impl Iterator<Item = f32> {
    (0..=STEPS).map(|step| f32::from(step) / f32::from(STEPS) * 2.0 - 1.0)
}

/// A spherical surface: depth `vertex + r − √(r² − x²)`.
pub(super) fn sphere(vertex_mm: f32, radius_mm: f32, half_mm: f32) -> Vec<[f32; 2]> {
    steps()
        .map(|step| {
            let x = step * half_mm;
            // Half is less than the radius, so that only rounding could bring a square below zero.
            let inside = (radius_mm * radius_mm - x * x).max(0.0);
            [x, vertex_mm + radius_mm - inside.sqrt()]
        })
        .collect()
}

pub(super) fn ellipse([x, depth]: [f32; 2], [across, along]: [f32; 2]) -> Vec<[f32; 2]> {
    steps()
        .map(|step| step * PI)
        .map(|angle| [x + across * angle.cos(), depth + along * angle.sin()])
        .collect()
}

impl ChamberFigure<'_> {
    /// Where the back of the cornea meets the pupil plane; half the corneal diameter where the
    /// sphere reaches farther.
    pub(super) fn angle_mm(&self) -> f32 {
        let section = self.section;
        let (radius, depth) = (mm(section.back_radius), mm(section.aqueous_depth));
        let height = radius - depth;
        let reach = (radius * radius - height * height).max(0.0).sqrt();
        match section.corneal_diameter {
            Some(diameter) => reach.min(mm(diameter) / 2.0),
            None => reach,
        }
    }

    pub(super) fn half_cornea_mm(&self) -> f32 {
        let half = match self.section.corneal_diameter {
            Some(diameter) => mm(diameter) / 2.0,
            None => self.angle_mm() + mm(self.section.endothelium),
        };
        half.min(mm(self.section.front_radius) * 0.95)
    }

    /// Depth of the limit's line from the corneal vertex.
    pub(super) fn limit_mm(&self) -> f32 {
        let (limit, start) = self.limit;
        let from_start = mm(limit.millimeters());
        match start {
            DepthStart::Epithelium => from_start,
            DepthStart::Endothelium => mm(self.section.endothelium) + from_start,
        }
    }

    /// Width and depth of what is drawn, mm, from the corneal vertex down.
    pub(super) fn extent_mm(&self) -> [f32; 2] {
        // Under the pupil plane where no lens is drawn.
        const BELOW_MM: f32 = 1.5;
        let half = self.half_cornea_mm().max(mm(LENS_DIAMETER) / 2.0);
        let plane = mm(self.section.pupil_plane);
        let back = self.section.lens_back.map_or(plane + BELOW_MM, mm);
        // No piece is longer than the nucleus is wide. The room of one piece would do for itself, and
        // the picture would grow and shrink from piece to piece.
        let piece = self
            .nucleus
            .map_or(0.0, |nucleus| plane + mm(nucleus.equatorial_radius()));
        [2.0 * half, back.max(self.limit_mm()).max(piece)]
    }

    /// The measured depth, from the surface the limit counts from.
    pub(super) fn depth_from_start(&self) -> Millimeters {
        match self.limit.1 {
            DepthStart::Epithelium => self.section.pupil_plane,
            DepthStart::Endothelium => self.section.aqueous_depth,
        }
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::chamber::ChamberSection;
    use millrace_core::quantity::Micrometers;

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

    fn figure(section: &ChamberSection) -> ChamberFigure<'_> {
        ChamberFigure {
            section,
            nucleus: None,
            room: None,
            limit: (Micrometers::new(2_800), DepthStart::Epithelium),
        }
    }

    /// By hand: √(6.24² − (6.24 − 2.01)²) = √(38.9376 − 17.8929) = 4.5875 mm.
    #[test]
    fn the_back_of_the_cornea_meets_the_pupil_plane_where_the_sphere_says() {
        let section = section();
        assert!((figure(&section).angle_mm() - 4.5875).abs() < 1e-3);
    }

    /// By hand: at the edge the front has sunk 7.7 − √(7.7² − 5.7²) = 2.5231 mm.
    #[test]
    fn the_front_is_the_sphere_of_the_keratometry() {
        let places = sphere(0.0, 7.7, 5.7);
        let (first, middle) = (places.first().unwrap(), &places[24]);
        assert!((first[0] + 5.7).abs() < 1e-4 && (first[1] - 2.5231).abs() < 1e-3);
        assert!(middle[0].abs() < 1e-4 && middle[1].abs() < 1e-4);
    }

    #[test]
    fn a_limit_counts_from_its_own_surface() {
        let section = section();
        let mut figure = figure(&section);
        assert!((figure.limit_mm() - 2.80).abs() < 1e-5);
        figure.limit.1 = DepthStart::Endothelium;
        assert!((figure.limit_mm() - 3.34).abs() < 1e-5);
    }

    #[test]
    fn words_hold_every_number_of_the_picture() {
        let section = section();
        let words = figure(&section).words();
        for number in [
            "0.54 mm",
            "2.55 mm",
            "2.01 mm",
            "2.80 mm from the epithelium",
            "6.80 mm",
        ] {
            assert!(words.contains(number), "{number}: {words}");
        }
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
                    let figure = figure(&section);
                    let half = figure.half_cornea_mm();
                    let places = sphere(0.0, mm(section.front_radius), half);
                    assert!(places.iter().flatten().all(|place| place.is_finite()));
                    assert!(figure.angle_mm().is_finite() && 0.0 < half);
                    assert!(figure.extent_mm().iter().all(|extent| 0.0 < *extent));
                    for width in [40.0, 300.0, 2_000.0] {
                        let height = figure.height_for(width);
                        assert!(height.is_finite() && 0.0 < height && height < 500.0);
                    }
                }
            }
        }
    }
}
