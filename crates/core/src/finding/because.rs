//! Why a rule does not concern a case.

use serde::{Deserialize, Serialize};

/// Why a rule does not concern a case.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Because {
    NoSecondLook,
    /// The stricter screening set is switched off.
    StricterSetOff,
    /// The longer eye is long, for which another rule has the limit.
    LongEye,
    FromEpithelium,
    UnusualAfterSurgery,
    NoCornealSurgery,
    /// Which way other surgery changes K is not known.
    OtherSurgeryUnknown,
    FormulaForOperatedCorneas,
    /// Guidance by length is not for operated corneas.
    GuidanceForUntouchedCorneas,
    GivenAsRadii,
    EqualRadii,
    NoSiliconeOil,
    /// The length is not corrected for oil, which another rule stops.
    UncorrectedForOil,
    /// The axial length was measured optically.
    OpticalLength,
    UltrasoundLength,
    UltrasoundConstants,
    /// How to combine them was not chosen, which another rule asks for.
    UseNotChosen,
    /// The nucleus does not count as hard.
    NucleusNotHard,
    NoPrintedTolerance,
    /// The nucleus is delivered whole.
    DeliveredWhole,
    SmallIncisionChosen,
    PhacoemulsificationChosen,
    /// The nucleus is delivered in two or three parts.
    DeliveredInParts,
    /// The limit is switched off.
    LimitOff,
    /// The capsulorhexis is stretched beyond tearing, which another rule says.
    BeyondTearing,
    /// The chamber depth was not measured by contact ultrasound.
    NotContactUltrasound,
    NoGuttata,
    NoPseudoexfoliation,
    IndependentSurgeon,
    /// The chosen lens does not sit in the capsular bag.
    NotInBag,
    NoConstantTaken,
    /// The constant is converted, for which there is another rule.
    ConvertedConstant,
    /// The lens is not of hydrophilic acrylic.
    NotHydrophilic,
    NoAnteriorChamberIol,
    Toric,
    /// The chosen lens is not toric.
    NotToric,
    /// The label names the spherical equivalent.
    LabelIsEquivalent,
    /// No earlier operation on the fellow eye is recorded.
    NoEarlierOperation,
    /// Nobody chose a refinement by the first eye.
    RefinementNotChosen,
    RefinementDeclined,
    /// A condition of the refinement is not met.
    RefinementConditionNotMet,
}
