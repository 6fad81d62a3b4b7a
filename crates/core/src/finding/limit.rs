//! What a finding stands against.

use serde::{Deserialize, Serialize};

use super::{Contradiction, Quantity};
use crate::biometry::CornealSurgeryKind;
use crate::calendar::Day;
use crate::choice::SecondEyeChoice;
use crate::iol_power::{Formula, Powers};
use crate::lens::BiometryKind;
use crate::quantity::KeratometricIndex;
use crate::quantity::{HundredthDiopters, Micrometers};

/// A limit, a proposal, or what should be.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Limit {
    /// Not less than this.
    AtLeast(Quantity),
    /// Not more than this.
    AtMost(Quantity),
    /// Less than this.
    Under(Quantity),
    /// This or more speaks for something.
    OrMore(Quantity),
    /// From one to another.
    Within(Quantity, Quantity),
    /// Both identifiers.
    NameAndNumber,
    /// The target the patient consented to.
    ConsentedTarget(HundredthDiopters),
    /// A consented target in the record.
    RecordedConsent,
    /// One eye throughout the case.
    OneEye,
    /// No cataract operation of this eye before.
    NotOperatedBefore,
    /// Two eyes that are not alike in every number.
    NotAllTheSame,
    /// Two looks that agree.
    TwoLooksAgree,
    /// A second look by somebody else.
    AnotherPerson,
    /// Readings often enough, and close enough.
    Repeats {
        /// The fewest, if they fall short.
        readings: Option<i32>,
        /// The largest difference, if it is exceeded.
        apart: Option<HundredthDiopters>,
    },
    /// This index.
    Index(KeratometricIndex),
    /// So many degrees apart, or more.
    AtLeastApart(i32),
    /// So many degrees apart, or fewer.
    AtMostApart(i32),
    /// Not more than so many months before a day.
    MonthsBefore {
        /// Calendar months.
        months: i32,
        /// The planned day.
        day: Day,
    },
    /// Formulas that guidance names, and the lengths it names them for.
    NamedFormulas {
        /// The formulas.
        formulas: Vec<Formula>,
        /// The lengths.
        lengths: NamedFor,
    },
    /// A formula that fits the corneal surgery.
    FittingFormula,
    /// A record, also of its absence.
    Recorded,
    /// No corneal surgery.
    NoCornealSurgery,
    /// How mean K should have changed.
    Changes(Vec<Contradiction>, CornealSurgeryKind),
    /// A length corrected for silicone oil.
    CorrectedLength,
    /// No silicone oil.
    NoSiliconeOil,
    /// A chosen way to use an ultrasound length with constants for optical biometry.
    ChosenUse,
    /// Lens constants for this kind of biometry.
    ConstantsFor(BiometryKind),
    /// No probe on the cornea.
    NoProbe,
    /// At most so far apart, as a vector and in degrees.
    AtMostVector {
        /// As a vector at twice the angle.
        vector: HundredthDiopters,
        /// Between the steep meridians.
        degrees: i32,
    },
    /// A depth from the epithelium.
    FromEpithelium,
    /// A sign that is absent.
    Absent,
    /// A drug that was never taken.
    NeverTaken,
    /// A count of endothelial cells.
    CellsCounted,
    /// Neither sign of weak zonules.
    NoWeakZonules,
    /// An independent surgeon.
    IndependentSurgeon,
    /// Farther than the tolerance from a grade, both in tenths.
    FartherFrom {
        /// The tolerance.
        tolerance: i32,
        /// The grade.
        grade: i32,
    },
    /// No factor that raises the odds.
    NoRaisedOdds,
    /// Powers the lens is made in.
    MadeIn(Vec<PowerSpan>),
    /// Cylinders the lens is made in.
    CylindersMade(Vec<HundredthDiopters>),
    /// A lens without a cylinder.
    WithoutCylinder,
    /// An answer.
    Answer,
    /// The proposed power with its prediction, where there is one.
    ProposedPower {
        /// The power.
        power: HundredthDiopters,
        /// To the nearest hundredth.
        refraction: Option<HundredthDiopters>,
    },
    /// The cylinder that leaves least, or none, with the one it leaves.
    ProposedCylinder {
        /// Cylinder of the lens.
        cylinder: Option<HundredthDiopters>,
        /// Cylinder left, where it is known.
        left: Option<HundredthDiopters>,
    },
    /// A constant given by the maker or optimized.
    GivenOrOptimized,
    /// A constant optimized on own results.
    Optimized,
    /// A lens of another material.
    AnotherMaterial,
    /// A lens that may sit in the sulcus.
    AllowedInSulcus,
    /// No drift is allowed for.
    NoDrift,
    /// A measurement instead.
    Measured,
    /// A regular cornea that nobody operated on.
    RegularCornea,
    /// The cylinder at the lens plane that leaves none.
    ExactCylinder(HundredthDiopters),
    /// What the ladder predicts.
    OnLadder(HundredthDiopters),
    /// What became of the refinement by the first eye.
    Refinement {
        /// Whether its conditions offer it.
        offered: bool,
        /// What was decided.
        choice: Option<SecondEyeChoice>,
    },
    /// Every condition of the refinement.
    EveryCondition,
    /// A decision either way.
    MayDecide,
}

/// The lengths that guidance names formulas for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum NamedFor {
    /// Shorter than this.
    Under(Micrometers),
    /// From one to another.
    Between(Micrometers, Micrometers),
    /// Longer than this.
    Over(Micrometers),
}

/// Powers from one to another by a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PowerSpan {
    /// First.
    pub from: HundredthDiopters,
    /// Last.
    pub to: HundredthDiopters,
    /// Step.
    pub step: HundredthDiopters,
}

impl Limit {
    /// The powers of a lens.
    pub(crate) fn made_in(powers: &Powers) -> Self {
        let spans = powers.ranges().iter().map(|range| PowerSpan {
            from: range.from(),
            to: range.to(),
            step: range.step(),
        });
        Self::MadeIn(spans.collect())
    }
}
