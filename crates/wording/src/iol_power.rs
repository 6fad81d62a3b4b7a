//! Formulas for the lens power: their names, what is dubious about an answer, why there is none.

use std::borrow::Cow;

use millrace_core::iol_power::{Caution, Formula, MadeFor, Needed, NeededConstant, Refusal};

use crate::{Show, Words};

messages! {
    srk_t = "SRK/T";
    t2 = "T2";
    holladay_1 = "Holladay 1";
    hoffer_q = "Hoffer Q";
    haigis = "Haigis";
    thick_lens = "Thick lens";
    double_k_no_history = "Double-K SRK/T, no-history K";
    double_k_known_correction = "Double-K SRK/T, known correction";
    haigis_modified_radius = "Haigis, modified radius";

    holladay_radius_floor = "radius under {=7.0} mm: lens position computed with {=7.0} mm, as the formula prescribes";
    holladay_chamber_diameter_cap = "chamber diameter over {=13.5} mm: taken as {=13.5} mm, as the formula prescribes";
    hoffer_length_floor = "axial length under {=18.5} mm: lens position computed with {=18.5} mm, as the formula prescribes";
    hoffer_length_cap = "axial length over 31 mm: lens position computed with 31 mm, as the formula prescribes";
    hoffer_depth_floor = "predicted depth under {=2.5} mm: taken as {=2.5} mm, a limit found in some texts only";
    hoffer_depth_cap = "predicted depth over {=6.5} mm: taken as {=6.5} mm, a limit found in some texts only";
    no_fitted_constant = "a physical check without a fitted constant, not for choosing a power by";
    thickness_assumed = "corneal thickness not measured: {=0.54} mm assumed";
    posterior_radius_assumed = "posterior corneal radius not measured: {=0.81} of the anterior radius assumed";
    lens_shape_assumed = "lens known by its power only: equiconvex lens assumed";
    after_corneal_surgery = "after corneal refractive surgery: published scatter is about {=0.70} D (1 SD)";
    ultrasound_length = "ultrasound axial length used with constants for optical biometry, by choice";
    optical_length_ultrasound_constants = "optical axial length used with constants for ultrasound";
    silicone_oil = "powers are for the eye without oil: while it stays in, a filled eye needs +3 to +5 D more [printed], and only a third come within ±1 D [printed]";
    silicone_oil_not_recorded = "whether there is silicone oil was not recorded";
    corneal_surgery_not_recorded = "whether the cornea had refractive surgery was not recorded: computed as untouched";

    not_measured(what) = "needs the {what}, which was not measured";
    no_constant(what) = "needs the {what} of the lens, which its record does not give";
    no_corneal_height(width, radius) = "computed corneal width {width} exceeds twice the corneal radius {radius}: the corneal height has no real value";
    lens_outside_eye(position, length) = "predicted lens position {position} is not inside the eye of {length}";
    no_real_image(at) = "no real image for {at}";
    no_such_lens(power) = "no lens of the assumed shape has {power}";
    cornea_operated = "made for corneas without refractive surgery; this one had it";
    other_surgery(to) = "applies only after {to} corneal surgery";
    ultrasound_not_chosen = "axial length is ultrasound's, the lens constants are for optical biometry: how to combine them is not chosen";
    length_method = "axial length is recorded with a method that measures none";
    uncorrected_silicone_oil = "axial length through silicone oil was not corrected for it";

    axial_length = "axial length";
    keratometry = "keratometry";
    chamber_depth = "anterior chamber depth";
    lens_thickness = "lens thickness";
    back_surface = "back surface of the operated cornea";
    correction = "correction made by the corneal surgery";
    keratometry_before = "keratometry before the corneal surgery";

    a_constant = "A constant";
    personalized_acd = "pACD";
    surgeon_factor = "surgeon factor";
    haigis_constants = "constants a0, a1, a2";
    optic = "optic's index and thickness";

    myopic = "myopic laser";
    myopic_or_hyperopic = "myopic or hyperopic laser";
}

impl Show for Formula {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::SrkT => srk_t(words),
            Self::T2 => t2(words),
            Self::Holladay1 => holladay_1(words),
            Self::HofferQ => hoffer_q(words),
            Self::Haigis => haigis(words),
            Self::ThickLens => thick_lens(words),
            Self::DoubleKNoHistory => double_k_no_history(words),
            Self::DoubleKKnownCorrection => double_k_known_correction(words),
            Self::HaigisModifiedRadius => haigis_modified_radius(words),
        }
        .into()
    }
}

impl Show for Caution {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::HolladayRadiusFloor => holladay_radius_floor(words),
            Self::HolladayChamberDiameterCap => holladay_chamber_diameter_cap(words),
            Self::HofferLengthFloor => hoffer_length_floor(words),
            Self::HofferLengthCap => hoffer_length_cap(words),
            Self::HofferDepthFloor => hoffer_depth_floor(words),
            Self::HofferDepthCap => hoffer_depth_cap(words),
            Self::NoFittedConstant => no_fitted_constant(words),
            Self::ThicknessAssumed => thickness_assumed(words),
            Self::PosteriorRadiusAssumed => posterior_radius_assumed(words),
            Self::LensShapeAssumed => lens_shape_assumed(words),
            Self::AfterCornealSurgery => after_corneal_surgery(words),
            Self::UltrasoundLength => ultrasound_length(words),
            Self::OpticalLengthUltrasoundConstants => optical_length_ultrasound_constants(words),
            Self::SiliconeOil => silicone_oil(words),
            Self::SiliconeOilNotRecorded => silicone_oil_not_recorded(words),
            Self::CornealSurgeryNotRecorded => corneal_surgery_not_recorded(words),
        }
        .into()
    }
}

impl Show for Refusal {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::NotMeasured { what } => not_measured(words, what),
            Self::NoConstant { what } => no_constant(words, what),
            Self::NoCornealHeight { width, radius } => no_corneal_height(words, width, radius),
            Self::LensOutsideEye {
                lens_position,
                optical_length,
            } => lens_outside_eye(words, lens_position, optical_length),
            Self::NoRealImage { at } => no_real_image(words, at),
            Self::NoSuchLens { power } => no_such_lens(words, power),
            Self::CorneaOperated => return cornea_operated(words).into(),
            Self::OtherSurgery { to } => other_surgery(words, to),
            Self::UltrasoundLength => return ultrasound_not_chosen(words).into(),
            Self::LengthMethod => return length_method(words).into(),
            Self::UncorrectedSiliconeOil => return uncorrected_silicone_oil(words).into(),
        }
        .into()
    }
}

impl Show for Needed {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::AxialLength => axial_length(words),
            Self::Keratometry => keratometry(words),
            Self::ChamberDepth => chamber_depth(words),
            Self::LensThickness => lens_thickness(words),
            Self::BackSurface => back_surface(words),
            Self::Correction => correction(words),
            Self::KeratometryBefore => keratometry_before(words),
        }
        .into()
    }
}

impl Show for NeededConstant {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::A => a_constant(words),
            Self::PersonalizedAcd => personalized_acd(words),
            Self::SurgeonFactor => surgeon_factor(words),
            Self::Haigis => haigis_constants(words),
            Self::Optic => optic(words),
        }
        .into()
    }
}

impl Show for MadeFor {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Myopic => myopic(words),
            Self::MyopicOrHyperopic => myopic_or_hyperopic(words),
        }
        .into()
    }
}
