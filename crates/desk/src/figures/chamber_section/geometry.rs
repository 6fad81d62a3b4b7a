//! Places of the section as the screen takes them; the geometry is core's.

use millrace_core::chamber::drawing;
use millrace_core::quantity::Millimeters;

use super::ChamberFigure;

/// Thickness of the iris, mm.
pub(super) const IRIS_MM: f32 = single(drawing::IRIS_MM);

#[expect(
    clippy::cast_possible_truncation,
    reason = "a picture needs no more than single precision"
)]
pub(super) const fn single(number: f64) -> f32 {
    number as f32
}

pub(super) const fn mm(length: Millimeters) -> f32 {
    single(length.mm())
}

fn places(places: Vec<[f64; 2]>) -> Vec<[f32; 2]> {
    places.into_iter().map(|place| place.map(single)).collect()
}

pub(super) fn sphere(vertex_mm: f32, radius_mm: f32, half_mm: f32) -> Vec<[f32; 2]> {
    let [vertex, radius, half] = [vertex_mm, radius_mm, half_mm].map(f64::from);
    places(drawing::sphere(vertex, radius, half))
}

pub(super) fn ellipse(center: [f32; 2], half_axes: [f32; 2]) -> Vec<[f32; 2]> {
    places(drawing::ellipse(
        center.map(f64::from),
        half_axes.map(f64::from),
    ))
}

impl ChamberFigure<'_> {
    pub(super) fn angle_mm(&self) -> f32 {
        single(self.section.angle_mm())
    }

    pub(super) fn half_cornea_mm(&self) -> f32 {
        single(self.section.half_cornea_mm())
    }

    pub(super) fn limit_mm(&self) -> f32 {
        single(self.section.limit_mm(self.limit))
    }

    pub(super) fn extent_mm(&self) -> [f32; 2] {
        self.section.extent_mm(self.limit, self.nucleus).map(single)
    }

    pub(super) fn depth_from_start(&self) -> Millimeters {
        self.section.depth_from(self.limit.1)
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::biometry::DepthStart;
    use millrace_core::chamber::ChamberSection;
    use millrace_core::quantity::Micrometers;

    use millrace_wording::Words;

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
            shown: None,
            limit: (Micrometers::new(2_800), DepthStart::Epithelium),
        }
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
        let words = figure(&section).words(Words::ENGLISH);
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
