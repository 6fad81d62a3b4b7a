//! What a finding stands against.

use serde::{Deserialize, Serialize};

use super::{ConstantValue, Contradiction, Quantity};
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
    AtLeast(Quantity),
    AtMost(Quantity),
    Under(Quantity),
    /// This or more speaks for something.
    OrMore(Quantity),
    Within(Quantity, Quantity),
    NameAndNumber,
    ConsentedTarget(HundredthDiopters),
    RecordedConsent,
    OneEye,
    /// One patient under one number.
    OnePatient,
    StillPlanned,
    NotOperatedBefore,
    /// Two eyes that are not alike in every number.
    NotAllTheSame,
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
    Index(KeratometricIndex),
    /// So many degrees apart, or more.
    AtLeastApart(i32),
    /// So many degrees apart, or fewer.
    AtMostApart(i32),
    /// Not more than so many months before a day.
    MonthsBefore {
        /// Calendar months.
        months: i32,
        day: Day,
    },
    /// Formulas that guidance names, and the lengths it names them for.
    NamedFormulas {
        formulas: Vec<Formula>,
        lengths: NamedFor,
    },
    /// A formula that fits the corneal surgery.
    FittingFormula,
    Recorded,
    NoCornealSurgery,
    /// How mean K should have changed.
    Changes(Vec<Contradiction>, CornealSurgeryKind),
    /// A length corrected for silicone oil.
    CorrectedLength,
    NoSiliconeOil,
    /// A chosen way to use an ultrasound length with constants for optical biometry.
    ChosenUse,
    ConstantsFor(BiometryKind),
    NoProbe,
    /// At most so far apart, as a vector and in degrees.
    AtMostVector {
        /// As a vector at twice the angle.
        vector: HundredthDiopters,
        /// Between the steep meridians.
        degrees: i32,
    },
    FromEpithelium,
    /// A sign that is absent.
    Absent,
    /// A drug that was never taken.
    NeverTaken,
    NoSharpNeedle,
    /// At most so many times the spread of the method.
    TimesTheMethods(i32),
    CellsCounted,
    /// Neither sign of weak zonules.
    NoWeakZonules,
    /// A lens that neither trembles nor lies farther off the axis than this.
    FirmLens(Micrometers),
    IndependentSurgeon,
    /// Farther than the tolerance from a grade, both in tenths.
    FartherFrom {
        tolerance: i32,
        grade: i32,
    },
    NoRaisedOdds,
    /// A grade that fits the appearance.
    GradeAsItLooks,
    MadeIn(Vec<PowerSpan>),
    CylindersMade(Vec<HundredthDiopters>),
    WithoutCylinder,
    Answer,
    /// The proposed power with its prediction, where there is one.
    ProposedPower {
        power: HundredthDiopters,
        /// To the nearest hundredth.
        refraction: Option<HundredthDiopters>,
    },
    /// The cylinder that leaves least, or none, with the one it leaves.
    ProposedCylinder {
        cylinder: Option<HundredthDiopters>,
        left: Option<HundredthDiopters>,
    },
    /// A constant given by the maker or optimized.
    GivenOrOptimized,
    Optimized,
    AnotherMaterial,
    /// A lens that may sit in the sulcus.
    AllowedInSulcus,
    NoDrift,
    Measured,
    RegularCornea,
    /// The cylinder at the lens plane that leaves none.
    ExactCylinder(HundredthDiopters),
    OnLadder(HundredthDiopters),
    /// At most so far from the target.
    NearTarget {
        within: HundredthDiopters,
        target: HundredthDiopters,
    },
    /// The sign of the power that the eye needs for the target.
    SignOf(HundredthDiopters),
    /// What the conversion from the A constant gives; empty for the A constant itself.
    Converted(Vec<ConstantValue>),
    /// Constants that such lenses have: from, to.
    UsualConstants(Vec<[ConstantValue; 2]>),
    /// A lens made to lie in the sulcus: three pieces, or stiff loops of one.
    SulcusDesign,
    /// What became of the refinement by the first eye.
    Refinement {
        /// Whether its conditions offer it.
        offered: bool,
        choice: Option<SecondEyeChoice>,
    },
    EveryCondition,
    /// A decision either way.
    MayDecide,
}

/// The lengths that guidance names formulas for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum NamedFor {
    Under(Micrometers),
    Between(Micrometers, Micrometers),
    Over(Micrometers),
}

/// Powers from one to another by a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PowerSpan {
    pub from: HundredthDiopters,
    pub to: HundredthDiopters,
    pub step: HundredthDiopters,
}

impl Limit {
    pub(crate) fn made_in(powers: &Powers) -> Self {
        let spans = powers.ranges().iter().map(|range| PowerSpan {
            from: range.from(),
            to: range.to(),
            step: range.step(),
        });
        Self::MadeIn(spans.collect())
    }
}
