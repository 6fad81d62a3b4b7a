//! Room between endothelium and a piece that turns on end at the pupil plane.
//!
//! No published distance in millimeters against cell loss was found: the number is geometry, and
//! any limit on it a house value.

use super::{ChamberSection, DIVISIONS, Division, Nucleus};
use crate::quantity::Millimeters;

/// Where, besides the center, the room is given (assumption).
pub const OFF_AXIS: Millimeters = Millimeters::new(2.0);

/// One row of the table pieces → largest dimension → room.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PieceRoom {
    /// How the nucleus is divided.
    pub division: Division,
    /// Largest dimension of the longest piece.
    #[serde(rename = "largest_dimension_mm")]
    pub largest_dimension: Millimeters,
    /// Room over a piece that turns about its middle in the pupil plane, on the axis; negative when
    /// it would touch.
    #[serde(rename = "turning_on_axis_mm")]
    pub turning_on_axis: Millimeters,
    /// The same 2 mm off the axis, where the cornea is nearer.
    #[serde(rename = "turning_2_mm_off_axis_mm")]
    pub turning_off_axis: Option<Millimeters>,
    /// Room over a piece that stands wholly in front of the pupil plane, on the axis.
    #[serde(rename = "standing_on_axis_mm")]
    pub standing_on_axis: Millimeters,
}

/// The room for every division.
pub fn room_for(section: &ChamberSection, nucleus: Nucleus) -> Vec<PieceRoom> {
    DIVISIONS
        .into_iter()
        .map(|division| {
            let largest_dimension = division.largest_dimension(nucleus);
            let half = largest_dimension * 0.5;
            PieceRoom {
                division,
                largest_dimension,
                turning_on_axis: section.aqueous_depth - half,
                turning_off_axis: section.depth_at(OFF_AXIS).map(|depth| depth - half),
                standing_on_axis: section.aqueous_depth - largest_dimension,
            }
        })
        .collect()
}
