//! How far the anterior chamber depth may be off, from either surface of the cornea.

use super::spread::{by_method, corneal_thickness, of_length};
use super::{ErrorSource, NoSpread, Spread, table};
use crate::biometry::{DepthStart, EyeRecord};
use crate::limits::Limits;

/// Spread of the anterior chamber depth as it was measured, if there is one.
pub fn chamber_depth(eye: &EyeRecord, limits: &Limits) -> Option<Result<Spread, NoSpread>> {
    let measured = eye.chamber_depth.as_ref()?;
    let table = by_method(
        measured.method,
        table::DEPTH,
        limits,
        limits.spread_chamber_depth,
    );
    Some(of_length(ErrorSource::ChamberDepth, measured, table))
}

/// Spread of the depth from a corneal surface: one measured from the other has the corneal
/// thickness added or taken off, and its spread added, as independent.
pub fn depth_from(
    start: DepthStart,
    eye: &EyeRecord,
    limits: &Limits,
) -> Option<Result<Spread, NoSpread>> {
    let depth = chamber_depth(eye, limits)?;
    if eye.chamber_depth.as_ref()?.value.start == start {
        return Some(depth);
    }
    let thickness = corneal_thickness(eye, limits)?;
    Some(depth.and_then(|depth| {
        let thickness_mm = thickness?.deviation;
        let depth_mm = depth.deviation;
        Ok(Spread {
            deviation: (depth_mm * depth_mm + thickness_mm * thickness_mm).sqrt(),
            ..depth
        })
    }))
}
