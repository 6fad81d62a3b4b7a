//! What a rule found.

use serde::{Deserialize, Serialize};

use super::{Asks, HardNucleus, OddsFactor, OtherCase, Outcome, Quantity, Which};
use crate::astigmatism::{PosteriorBasis, ToricRefusal};
use crate::biometry::{CornealSurgeryKind, LengthMethod, Side, Sign};
use crate::calendar::Day;
use crate::choice::{Critical, SurgeonGrade};
use crate::iol_power::{Formula, Refusal};
use crate::lens::{Haptic, Material, Obtained};
use crate::quantity::{Diopters, HundredthDiopters, Meridian, Micrometers, ThousandthDiopters};

/// What was found: a quantity, or how things stand.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Fact {
    Quantity(Quantity),
    Quantities(Vec<Quantity>),
    /// Identifiers the patient has not.
    Without(Vec<Identifier>),
    Target(HundredthDiopters),
    EyeChanges(Vec<[Side; 2]>),
    /// Other cases that do not go together with the patient.
    OtherCases(Vec<OtherCase>),
    SetAside,
    /// An eye that was operated on, with the power in it.
    LensInEye {
        eye: Side,
        power: HundredthDiopters,
    },
    SameInBothEyes {
        length: Micrometers,
        readings: [Quantity; 2],
    },
    /// Born after the planned day.
    BornLater,
    /// Numbers that two persons entered otherwise.
    TwoLooks(Vec<TwoLooks>),
    /// What the person of the second look measured.
    MeasuredBySame(Vec<Which>),
    /// Keratometry that was not repeated often enough, or differs.
    Repeats {
        /// Too few readings.
        readings: Option<i32>,
        /// Too far apart.
        apart: Option<HundredthDiopters>,
    },
    /// Principal meridians with the angle between them.
    Meridians {
        flat: Meridian,
        steep: Meridian,
        /// Degrees between them.
        apart: u16,
    },
    MeasuredOn(Vec<(Which, Day)>),
    FormulaAt {
        formula: Formula,
        length: Micrometers,
    },
    /// The formula planned by, if any, after corneal surgery that it does not fit.
    FormulaAfter {
        formula: Option<Formula>,
        surgery: CornealSurgeryKind,
    },
    NotRecorded,
    NotMeasured,
    Surgery(CornealSurgeryKind),
    /// Keratometry before and after corneal surgery.
    Contradictions(Vec<Contradiction>),
    /// A length through silicone oil, uncorrected.
    UncorrectedForOil(Option<Micrometers>),
    CorrectedForOil,
    /// A length with what its method means.
    LengthBy {
        length: Micrometers,
        method: LengthMethod,
    },
    /// An ultrasound length as it is used with constants for optical biometry.
    LengthUsed {
        length: Micrometers,
        method: LengthMethod,
        /// What is added; nothing where it is used as measured.
        added: Option<Micrometers>,
    },
    /// How far two measurements of an astigmatism are apart.
    VectorApart {
        /// As a vector at twice the angle.
        vector: HundredthDiopters,
        /// Between the steep meridians, where both have one.
        degrees: Option<u16>,
    },
    /// A sign that was seen.
    Present,
    Taken,
    /// A block by a sharp needle is planned.
    SharpNeedleBlock,
    Surgeon(SurgeonGrade),
    /// LOCS III nuclear opalescence, tenths.
    LocsOpalescence(u8),
    WeakZonules(WeakZonules),
    /// Signs of the operated eye that were seen.
    Signs(Vec<Sign>),
    /// Measurements whose own spread is far over that of their method.
    WideSpreads(Vec<Which>),
    /// LOCS III nuclear color, tenths.
    LocsColor(u8),
    Nucleus(HardNucleus),
    /// Diameter of a posterior polar opacity.
    PolarOpacity(Micrometers),
    /// A lens that is not held firmly.
    LooseLens {
        trembles: bool,
        /// How far it lies off the axis, if too far.
        off: Option<Micrometers>,
    },
    /// Factors that raise the odds of a rupture.
    Factors(Vec<OddsFactor>),
    NoFormula,
    NoAnswer {
        formula: Formula,
        why: NoAnswer,
    },
    /// A power with the refraction predicted for it, where there is one.
    Predicted {
        power: HundredthDiopters,
        /// To the nearest hundredth.
        refraction: Option<HundredthDiopters>,
    },
    /// A power with the refraction that a formula predicts for it in its place.
    PredictedBy {
        formula: Formula,
        power: HundredthDiopters,
        refraction: HundredthDiopters,
    },
    Constant(Obtained),
    /// Constants of a lens record.
    Constants(Vec<ConstantValue>),
    /// How a lens for the sulcus is made.
    Design {
        /// Name of the lens, as its record has it.
        lens: String,
        haptic: Haptic,
        material: Material,
    },
    Material(Material),
    /// Name of a lens that may not sit in the sulcus, as its record has it.
    NotForSulcus(String),
    /// Astigmatism that will drift.
    Drifts(Vec<Drift>),
    Posterior(PosteriorBasis),
    /// A chosen axis beside the suggested one.
    Axis {
        chosen: Meridian,
        suggested: Meridian,
        /// Degrees between them.
        apart: u16,
    },
    /// A cornea that no cylinder describes.
    Cornea {
        irregular: bool,
        /// It had refractive surgery.
        operated: bool,
    },
    /// A cylinder, or none, with the one it leaves.
    Leaves {
        cylinder: Option<HundredthDiopters>,
        /// Cylinder left, where it is known.
        left: Option<HundredthDiopters>,
    },
    /// Spherical equivalent predicted with the cylinder counted.
    EquivalentWithCylinder(HundredthDiopters),
    /// Prediction error of the eye that was operated on first.
    FirstEye {
        eye: Side,
        /// Achieved less predicted.
        error: ThousandthDiopters,
    },
    NoEarlierOperation,
    /// Conditions of the refinement that are not met or cannot be told.
    Conditions(Vec<(Asks, Outcome)>),
    Undecided,
}

/// One constant of a lens, in thousandths of its unit: millimeters, but for A, a1 and a2, which have none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConstantValue {
    pub which: LensConstant,
    pub thousandths: i32,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LensConstant {
    A,
    PersonalizedAcd,
    SurgeonFactor,
    A0,
    A1,
    A2,
    /// Lens position that the three of Haigis give in the mean eye.
    HaigisPosition,
}

impl ConstantValue {
    /// To the nearest thousandth; nothing for a number that is none.
    pub(crate) fn of(which: LensConstant, value: f64) -> Option<Self> {
        let thousandths = Diopters::new(value * 10.0)
            .nearest_hundredth()?
            .hundredths();
        Some(Self { which, thousandths })
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Identifier {
    Name,
    Number,
}

/// One number as two persons entered it. The patient's number is never held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum TwoLooks {
    Number,
    Eye {
        first: Option<Side>,
        /// As the second person entered it.
        second: Side,
    },
    Meridian {
        what: Critical,
        first: Option<Meridian>,
        /// As the second person entered it.
        second: Meridian,
    },
    Quantity {
        what: Critical,
        first: Option<Quantity>,
        /// As the second person entered it.
        second: Option<Quantity>,
    },
}

/// How keratometry before and after corneal surgery contradict each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Contradiction {
    /// Mean K changed the wrong way.
    Direction {
        before: HundredthDiopters,
        now: HundredthDiopters,
    },
    /// Mean K changed by something else than the correction.
    Correction {
        /// Now less before.
        change: HundredthDiopters,
        correction: HundredthDiopters,
    },
}

/// Signs of weak zonules that were seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WeakZonules {
    Pseudoexfoliation,
    Phacodonesis,
    Both,
}

/// Why a formula gives no answer for what was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum NoAnswer {
    NotOnLadder,
    Eye(Refusal),
    Astigmatism(ToricRefusal),
}

/// An astigmatism that will drift against the rule, or has its drift ahead.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Drift {
    /// The front of the cornea is steep with the rule.
    FrontWithTheRule {
        cylinder: HundredthDiopters,
        steep: Meridian,
    },
    /// The chosen cylinder leaves the eye steep against the rule.
    LeftAgainstTheRule {
        cylinder: HundredthDiopters,
        steep: Meridian,
    },
}

impl From<Quantity> for Fact {
    fn from(quantity: Quantity) -> Self {
        Self::Quantity(quantity)
    }
}
