//! What rules may look at.

use core::cell::OnceCell;
use std::sync::OnceLock;

use super::nucleus::hard_nucleus;
use super::{Eyes, Missing, Which};
use crate::biometry::{
    ChamberDepth, CornealThickness, DepthStart, EyeRecord, Fellow, Keratometry, Operated, Side,
};
use crate::case::{ChosenLens, Draft, Slot};
use crate::certainty;
use crate::chamber::{ChamberSection, Passage, Proximity, SectionError, WholeProximity, Worked};
use crate::finding::HardNucleus;
use crate::iol_power::FormulaInputs;
use crate::iol_power::ladder::Ladder;
use crate::lens::Place;
use crate::limits::Limits;
use crate::prediction::{
    LadderMissing, ToricPlan, emmetropic_power, formula_inputs, ladder_of, toric_plan,
};
use crate::quantity::{Diopters, Micrometers};

/// A case as rules see it: what was entered, and what is computed from it when a rule first asks.
#[derive(Clone, Debug)]
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
    /// The lens that a rule of one lens looks at.
    pub slot: Slot,
    inputs: FormulaInputs,
    ladder: OnceCell<Result<Ladder, LadderMissing>>,
    emmetropic_power: OnceCell<[Option<Diopters>; 2]>,
    section: OnceCell<Result<ChamberSection, SectionError>>,
    proximity: OnceLock<Option<Proximity>>,
    toric: OnceCell<ToricPlan>,
}

/// What was computed for the rules, which the plan shows too.
pub(crate) struct Computed {
    pub(crate) inputs: FormulaInputs,
    pub(crate) ladder: Result<Ladder, LadderMissing>,
    pub(crate) section: Result<ChamberSection, SectionError>,
    /// Empty where no rule asked: most plans are never asked, and it costs more than all the rest.
    pub(crate) proximity: OnceLock<Option<Proximity>>,
    pub(crate) passage: Option<Passage>,
    pub(crate) toric: ToricPlan,
}

impl<'a> Facts<'a> {
    /// The facts of a case planned for the eye on `side`, with the planned lens.
    pub fn of(draft: &'a Draft, side: Side, limits: &'a Limits) -> Self {
        Self::about(Slot::Planned, draft, side, limits)
    }

    /// The same with the lens of a slot.
    fn about(slot: Slot, draft: &'a Draft, side: Side, limits: &'a Limits) -> Self {
        let (operated, fellow) = draft.eyes.split(side);
        let lens = draft.lens.lenses.get(slot);
        Self {
            draft,
            side,
            operated,
            fellow,
            limits,
            slot,
            inputs: formula_inputs(operated.0, &draft.lens, lens.map(|lens| &lens.record)),
            ladder: OnceCell::new(),
            emmetropic_power: OnceCell::new(),
            section: OnceCell::new(),
            proximity: OnceLock::new(),
            toric: OnceCell::new(),
        }
    }

    /// The same case with the lens of another slot.
    pub(crate) fn of_slot(&self, slot: Slot) -> Self {
        Self::about(slot, self.draft, self.side, self.limits)
    }

    /// The same with these powers for emmetropia: operated eye, then fellow eye.
    #[cfg(test)]
    pub(super) fn with_emmetropic_power(self, powers: [Option<Diopters>; 2]) -> Self {
        Self {
            emmetropic_power: powers.into(),
            ..self
        }
    }

    /// Everything computed; what no rule asked for is computed now, but for the proximity.
    pub(crate) fn into_computed(self) -> Computed {
        let (draft, eye) = (self.draft, self.operated.0);
        let passage = self.passage();
        let (slot, inputs) = (self.slot, self.inputs);
        let ladder = self.ladder.into_inner();
        let ladder = ladder.unwrap_or_else(|| ladder_of(draft, slot, &inputs));
        let toric = self.toric.into_inner();
        let known = ladder.as_ref().ok();
        let toric = toric.unwrap_or_else(|| toric_plan(draft, eye, self.side, known, self.limits));
        let section = self.section.into_inner();
        let section = section.unwrap_or_else(|| ChamberSection::of(eye));
        Computed {
            inputs,
            ladder,
            section,
            proximity: self.proximity,
            passage,
            toric,
        }
    }

    /// The lens it looks at, with what was chosen of it.
    pub(super) fn lens(&self) -> Option<&'a ChosenLens> {
        self.draft.lens.lenses.get(self.slot)
    }

    /// The backup lens it looks at; nothing for the planned one.
    pub(super) const fn backup(&self) -> Option<Place> {
        match self.slot {
            Slot::Planned => None,
            Slot::Backup(place) => Some(place),
        }
    }

    fn ladder_or_missing(&self) -> &Result<Ladder, LadderMissing> {
        self.ladder
            .get_or_init(|| ladder_of(self.draft, self.slot, &self.inputs))
    }

    /// The ladder, if lens and target are known.
    pub(super) fn ladder(&self) -> Option<&Ladder> {
        self.ladder_or_missing().as_ref().ok()
    }

    /// What is known of the astigmatism.
    pub(super) fn toric(&self) -> &ToricPlan {
        self.toric.get_or_init(|| {
            toric_plan(
                self.draft,
                self.operated.0,
                self.side,
                self.ladder(),
                self.limits,
            )
        })
    }

    fn section(&self) -> &Result<ChamberSection, SectionError> {
        self.section
            .get_or_init(|| ChamberSection::of(self.operated.0))
    }

    /// How near pieces and whole nucleus come; nothing unless the chamber section can be drawn and the
    /// nucleus has a size.
    pub(super) fn proximity(&self) -> Option<&Proximity> {
        let found = self
            .proximity
            .get_or_init(|| proximity_of(self.section(), self.draft, self.operated.0, self.limits));
        found.as_ref()
    }

    /// How near the undivided nucleus comes, on the same conditions.
    pub(super) fn whole_proximity(&self) -> Option<WholeProximity> {
        let section = self.section().as_ref().ok()?;
        let worked = worked(self.draft, self.operated.0, self.limits)?;
        Some(WholeProximity::of_section(section, &worked))
    }

    /// What tunnel and capsulorhexis are asked; nothing without a size of the nucleus.
    pub(super) fn passage(&self) -> Option<Passage> {
        let plan = &self.draft.approach;
        let nucleus = plan.nucleus?;
        Some(Passage::of(nucleus, plan.lips(), plan.capsulorhexis))
    }

    /// Power for emmetropia by the formula planned by: operated eye, then fellow eye.
    fn each_emmetropic_power(&self) -> [Option<Diopters>; 2] {
        *self.emmetropic_power.get_or_init(|| {
            let lens = &self.draft.lens;
            let fellow = formula_inputs(self.fellow.0, lens, lens.record());
            [&self.inputs, &fellow].map(|inputs| emmetropic_power(lens.formula, inputs))
        })
    }

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
        let [operated, _] = self.each_emmetropic_power();
        operated.ok_or(Missing::EmmetropicPower { of: Eyes::This })
    }

    /// The same of operated and fellow eye.
    pub(super) fn emmetropic_powers(&self) -> Result<[Diopters; 2], Missing> {
        match self.each_emmetropic_power() {
            [Some(operated), Some(fellow)] => Ok([operated, fellow]),
            _ => Err(Missing::EmmetropicPower { of: Eyes::Both }),
        }
    }

    /// Whether the nucleus of the operated eye counts as hard.
    pub fn nucleus(&self) -> HardNucleus {
        let judged = self.draft.approach.nucleus_judged.as_ref();
        hard_nucleus(&self.operated.0.state, judged, self.limits)
    }
}

/// How near pieces and whole nucleus come; nothing without section or size of the nucleus.
pub(crate) fn proximity_of(
    section: &Result<ChamberSection, SectionError>,
    draft: &Draft,
    eye: &EyeRecord,
    limits: &Limits,
) -> Option<Proximity> {
    let section = section.as_ref().ok()?;
    let worked = worked(draft, eye, limits)?;
    Some(Proximity::of(section, &worked))
}

/// What the geometry is computed from; nothing without a size of the nucleus.
fn worked(draft: &Draft, eye: &EyeRecord, limits: &Limits) -> Option<Worked> {
    let plan = &draft.approach;
    let spread = certainty::depth_from(DepthStart::Endothelium, eye, limits);
    Some(Worked {
        nucleus: plan.nucleus?,
        size: plan.nucleus_size,
        deepening: plan.deepening.unwrap_or(Micrometers::new(0)),
        depth_spread: spread
            .and_then(Result::ok)
            .map(|spread| spread.deviation)
            .filter(|deviation| 0.0 < *deviation),
    })
}
