//! What rules may look at.

use super::{Eyes, Missing, Which};
use crate::biometry::{
    ChamberDepth, CornealThickness, EyeRecord, Fellow, Keratometry, NucleusGrade, Operated, Side,
};
use crate::case::Draft;
use crate::chamber::PieceRoom;
use crate::iol_power::ladder::Ladder;
use crate::limits::Limits;
use crate::plan::ToricPlan;
use crate::quantity::{Diopters, Micrometers};

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

impl<'a> Facts<'a> {
    /// Axial length of the operated eye.
    pub(super) fn length(&self) -> Result<Micrometers, Missing> {
        let length = self.operated.0.axial_length.as_ref();
        let length = length.map(|measured| measured.value.get());
        length.ok_or(Missing::of_this_eye(Which::AxialLength))
    }

    /// Axial lengths of operated and fellow eye.
    pub(super) fn both_lengths(&self) -> Result<[Micrometers; 2], Missing> {
        let lengths = [self.operated.0, self.fellow.0]
            .map(|eye| Some(eye.axial_length.as_ref()?.value.get()));
        match lengths {
            [Some(operated), Some(fellow)] => Ok([operated, fellow]),
            _ => Err(Missing::of_both_eyes(Which::AxialLength)),
        }
    }

    /// Keratometry of the operated eye.
    pub(super) fn keratometry(&self) -> Result<&'a Keratometry, Missing> {
        let keratometry = self.operated.0.keratometry.as_ref();
        let keratometry = keratometry.map(|measured| &measured.value);
        keratometry.ok_or(Missing::of_this_eye(Which::Keratometry))
    }

    /// Chamber depth of the operated eye, as it was given.
    pub(super) fn chamber_depth(&self) -> Result<ChamberDepth, Missing> {
        let depth = self.operated.0.chamber_depth.as_ref();
        let depth = depth.map(|measured| measured.value);
        depth.ok_or(Missing::of_this_eye(Which::ChamberDepth))
    }

    /// Corneal thickness of the operated eye.
    pub(super) fn thickness(&self) -> Result<Micrometers, Missing> {
        let thickness = self.operated.0.thickness();
        let thickness = thickness.map(CornealThickness::get);
        thickness.ok_or(Missing::of_this_eye(Which::CornealThickness))
    }

    /// Corneal diameter of the operated eye.
    pub(super) fn corneal_diameter(&self) -> Result<Micrometers, Missing> {
        let diameter = self.operated.0.corneal_diameter.as_ref();
        let diameter = diameter.map(|measured| measured.value.get());
        diameter.ok_or(Missing::of_this_eye(Which::CornealDiameter))
    }

    /// Power for emmetropia of the operated eye by the formula planned by.
    pub(super) fn emmetropic_power(&self) -> Result<Diopters, Missing> {
        let [operated, _] = self.emmetropic_power;
        operated.ok_or(Missing::EmmetropicPower { of: Eyes::This })
    }

    /// The same of operated and fellow eye.
    pub(super) fn emmetropic_powers(&self) -> Result<[Diopters; 2], Missing> {
        match self.emmetropic_power {
            [Some(operated), Some(fellow)] => Ok([operated, fellow]),
            _ => Err(Missing::EmmetropicPower { of: Eyes::Both }),
        }
    }

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
