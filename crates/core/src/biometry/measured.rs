//! A measurement and its circumstances.

use core::fmt;
use core::str::FromStr;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::{serde_as, skip_serializing_none};

use super::Method;
use crate::calendar::Day;
use crate::quantity::{Micrometers, Text};

/// A value with how, when and by whom it was obtained.
///
/// `S` is the type of the spread (one standard deviation of repeated measurement), in the unit of
/// the value; absent if the instrument did not report one.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(
    deny_unknown_fields,
    bound(
        serialize = "T: Serialize, S: fmt::Display",
        deserialize = "T: Deserialize<'de>, S: FromStr<Err: fmt::Display>"
    )
)]
pub struct Measured<T, S = Micrometers> {
    pub value: T,
    pub method: Method,
    /// Standard deviation of repeated measurement, if reported.
    #[serde_as(as = "Option<Text>")]
    pub spread: Option<S>,
    #[serde_as(as = "Option<Day>")]
    pub on: Option<NaiveDate>,
    pub by: Option<String>,
}

/// The spread of what instruments report without one: there is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoSpread {}

/// A spread where none is reported.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("instruments report no spread of this measurement")]
pub struct SpreadNotReported;

impl fmt::Display for NoSpread {
    fn fmt(&self, _: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {}
    }
}

impl FromStr for NoSpread {
    type Err = SpreadNotReported;

    fn from_str(_: &str) -> Result<Self, Self::Err> {
        Err(SpreadNotReported)
    }
}

impl<T, S: Clone> Measured<T, S> {
    /// Another value in the same circumstances.
    pub fn map<U>(&self, value: impl FnOnce(T) -> U) -> Measured<U, S>
    where
        T: Clone,
    {
        Measured {
            value: value(self.value.clone()),
            method: self.method,
            spread: self.spread.clone(),
            on: self.on,
            by: self.by.clone(),
        }
    }
}
