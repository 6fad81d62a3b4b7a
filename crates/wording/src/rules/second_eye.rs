//! The refinement by the first eye.

use core::cmp::Ordering;

use millrace_core::finding::{Asks, Found, Lacking};
use millrace_core::quantity::ThousandthDiopters;

use crate::quantity::unsigned;
use crate::{Show as _, Words};

messages! {
    error_convention = "prediction error: achieved less predicted spherical equivalent";
    more_myopic(size) = "{size} more myopic than predicted";
    as_predicted = "as predicted";
    more_hyperopic(size) = "{size} more hyperopic than predicted";
}

/// A prediction error: size and direction, and no sign that could be copied.
pub fn prediction_error(words: Words, error: ThousandthDiopters) -> String {
    let size = error.abs();
    let size = size.show(words);
    let size = size.trim_start_matches('+');
    match error.thousandths().cmp(&0) {
        Ordering::Less => more_myopic(words, size),
        Ordering::Equal => as_predicted(words).to_owned(),
        Ordering::Greater => more_hyperopic(words, size),
    }
}

shown! { Asks, words {
    MeanK(limit: unsigned(words, *limit)) = "mean K of the eyes differs by at most {limit}";
    Uncomplicated = "the first operation was not complicated";
    SameFormula = "the first eye was predicted by the chosen formula";
    SmallError(limit: unsigned(words, *limit)) = "the first eye came out at most {limit} from its prediction";
    Lengths(limit) = "axial lengths of the eyes differ by at most {limit}";
    SameModel = "both eyes get the same lens model";
    UntouchedCorneas = "neither eye had corneal refractive surgery";
}}

shown! { Found, words {
    Apart(apart: unsigned(words, *apart)) = "{apart} apart";
    Uncomplicated = "as recorded";
    Complicated = "it was";
    Formulas { first, here } = "{first} there, {here} here";
    LengthsApart(apart) = "{apart} apart";
    SameModel = "the same";
    OtherModel = "another in the first eye";
    NeitherCornea = "neither had";
    ThisCornea = "this eye had";
    FirstCornea = "the first eye had";
    BothCorneas = "both eyes had";
} else {
    Self::Formula(formula) => formula.show(words),
    Self::Error(error) => prediction_error(words, *error).into(),
}}

shown! { Lacking, words {
    Keratometry = "keratometry of one or both eyes";
    Course = "course of the first operation (complicated or not)";
    FirstFormula = "formula of the first prediction";
    Formula = "chosen formula";
    AxialLength = "axial length of one or both eyes";
    FirstModel = "lens model in the first eye";
    Lens = "planned lens";
    CornealSurgery = "corneal refractive surgery (yes or no) of one or both eyes";
}}
