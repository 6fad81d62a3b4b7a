//! What rules may look at.

use crate::biometry::{EyeRecord, Fellow, NucleusGrade, Operated, Side};
use crate::case::Draft;
use crate::chamber::PieceRoom;
use crate::iol_power::ladder::Ladder;
use crate::limits::Limits;
use crate::plan::ToricPlan;
use crate::quantity::Diopters;

/// A case as rules see it: what was entered, and what was computed from it.
#[derive(Clone, Copy, Debug)]
pub struct Facts<'a> {
    /// Everything entered.
    pub draft: &'a Draft,
    /// The eye that is operated on.
    pub side: Side,
    /// Its record.
    pub operated: Operated<&'a EyeRecord>,
    /// The other eye's record.
    pub fellow: Fellow<&'a EyeRecord>,
    /// The limits in use.
    pub limits: &'a Limits,
    /// The ladder, if lens and target are known.
    pub ladder: Option<&'a Ladder>,
    /// Power for emmetropia by the formula planned by: operated eye, then fellow eye.
    pub emmetropic_power: [Option<Diopters>; 2],
    /// Room over the pieces, if the chamber section can be drawn and the nucleus has a size.
    pub room: Option<&'a [PieceRoom]>,
    /// What is known of the astigmatism.
    pub toric: &'a ToricPlan,
}

impl Facts<'_> {
    /// Whether the nucleus counts as hard on its own scale; `None` if it was not graded.
    #[must_use]
    pub fn nucleus_is_hard(&self) -> Option<bool> {
        let limits = self.limits;
        Some(match self.operated.0.state.nucleus? {
            NucleusGrade::LocsIii { opalescence, .. } => {
                limits.hard_locs_tenths <= i32::from(opalescence.tenths())
            }
            NucleusGrade::WhoSimplified(grade) => limits.hard_who_grade <= i32::from(grade.grade()),
            NucleusGrade::EmeryLittle(grade) => {
                limits.hard_emery_little_grade <= i32::from(grade.grade())
            }
        })
    }
}
