//! A section of the anterior chamber to scale, from this eye's own numbers.

use crate::biometry::EyeRecord;
use crate::evidence::{DUBBELMAN_2002, Source, Standing};
use crate::iol_power::thick_lens::POSTERIOR_RATIO;
use crate::quantity::Millimeters;

/// Source of the posterior radius where it was not measured.
pub const POSTERIOR_SOURCE: Source =
    Standing::Printed.of(DUBBELMAN_2002, "posterior radius 0.81 of the anterior");

/// Diameter of the crystalline lens, for the drawing only \[printed: 9.8 mm\].
pub const LENS_DIAMETER: Millimeters = Millimeters::new(9.8);

/// The section: every height is measured along the axis from the corneal vertex.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChamberSection {
    /// Front radius of the cornea (mean of both meridians).
    #[serde(rename = "front_radius_mm")]
    pub front_radius: Millimeters,
    #[serde(rename = "back_radius_mm")]
    pub back_radius: Millimeters,
    pub back_radius_measured: bool,
    /// Corneal thickness: where the endothelium begins.
    #[serde(rename = "endothelium_mm")]
    pub endothelium: Millimeters,
    /// Lens front, taken as the pupil plane.
    #[serde(rename = "pupil_plane_mm")]
    pub pupil_plane: Millimeters,
    /// Aqueous depth: endothelium to pupil plane.
    #[serde(rename = "aqueous_depth_mm")]
    pub aqueous_depth: Millimeters,
    #[serde(rename = "corneal_diameter_mm")]
    pub corneal_diameter: Option<Millimeters>,
    #[serde(rename = "pupil_diameter_mm")]
    pub pupil_diameter: Option<Millimeters>,
    /// Back of the lens, if its thickness was measured.
    #[serde(rename = "lens_back_mm")]
    pub lens_back: Option<Millimeters>,
}

/// A measurement the section cannot do without.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SectionError {
    Keratometry,
    CornealThickness,
    ChamberDepth,
}

impl ChamberSection {
    /// Draws on what was measured; only the posterior radius may be assumed, and says so.
    pub fn of(eye: &EyeRecord) -> Result<Self, SectionError> {
        let front_radius = eye
            .keratometry
            .as_ref()
            .ok_or(SectionError::Keratometry)?
            .value
            .mean_radius();
        let endothelium = eye.thickness().ok_or(SectionError::CornealThickness)?.get();
        let pupil_plane = eye
            .depth_from_epithelium()
            .ok_or(SectionError::ChamberDepth)?;
        let aqueous_depth = eye.aqueous_depth().ok_or(SectionError::ChamberDepth)?;
        let posterior = eye
            .posterior_radius
            .as_ref()
            .map(|radius| radius.value.get().millimeters());
        Ok(Self {
            front_radius,
            back_radius: posterior.unwrap_or(front_radius * POSTERIOR_RATIO),
            back_radius_measured: posterior.is_some(),
            endothelium: endothelium.millimeters(),
            pupil_plane: pupil_plane.millimeters(),
            aqueous_depth: aqueous_depth.millimeters(),
            corneal_diameter: eye
                .corneal_diameter
                .as_ref()
                .map(|diameter| diameter.value.get().millimeters()),
            pupil_diameter: eye
                .pupil
                .as_ref()
                .map(|pupil| pupil.value.get().millimeters()),
            lens_back: eye
                .lens_thickness
                .as_ref()
                .map(|thickness| (pupil_plane + thickness.value.get()).millimeters()),
        })
    }

    /// Depth of the aqueous over the pupil plane at a distance from the axis: the axial depth less
    /// the sagitta of the corneal back, `r2 − √(r2² − x²)`.
    ///
    /// Nothing beyond the sphere's edge.
    pub fn depth_at(&self, off_axis: Millimeters) -> Option<Millimeters> {
        let (radius, x) = (self.back_radius.mm(), off_axis.mm());
        let radicand = radius * radius - x * x;
        (0.0 <= radicand)
            .then(|| Millimeters::new(self.aqueous_depth.mm() - (radius - radicand.sqrt())))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 2.5 mm off the axis a sphere of 6.5 mm has sunk 6.5 − √(42.25 − 6.25) = 0.5 mm.
    #[test]
    fn the_depth_falls_with_the_sphere() {
        let mm = Millimeters::new;
        let section = ChamberSection {
            front_radius: mm(8.0),
            back_radius: mm(6.5),
            back_radius_measured: true,
            endothelium: mm(0.5),
            pupil_plane: mm(3.2),
            aqueous_depth: mm(2.7),
            corneal_diameter: None,
            pupil_diameter: None,
            lens_back: None,
        };
        for (off_axis, depth) in [(0.0, 2.7), (2.5, 2.2), (-2.5, 2.2), (6.5, -3.8)] {
            let found = section.depth_at(mm(off_axis)).unwrap();
            assert!((found.mm() - depth).abs() < 1e-12, "{off_axis}: {found:?}");
        }
        assert_eq!(section.depth_at(mm(6.501)), None);
    }
}
