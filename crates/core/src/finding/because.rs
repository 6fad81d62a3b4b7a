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
    /// Somebody judged the nucleus, with a reason.
    NucleusJudged,
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
    NoContactLenses,
    /// No measurement brought a spread of its own.
    NoOwnSpread,
    NoPseudoexfoliation,
    /// The eye has pseudoexfoliation, for which there are other rules.
    Pseudoexfoliation,
    IndependentSurgeon,
    /// The chosen lens does not sit in the capsular bag.
    NotInBag,
    NoConstantTaken,
    /// A graver rule, with a wider limit, speaks of the same number.
    WiderLimitExceeded,
    /// One of the eyes had its cataract operation.
    EarlierOperation,
    /// At ordinary lengths the formulas agree, and guidance tells little.
    OrdinaryLength,
    /// No power was chosen of a lens that lies ready, which it may do without.
    NoPowerOfBackup,
    /// No formula gives a result for the lens, which another rule stops.
    NoResult,
    /// The power is so far off that another rule stops it.
    FartherOff,
    /// No constant of the lens is called converted.
    NothingConverted,
    /// Fewer than two constants of the lens are of its own.
    OneConstant,
    /// They are so far apart that another rule stops them.
    FartherApart,
    /// No two records of the case are of one model.
    NoOtherRecord,
    /// No lens is meant for the sulcus.
    NoSulcusLens,
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
    /// The label names the weakest meridian, for which there is another rule.
    LabelIsWeakest,
    /// The formula takes the mean of the corneal powers everywhere.
    MeanOfPowers,
    /// No earlier operation on the fellow eye is recorded.
    NoEarlierOperation,
    /// Nobody chose a refinement by the first eye.
    RefinementNotChosen,
    RefinementDeclined,
    /// A condition of the refinement is not met.
    RefinementConditionNotMet,
}
