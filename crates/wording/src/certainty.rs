//! How sure a prediction is: what can be off, how far, and why that may not be known.

use std::borrow::Cow;

use millrace_core::certainty::{ErrorSource, NoDistribution, NoSpread, Origin};
use millrace_core::evidence::Standing;

use crate::{Show, Words};

messages! {
    axial_length = "axial length";
    corneal_power = "corneal readings";
    chamber_depth = "anterior chamber depth";
    lens_thickness = "lens thickness";
    corneal_thickness = "corneal thickness";
    posterior_radius = "posterior corneal radius";
    lens_position = "lens position and all else";
    operated_cornea = "power of the operated cornea";
    labeled_power = "labeled power of the lens";
    refraction = "refraction measured after surgery";

    reported = "reported with the measurement";
    instead_of_zero(source) = "instead of the zero reported with the measurement: {source}";
    tolerance(source, deviations, standing) = "{source}; read as {deviations} standard deviations [{standing}]";
    of_usual_value(source) = "not measured, spread of usual values: {source}";
    calibrated(standing) = "what the formula's scatter leaves in the average eye [{standing}]";

    unknown_by_method(what, method) = "the spread of the {what} by {method} is not known: enter the measurement's own";
    below_zero(what) = "the spread of the {what} is below zero";
    no_deviations = "lens_tolerance_deviations is zero, so the labeled power has no spread";
    no_scatter = "no scatter of its prediction error is published: its eye has no fitted constant";
    scatter_too_small(scatter, least) = "a scatter of {scatter} is less than measurement, label and refraction alone make in the average eye, {least}";
}

impl Show for ErrorSource {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::AxialLength => axial_length(words),
            Self::CornealPower => corneal_power(words),
            Self::ChamberDepth => chamber_depth(words),
            Self::LensThickness => lens_thickness(words),
            Self::CornealThickness => corneal_thickness(words),
            Self::PosteriorRadius => posterior_radius(words),
            Self::LensPosition => lens_position(words),
            Self::OperatedCornea => operated_cornea(words),
            Self::LabeledPower => labeled_power(words),
            Self::Refraction => refraction(words),
        }
        .into()
    }
}

impl Show for Origin {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Measured => return reported(words).into(),
            Self::Table { source, .. } => return source.show(words).into_owned().into(),
            Self::InsteadOfZero { source, .. } => instead_of_zero(words, source),
            Self::Tolerance {
                source, deviations, ..
            } => tolerance(words, source, deviations, Standing::Assumption),
            Self::OfUsualValue { source } => of_usual_value(words, source),
            Self::Calibrated => calibrated(words, Standing::Derived),
        }
        .into()
    }
}

impl Show for NoSpread {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Method { what, method } => unknown_by_method(words, what, method),
            Self::Negative { what } => below_zero(words, what),
            Self::Tolerance => return no_deviations(words).into(),
        }
        .into()
    }
}

impl Show for NoDistribution {
    fn show(&self, words: Words) -> Cow<'_, str> {
        let three = |power: f64| crate::quantity::diopters(words, words.fixed(power, 3));
        match self {
            Self::Refused(refusal) => return refusal.show(words),
            Self::Spread(spread) => return spread.show(words),
            Self::NoScatter => return no_scatter(words).into(),
            Self::ScatterTooSmall { scatter_d, least_d } => {
                scatter_too_small(words, three(*scatter_d), three(*least_d))
            }
        }
        .into()
    }
}
