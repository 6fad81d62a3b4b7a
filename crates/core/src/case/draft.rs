//! What was entered so far. What was not entered is absent.

use chrono::{Datelike as _, NaiveDate};
use serde::{Deserialize, Serialize};
use serde_with::{serde_as, skip_serializing_none};

use super::plain_text::{self, TextRefused};
use super::{
    Approach, CommandRefused, EyeChange, Import, JudgedNucleus, Lenses, ListNumber, RecordedReason,
    SecondEyeChoice, SecondLook, SetAside, Sex, SurgeonGrade, TheatrePlan, UltrasoundChoice,
};
use crate::astigmatism::{Incision, IncisionEffect, PosteriorChoice};
use crate::biometry::{EyeRecord, PerEye, Side};
use crate::calendar::Day;
use crate::chamber::{Delivery, Division, Nucleus, NucleusSize, WorkingPlane};
use crate::finding::OtherCase;
use crate::iol_power::Formula;
use crate::iol_power::ladder::Convention;
use crate::lens::{LensRecord, ToricChoice};
use crate::quantity::{Direction, HundredthDiopters, Micrometers, Text, checked_when_read};

/// A case that is still being planned.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft {
    /// Who.
    pub patient: Patient,
    /// Which eye, when, by whom.
    pub operation: Operation,
    /// What was measured and seen of both eyes.
    pub eyes: PerEye<EyeRecord>,
    /// Target, lens and power.
    pub lens: LensPlan,
    /// How the nucleus is to come out.
    pub approach: ApproachPlan,
    /// What theatre needs beside lens and incision.
    pub theatre: TheatrePlan,
    /// Reasons recorded for going against a finding.
    pub reasons: Vec<RecordedReason>,
    /// Every change of the operated eye made after measurements existed.
    pub eye_changes: Vec<EyeChange>,
    /// The critical numbers as a second person entered them.
    pub second_look: Option<SecondLook>,
    /// Where imported measurements came from.
    pub imports: Vec<Import>,
    /// Other cases that do not go together with the patient, as the register found them last.
    pub other_cases: Vec<OtherCase>,
    /// That it is no longer planned.
    pub set_aside: Option<SetAside>,
}

/// The patient: two identifiers, and what matters for the operation.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct Patient {
    /// Family name, given names.
    pub name: Option<String>,
    /// Hospital number.
    pub number: Option<String>,
    /// Birth date.
    #[serde_as(as = "Option<Day>")]
    pub birth_date: Option<NaiveDate>,
    /// Sex as recorded.
    pub sex: Option<Sex>,
    /// Takes, or ever took, an alpha-blocker.
    pub alpha_blocker: Option<bool>,
    /// Takes what keeps the blood from clotting: anticoagulants, antiplatelet drugs.
    pub anticoagulant: Option<bool>,
    pub diabetes: Option<bool>,
}

checked_when_read!(Patient, Patient::check_text);

/// The operation.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct Operation {
    /// The planned day. Age and the age of measurements count to this day.
    #[serde_as(as = "Option<Day>")]
    pub date: Option<NaiveDate>,
    /// Place in the order of that day; no part of the plan.
    pub list_number: Option<ListNumber>,
    /// The eye that is operated on.
    pub eye: Option<Side>,
    /// Experience of the surgeon.
    pub surgeon: Option<SurgeonGrade>,
}

checked_when_read!(Operation, Operation::check);

impl Operation {
    /// Refuses a place in the order of no day.
    pub(super) fn check(&self) -> Result<(), CommandRefused> {
        if self.list_number.is_some() && self.date.is_none() {
            return Err(CommandRefused::NumberWithoutDay);
        }
        Ok(())
    }
}

/// Target, lenses and powers, and how they are computed.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LensPlan {
    /// Spherical equivalent aimed at, at the spectacle plane.
    #[serde_as(as = "Option<Text>")]
    pub target: Option<HundredthDiopters>,
    /// The target the patient consented to.
    #[serde_as(as = "Option<Text>")]
    pub consented_target: Option<HundredthDiopters>,
    /// Formula the power is chosen by.
    pub formula: Option<Formula>,
    /// Which available power is proposed.
    pub convention: Option<Convention>,
    /// Whether the first eye's prediction error refines this eye's predictions.
    pub second_eye: Option<SecondEyeChoice>,
    /// How the back of the cornea enters the astigmatism.
    pub posterior: Option<PosteriorChoice>,
    /// How an ultrasound axial length meets constants for optical biometry.
    pub ultrasound: Option<UltrasoundChoice>,
    /// Whether the thick-lens eye takes the sum-of-segments length.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub sum_of_segments: bool,
    /// The lenses: the planned one and those that lie ready.
    #[serde(default, skip_serializing_if = "Lenses::is_empty")]
    pub lenses: Lenses,
}

impl LensPlan {
    /// The lens to implant.
    pub fn record(&self) -> Option<&LensRecord> {
        self.lenses.planned().map(|lens| &lens.record)
    }

    /// The power chosen of it.
    pub fn power(&self) -> Option<HundredthDiopters> {
        self.lenses.planned()?.power
    }

    /// Cylinder and axis chosen of it.
    pub fn toric(&self) -> Option<ToricChoice> {
        self.lenses.planned()?.toric
    }

    /// Whether nothing was entered.
    pub(crate) fn is_blank(&self) -> bool {
        *self == Self::default()
    }
}

/// How the nucleus is to come out.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct ApproachPlan {
    /// Chosen approach.
    pub approach: Option<Approach>,
    /// Width of the incision.
    #[serde_as(as = "Option<Text>")]
    pub incision_width: Option<Micrometers>,
    /// Direction of the incision from the center of the cornea.
    pub incision_direction: Option<Direction>,
    /// What such an incision does to the cornea, from the surgeon's own results.
    pub incision_effect: Option<IncisionEffect>,
    /// Stated size of the nucleus.
    pub nucleus: Option<Nucleus>,
    /// Whether the nucleus is hard, where somebody judged it.
    pub nucleus_judged: Option<JudgedNucleus>,
    /// Whether that size was measured.
    pub nucleus_size: Option<NucleusSize>,
    /// Number of pieces.
    pub pieces: Option<u8>,
    /// Where the pieces are worked on.
    pub working_plane: Option<WorkingPlane>,
    /// What irrigation is taken to add to the depth of the chamber.
    #[serde_as(as = "Option<Text>")]
    pub deepening: Option<Micrometers>,
    /// In how many parts the nucleus passes the tunnel.
    pub delivery: Option<Delivery>,
    /// Length of the tunnel's lips along the cut, where it is more than the width.
    #[serde_as(as = "Option<Text>")]
    pub tunnel_lips: Option<Micrometers>,
    /// Diameter of the capsulorhexis.
    #[serde_as(as = "Option<Text>")]
    pub capsulorhexis: Option<Micrometers>,
}

checked_when_read!(ApproachPlan, ApproachPlan::check);

impl ApproachPlan {
    /// Least and most that irrigation may be taken to add to the depth (assumption).
    pub const DEEPENING: [Micrometers; 2] = [Micrometers::new(0), Micrometers::new(2_000)];

    /// Refuses a number of pieces the model does not have, and lengths that nothing here has.
    pub(super) fn check(&self) -> Result<(), CommandRefused> {
        if let Some(pieces) = self.pieces
            && Division::with_pieces(pieces).is_none()
        {
            return Err(CommandRefused::NoSuchDivision { pieces });
        }
        let [least, most] = Self::DEEPENING;
        if let Some(deepening) = self.deepening
            && !(least..=most).contains(&deepening)
        {
            return Err(CommandRefused::Deepening { deepening });
        }
        if let Some(lips) = self.tunnel_lips
            && lips <= Micrometers::new(0)
        {
            return Err(CommandRefused::TunnelLips { lips });
        }
        Ok(())
    }

    /// What the tunnel's lips give: their length, or the width of the incision. Nothing passes whole
    /// through the incision of another approach.
    pub fn lips(&self) -> Option<Micrometers> {
        let has_tunnel = self.approach == Some(Approach::SmallIncision);
        self.tunnel_lips
            .or(self.incision_width)
            .filter(|_| has_tunnel)
    }

    /// Whether nothing was entered.
    pub(crate) fn is_blank(&self) -> bool {
        *self == Self::default()
    }

    /// The incision as planned.
    pub const fn incision(&self) -> Incision {
        Incision {
            approach: self.approach,
            width: self.incision_width,
            direction: self.incision_direction,
            effect: self.incision_effect,
        }
    }

    /// Into how many pieces the nucleus is divided: one that is delivered whole is not divided,
    /// whatever was chosen before.
    pub fn divided_into(&self) -> Option<u8> {
        match self.approach {
            Some(Approach::SmallIncision) => None,
            Some(Approach::Phacoemulsification) | None => self.pieces,
        }
    }
}

impl Patient {
    /// Refuses identifiers that hold hidden characters.
    ///
    /// # Errors
    ///
    /// [`TextRefused`], naming the identifier.
    pub fn check_text(&self) -> Result<(), TextRefused> {
        for (what, text) in [
            ("patient name", &self.name),
            ("hospital number", &self.number),
        ] {
            if let Some(text) = text {
                plain_text::check(what, text)?;
            }
        }
        Ok(())
    }
}

impl Draft {
    /// Whether nobody entered anything. What the register found of other cases is no entry.
    pub fn is_empty(&self) -> bool {
        let found = Self {
            other_cases: self.other_cases.clone(),
            ..Self::default()
        };
        *self == found
    }

    /// What a sheet is of: all but its place in the order of its day, which is the list's.
    #[must_use]
    pub fn without_list_number(&self) -> Self {
        let mut draft = self.clone();
        draft.operation.list_number = None;
        draft
    }

    /// Age of the patient on the planned day, whole years.
    pub fn age(&self) -> Option<i32> {
        let (born, day) = (self.patient.birth_date?, self.operation.date?);
        let had_birthday = (born.month(), born.day()) <= (day.month(), day.day());
        Some(day.year() - born.year() - i32::from(!had_birthday))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::testing::date;

    #[test]
    fn age_counts_birthdays() {
        let age = |born, day| {
            let mut draft = Draft::default();
            draft.patient.birth_date = Some(born);
            draft.operation.date = Some(day);
            draft.age().unwrap()
        };
        assert_eq!(age(date(1951, 3, 14), date(2026, 12, 3)), 75);
        assert_eq!(age(date(1951, 12, 3), date(2026, 12, 3)), 75);
        assert_eq!(age(date(1951, 12, 4), date(2026, 12, 3)), 74);
        assert_eq!(age(date(1952, 2, 29), date(2026, 2, 28)), 73);
        assert_eq!(age(date(1952, 2, 29), date(2026, 3, 1)), 74);
        assert_eq!(age(date(1952, 2, 29), date(2028, 2, 28)), 75);
        assert_eq!(age(date(1952, 2, 29), date(2028, 2, 29)), 76);
        assert_eq!(age(date(2026, 12, 4), date(2026, 12, 3)), -1);
        assert_eq!(Draft::default().age(), None);
    }

    #[test]
    fn a_nucleus_delivered_whole_is_not_divided() {
        let mut plan = ApproachPlan {
            pieces: Some(16),
            ..ApproachPlan::default()
        };
        assert_eq!(plan.divided_into(), Some(16));
        plan.approach = Some(Approach::Phacoemulsification);
        assert_eq!(plan.divided_into(), Some(16));
        plan.approach = Some(Approach::SmallIncision);
        assert_eq!(plan.divided_into(), None);
    }
}
