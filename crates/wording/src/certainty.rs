//! How sure a prediction is: what can be off, how far, and why that may not be known.

use millrace_core::biometry::Item;
use millrace_core::certainty::{
    ErrorSource, NoDistribution, NoSpread, Origin, UnusualEye, Way, Withheld,
};
use millrace_core::evidence::Standing;

use crate::measurements::name;
use crate::quantity::diopters;

messages! {
    instead_of_zero(source) = "instead of the zero reported with the measurement: {source}";
    tolerance(source, deviations, standing) = "{source}; read as {deviations} standard deviations [{standing}]";
    calibrated(standing) = "what the formula's scatter leaves over an ordinary population, the same in every eye [{standing}]";
    scatter_too_small(scatter, least) = "a scatter of {scatter} is less than measurement, label, refraction and known tendencies alone make, {least}";
    withheld(why) = "withheld; {why}";
    tendency(eye, way) = "{eye}: {way}";
    bias(mean) = "known tendency, achieved less predicted {mean} on the average; not added to the prediction, its own range is widened by it";
}

shown! { ErrorSource, words {
    LensPosition = "lens position (ELP)";
    OperatedCornea = "corneal power after surgery";
    LabeledPower = "labeled power of the lens";
    Refraction = "refraction measured after surgery";
    Unexplained = "lens position (ELP) and all else";
    Tendency = "known tendency in such eyes";
} else {
    Self::AxialLength => name(words, Item::AxialLength).into(),
    Self::CornealPower => name(words, Item::Keratometry).into(),
    Self::ChamberDepth => name(words, Item::ChamberDepth).into(),
    Self::LensThickness => name(words, Item::LensThickness).into(),
    Self::CornealThickness => name(words, Item::CornealThickness).into(),
    Self::PosteriorRadius => name(words, Item::PosteriorRadius).into(),
}}

shown! { Origin, words {
    Measured = "reported with the measurement";
    OfUsualValue { source } = "not measured, spread of usual values: {source}";
    KnownTendency { source } = "{source}";
} else {
    Self::Table { source, .. } => source.show(words).into_owned().into(),
    Self::InsteadOfZero { source, .. } => instead_of_zero(words, source).into(),
    Self::Tolerance { source, deviations, .. } => tolerance(words, source, deviations, Standing::Assumption).into(),
    Self::Calibrated => calibrated(words, Standing::Derived).into(),
}}

shown! { NoSpread, words {
    Method { what, method } = "the spread of the {what} by {method} is not known: enter the SD of the measurement";
    Negative { what } = "the spread of the {what} is below zero";
    Tolerance = "lens_tolerance_deviations is zero, so the labeled power has no spread";
}}

shown! { NoDistribution, words {
    NoScatter = "no scatter of its prediction error is published: its eye has no fitted constant";
} else {
    Self::Refused(refusal) => refusal.show(words),
    Self::Spread(spread) => spread.show(words),
    Self::Withheld { because } => withheld(words, because).into(),
    Self::ScatterTooSmall { scatter_d, least_d } => {
        let three = |power: f64| diopters(words, words.fixed(power, 3));
        scatter_too_small(words, three(*scatter_d), three(*least_d)).into()
    }
}}

shown! { Withheld, words {
    IrregularCornea = "irregular cornea: no scatter of such eyes was read, and that of healthy eyes is not theirs";
    SiliconeOil = "silicone oil: only a third of such eyes end within ±{=1.00} D, and no scatter was read";
    Vitrectomy = "earlier vitrectomy: no scatter of such eyes was read, and that of healthy eyes is not theirs";
    Phacodonesis = "phacodonesis: where the lens comes to rest is less sure than in healthy eyes, by what was not read";
    Decentration = "decentered lens: where the lens comes to rest is less sure than in healthy eyes, by what was not read";
    AnteriorChamber = "anterior chamber IOL: the published scatter is of lenses in the capsular bag";
}}

shown! { UnusualEye, words {
    SteepCornea = "where mean K is over {=46.00} D";
    FlatCornea = "where mean K is under {=42.00} D";
    LongEye = "in eyes longer than {=26.00} mm";
    ShortEye = "in eyes shorter than {=22.00} mm";
}}

shown! { Way, words {
    Hyperopic = "known tendency, more hyperopic than predicted; by how much was not read, so nothing is added and the range is not widened for it";
    ScatterUnknown = "may scatter more than the range says: no scatter of such eyes alone was read";
} else {
    Self::Bias { mean_d } => bias(words, mean_d).into(),
}}
