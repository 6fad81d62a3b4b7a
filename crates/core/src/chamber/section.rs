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
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case_file;

    /// By hand: a depth of 2.55 mm from the epithelium and a lens 5.05 mm thick end 7.60 mm behind it.
    #[test]
    fn the_back_of_the_lens_lies_behind_its_front() {
        let text = include_str!("../../../../demo-data/cases/hard-and-shallow.ron");
        let draft = case_file::read(text).unwrap();
        let section = ChamberSection::of(&draft.eyes.right).unwrap();
        assert_eq!(section.pupil_plane, Millimeters::new(2.55));
        assert_eq!(section.lens_back, Some(Millimeters::new(7.6)));
    }
}
