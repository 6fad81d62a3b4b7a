//! The refinement by the first eye.

use core::cmp::Ordering;

use super::quantity::magnitude;
use crate::finding::{Asks, Found, Lacking};
use crate::quantity::HundredthDiopters;

/// How a prediction error is counted, said wherever one is shown.
pub const ERROR_CONVENTION: &str = "prediction error: achieved less predicted spherical equivalent";

/// A prediction error: size and direction, and no sign that could be copied.
#[must_use]
pub fn prediction_error(error: HundredthDiopters) -> String {
    let size = magnitude(error.abs());
    match error.hundredths().cmp(&0) {
        Ordering::Less => format!("{size} more myopic than predicted"),
        Ordering::Equal => "as predicted".to_owned(),
        Ordering::Greater => format!("{size} more hyperopic than predicted"),
    }
}

/// What a condition asks.
#[must_use]
pub fn asks(asks: Asks) -> String {
    match asks {
        Asks::MeanK(limit) => {
            format!("mean K of the eyes differs by at most {}", magnitude(limit))
        }
        Asks::Uncomplicated => "the first operation was not complicated".to_owned(),
        Asks::SameFormula => {
            "the first eye was predicted by the formula this plan goes by".to_owned()
        }
        Asks::UntouchedCorneas => "neither eye had corneal refractive surgery".to_owned(),
    }
}

/// What was found of it.
#[must_use]
pub fn found(found: Found) -> String {
    match found {
        Found::Apart(apart) => format!("{} apart", magnitude(apart)),
        Found::Uncomplicated => "as recorded".to_owned(),
        Found::Complicated => "it was".to_owned(),
        Found::Formula(formula) => formula.name().to_owned(),
        Found::Formulas { first, here } => {
            format!("{} there, {} here", first.name(), here.name())
        }
        Found::NeitherCornea => "neither had".to_owned(),
        Found::ThisCornea => "this eye had".to_owned(),
        Found::FirstCornea => "the first eye had".to_owned(),
        Found::BothCorneas => "both eyes had".to_owned(),
    }
}

/// What is not recorded of it.
#[must_use]
pub const fn lacking(lacking: Lacking) -> &'static str {
    match lacking {
        Lacking::Keratometry => "keratometry of both eyes",
        Lacking::Course => "whether it was complicated",
        Lacking::FirstFormula => "formula of the first prediction",
        Lacking::Formula => "formula this plan goes by",
        Lacking::CornealSurgery => "corneal surgery of both eyes",
    }
}
