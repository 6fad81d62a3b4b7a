//! Formulas for the lens power: their names, what is dubious about an answer, why there is none.

use std::borrow::Cow;

use millrace_core::biometry::Item;
use millrace_core::iol_power::sulcus::StepwisePower;
use millrace_core::iol_power::{Caution, Formula, MadeFor, Needed, NeededConstant, Refusal};

use millrace_core::plan::LadderMissing;

use crate::measurements::name;
use crate::{Show, Words};

messages! {
    at_most(power) = "at most {power}";
    from_to(from, to) = "{from} to {to}";

    short_double_k_no_history = "Double-K, no history";
    short_double_k_known_correction = "Double-K, known corr.";
    short_haigis_modified_radius = "Haigis, mod. radius";
}

/// The name over a column of the lens power table, short enough for nine of them.
pub fn column_name(words: Words, formula: Formula) -> Cow<'static, str> {
    match formula {
        Formula::DoubleKNoHistory => short_double_k_no_history(words).into(),
        Formula::DoubleKKnownCorrection => short_double_k_known_correction(words).into(),
        Formula::HaigisModifiedRadius => short_haigis_modified_radius(words).into(),
        other => other.show(words).into_owned().into(),
    }
}

impl Show for StepwisePower {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Exactly(power) => return power.show(words),
            Self::AtMost(power) => at_most(words, power),
            Self::Between(low, high) => from_to(words, low, high),
        }
        .into()
    }
}

shown! { Formula, words {
    SrkT = "SRK/T";
    T2 = "T2";
    Holladay1 = "Holladay 1";
    HofferQ = "Hoffer Q";
    Haigis = "Haigis";
    ThickLens = "Thick lens";
    DoubleKNoHistory = "Double-K SRK/T, no-history K";
    DoubleKKnownCorrection = "Double-K SRK/T, known correction";
    HaigisModifiedRadius = "Haigis, modified radius";
}}

shown! { Caution, words {
    HolladayRadiusFloor = "radius under {=7.0} mm: lens position computed with {=7.0} mm, as the formula prescribes";
    HolladayChamberDiameterCap = "chamber diameter over {=13.5} mm: taken as {=13.5} mm, as the formula prescribes";
    HofferLengthFloor = "axial length under {=18.5} mm: lens position computed with {=18.5} mm, as the formula prescribes";
    HofferLengthCap = "axial length over 31 mm: lens position computed with 31 mm, as the formula prescribes";
    HofferDepthFloor = "predicted depth under {=2.5} mm: taken as {=2.5} mm, a limit found in some texts only";
    HofferDepthCap = "predicted depth over {=6.5} mm: taken as {=6.5} mm, a limit found in some texts only";
    NoFittedConstant = "a physical check without a fitted constant, not for choosing a power by";
    ThicknessAssumed = "corneal thickness not measured: {=0.54} mm assumed";
    PosteriorRadiusAssumed = "posterior corneal radius not measured: {=0.81} of the anterior radius assumed";
    LensShapeAssumed = "lens known by its power only: equiconvex lens assumed";
    AfterCornealSurgery = "after corneal refractive surgery: published scatter is about {=0.70} D (1 SD)";
    UltrasoundLength = "ultrasound axial length used with constants for optical biometry, by choice";
    OpticalLengthUltrasoundConstants = "optical axial length used with constants for ultrasound";
    SiliconeOil = "powers are for the eye without oil: while it stays in, a filled eye needs +3 to +5 D more [printed], and only a third come within ±1 D [printed]";
    SiliconeOilNotRecorded = "whether there is silicone oil was not recorded";
    CornealSurgeryNotRecorded = "whether the cornea had refractive surgery was not recorded: computed as untouched";
}}

shown! { Refusal, words {
    NotMeasured { what } = "{what} is missing";
    NoConstant { what } = "{what} is missing in the lens record";
    NoCornealHeight { width, radius } = "computed corneal width {width} exceeds twice the corneal radius {radius}: the corneal height has no real value";
    LensOutsideEye { lens_position, optical_length } = "predicted lens position {lens_position} is not inside the eye of {optical_length}";
    NoRealImage { at } = "no real image for {at}";
    NoSuchLens { power } = "no lens of the assumed shape has {power}";
    CorneaOperated = "made for corneas without refractive surgery; this one had it";
    OtherSurgery { to } = "applies only after {to} corneal surgery";
    UltrasoundLength = "axial length is ultrasound's, the lens constants are for optical biometry: how to combine them is not chosen";
    LengthMethod = "axial length is recorded with a method that measures none";
    UncorrectedSiliconeOil = "axial length through silicone oil was not corrected for it";
}}

shown! { Needed, words {
    ThicknessForDepth = "corneal thickness, to convert the anterior chamber depth from the endothelium";
    BackSurface = "posterior surface of the cornea after refractive surgery";
    Correction = "correction made by the corneal surgery";
    KeratometryBefore = "keratometry before the corneal surgery";
} else {
    Self::AxialLength => name(words, Item::AxialLength).into(),
    Self::Keratometry => name(words, Item::Keratometry).into(),
    Self::ChamberDepth => name(words, Item::ChamberDepth).into(),
    Self::LensThickness => name(words, Item::LensThickness).into(),
}}

shown! { NeededConstant, words {
    A = "A constant";
    PersonalizedAcd = "pACD constant";
    SurgeonFactor = "surgeon factor";
    Haigis = "Haigis constant a0, a1 or a2";
    Optic = "index or thickness of the optic";
}}

shown! { MadeFor, words {
    Myopic = "myopic laser";
    MyopicOrHyperopic = "myopic or hyperopic laser";
}}

shown! { LadderMissing, words {
    Lens = "no lens record was chosen";
    Target = "no target refraction was chosen";
}}
