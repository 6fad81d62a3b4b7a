//! Every change a person can make to a draft.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::serde_as;

use super::{
    Approach, JudgedNucleus, ListNumber, Patient, RecordedReason, SecondEyeChoice, SecondLook,
    SetAside, Slot, SurgeonGrade, TheatreEntry, UltrasoundChoice, UsualPlan,
};
use crate::astigmatism::{IncisionEffect, PosteriorChoice};
use crate::biometry::{EarlierOperation, EyeState, Measurement, Side};
use crate::calendar::Day;
use crate::chamber::{Delivery, Nucleus, NucleusSize, WorkingPlane};
use crate::finding::OtherCase;
use crate::iol_power::Formula;
use crate::iol_power::ladder::Convention;
use crate::lens::{LensRecord, OtherRecord, Place, ToricChoice};
use crate::quantity::{Direction, HundredthDiopters, Micrometers};

/// One change. The desk, the command line and the importers speak only this.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Sets the patient.
    SetPatient(Patient),
    /// Sets the planned day.
    SetOperationDate(Option<NaiveDate>),
    /// Sets the place in the order of that day.
    SetListNumber(Option<ListNumber>),
    /// Sets the surgeon's experience.
    SetSurgeon(Option<SurgeonGrade>),
    /// Chooses the operated eye for the first time, or before anything was measured.
    ChooseEye(Side),
    /// Changes the operated eye although measurements exist: an explicit act, kept.
    ChangeEye(EyeChange),
    /// Sets or clears one measurement of one eye.
    Measure(Side, Measurement),
    /// Sets what was seen of one eye.
    SetState(Side, Box<EyeState>),
    /// Sets the earlier operation of one eye; a decision on the refinement by another is cleared.
    SetEarlierOperation(Side, Option<EarlierOperation>),
    /// Sets the target.
    SetTarget(Option<HundredthDiopters>),
    /// Sets the target the patient consented to.
    SetConsentedTarget(Option<HundredthDiopters>),
    /// Chooses a lens; power and cylinder chosen for another lens are cleared.
    /// With what the clinic's other records of its model say.
    ChooseLens(Slot, Option<Box<LensRecord>>, Vec<OtherRecord>),
    /// Chooses the formula to plan by.
    ChooseFormula(Option<Formula>),
    /// Chooses the convention.
    ChooseConvention(Option<Convention>),
    /// Chooses at once what a surgeon usually plans with.
    PlanAsUsual(Box<UsualPlan>),
    /// Chooses the power of a lens.
    ChoosePower(Slot, Option<HundredthDiopters>),
    /// Decides on the refinement by the first eye's prediction error.
    ChooseSecondEye(Option<SecondEyeChoice>),
    /// Chooses cylinder and axis of a toric lens.
    ChooseToric(Slot, Option<ToricChoice>),
    /// Chooses how the back of the cornea enters the astigmatism.
    ChoosePosterior(Option<PosteriorChoice>),
    /// Chooses how an ultrasound length is used.
    ChooseUltrasound(Option<UltrasoundChoice>),
    /// Sets whether the thick-lens eye takes the sum-of-segments length.
    UseSumOfSegments(bool),
    /// Chooses the approach; the surgeon's figures for the other one's incision are cleared.
    ChooseApproach(Option<Approach>),
    /// Sets width and direction of the incision.
    SetIncision {
        /// Width.
        width: Option<Micrometers>,
        /// Direction from the center of the cornea.
        direction: Option<Direction>,
    },
    /// Sets what such an incision does to the cornea, from the surgeon's own results.
    SetIncisionEffect(Option<IncisionEffect>),
    /// States the size of the nucleus; without one, whether it was measured is cleared.
    SetNucleus(Option<Nucleus>),
    /// Judges whether the nucleus is hard, or withdraws that.
    JudgeNucleus(Option<JudgedNucleus>),
    /// Says whether that size was measured.
    SetNucleusSize(Option<NucleusSize>),
    /// Chooses the number of pieces.
    SetPieces(Option<u8>),
    /// Chooses where the pieces are worked on.
    ChoosePlane(Option<WorkingPlane>),
    /// Sets what irrigation is taken to add to the depth.
    SetDeepening(Option<Micrometers>),
    /// Chooses in how many parts the nucleus passes the tunnel.
    ChooseDelivery(Option<Delivery>),
    /// Sets the length of the tunnel's lips.
    SetTunnelLips(Option<Micrometers>),
    /// Sets the diameter of the capsulorhexis.
    SetCapsulorhexis(Option<Micrometers>),
    /// Sets one entry of what theatre needs.
    SetTheatre(TheatreEntry),
    /// Records a reason for a finding.
    RecordReason(RecordedReason),
    /// Withdraws the reason recorded for a rule.
    WithdrawReason {
        /// Id of the rule.
        rule: String,
        /// The backup lens it was recorded for, if it was.
        backup: Option<Place>,
    },
    /// Records a second look; it replaces an earlier one.
    RecordSecondLook(Box<SecondLook>),
    /// Takes over what the register found of other cases with this patient's number or name.
    SetOtherCases(Vec<OtherCase>),
    /// Sets the case aside.
    SetAside(SetAside),
    /// Takes up again what was set aside.
    BringBack,
}

/// A change of the operated eye, with its reason.
#[serde_as]
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct EyeChange {
    /// The eye it was.
    pub from: Side,
    /// The eye it became.
    pub to: Side,
    /// Why.
    pub reason: String,
    /// Who changed it.
    pub by: String,
    /// The day.
    #[serde_as(as = "Day")]
    pub on: NaiveDate,
}

crate::quantity::checked_when_read!(EyeChange, super::update::check_eye_change);
