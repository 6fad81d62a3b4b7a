//! The anterior chamber, and how near pieces and whole nucleus come to the endothelium.

use serde::{Deserialize, Serialize};

use super::Outcome;
use crate::biometry::DepthStart;
use crate::chamber::{ChamberSection, Division, Passage, Proximity, SectionError};
use crate::plan::Plan;
use crate::quantity::{Micrometers, Millimeters};

/// The anterior chamber.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChamberResult {
    /// Its section.
    pub section: Outcome<ChamberSection, SectionError>,
    /// Thickness of the lens in it.
    pub lens_thickness_mm: Option<Millimeters>,
    /// The limit of its depth that was in use.
    pub depth_limit_um: Micrometers,
    /// The surface that limit counts from.
    pub depth_limit_from: DepthStart,
    /// What earlier programs computed in place of the proximity; empty since.
    #[serde(default)]
    pub room: Vec<PieceRoom>,
    /// How near pieces and whole nucleus come; nothing without section or size of the nucleus.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub proximity: Option<Proximity>,
    /// What tunnel and capsulorhexis are asked; nothing without a size of the nucleus.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub passage: Option<Passage>,
}

/// Room over half the largest dimension of a piece, as documents of earlier programs hold it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PieceRoom {
    division: Division,
    largest_dimension_mm: Millimeters,
    turning_on_axis_mm: Millimeters,
    turning_2_mm_off_axis_mm: Option<Millimeters>,
    standing_on_axis_mm: Millimeters,
}

impl ChamberResult {
    pub(super) fn of(plan: &Plan) -> Self {
        let thickness = |section: &ChamberSection| Some(section.lens_back? - section.pupil_plane);
        Self {
            section: Outcome::of(&plan.section, |section| *section),
            lens_thickness_mm: plan.section.as_ref().ok().and_then(thickness),
            depth_limit_um: plan.limits.chamber_depth,
            depth_limit_from: plan.limits.chamber_depth_start,
            room: Vec::new(),
            proximity: plan.proximity().cloned(),
            passage: plan.passage,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::ChamberResult;

    /// As the program wrote it before the proximity.
    const EARLIER: &str = r#"{"section":{"refusal":"keratometry"},"lens_thickness_mm":null,"depth_limit_um":2800,"depth_limit_from":"epithelium","room":[{"division":{"sectors":4,"rings":1,"layers":1},"largest_dimension_mm":5.5,"turning_on_axis_mm":-0.49,"turning_2_mm_off_axis_mm":null,"standing_on_axis_mm":-3.24}]}"#;

    /// A signature covers every character, so what was signed is written back as it was.
    #[test]
    fn what_an_earlier_program_computed_reads_and_writes_back_unchanged() {
        let result: ChamberResult = serde_json::from_str(EARLIER).unwrap();
        assert_eq!(result.room.len(), 1);
        assert_eq!(result.proximity, None);
        assert_eq!(serde_json::to_string(&result).unwrap(), EARLIER);
    }
}
