//! How sure a prediction is: what can be off, how far, and why that may not be known.

use millrace_core::biometry::Item;
use millrace_core::certainty::{ErrorSource, NoDistribution, NoSpread, Origin};
use millrace_core::evidence::Standing;

use crate::measurements::name;
use crate::quantity::diopters;

messages! {
    instead_of_zero(source) = "instead of the zero reported with the measurement: {source}";
    tolerance(source, deviations, standing) = "{source}; read as {deviations} standard deviations [{standing}]";
    calibrated(standing) = "what the formula's scatter leaves in the average eye [{standing}]";
    scatter_too_small(scatter, least) = "a scatter of {scatter} is less than measurement, label and refraction alone make in the average eye, {least}";
}

shown! { ErrorSource, words {
    LensPosition = "lens position (ELP) and all else";
    OperatedCornea = "corneal power after surgery";
    LabeledPower = "labeled power of the lens";
    Refraction = "refraction measured after surgery";
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
    Self::ScatterTooSmall { scatter_d, least_d } => {
        let three = |power: f64| diopters(words, words.fixed(power, 3));
        scatter_too_small(words, three(*scatter_d), three(*least_d)).into()
    }
}}
