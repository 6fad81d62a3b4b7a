//! Conditions of the refinement by the first eye, as findings name them.

use serde::{Deserialize, Serialize};

use crate::iol_power::Formula;
use crate::quantity::{HundredthDiopters, Micrometers, ThousandthDiopters};

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Asks {
    /// Mean K of the eyes differs by at most this.
    MeanK(HundredthDiopters),
    /// The first operation was not complicated.
    Uncomplicated,
    SameFormula,
    /// Neither eye had corneal refractive surgery.
    UntouchedCorneas,
    /// The first eye came out at most so far from its prediction.
    SmallError(HundredthDiopters),
    /// Axial lengths of the eyes differ by at most this.
    Lengths(Micrometers),
    /// Both eyes get one lens model.
    SameModel,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    Met(Found),
    NotMet(Found),
    CannotBeTold(Lacking),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Found {
    /// How far mean K of the eyes is apart.
    Apart(HundredthDiopters),
    /// Not complicated, as recorded.
    Uncomplicated,
    Complicated,
    Formula(Formula),
    /// One formula there, another here.
    Formulas {
        /// Of the first prediction.
        first: Formula,
        /// Of this plan.
        here: Formula,
    },
    NeitherCornea,
    ThisCornea,
    /// Of the first one.
    FirstCornea,
    BothCorneas,
    /// Prediction error of the first eye.
    Error(ThousandthDiopters),
    /// How far axial lengths of the eyes are apart.
    LengthsApart(Micrometers),
    SameModel,
    OtherModel,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Lacking {
    Keratometry,
    /// Whether the first operation was complicated.
    Course,
    /// Formula of the first prediction.
    FirstFormula,
    Formula,
    CornealSurgery,
    AxialLength,
    /// Model of the lens in the first eye.
    FirstModel,
    /// The lens planned here.
    Lens,
}
