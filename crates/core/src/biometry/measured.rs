//! A measurement and its circumstances.

use chrono::NaiveDate;

use super::Method;

/// A value with how, when and by whom it was obtained.
///
/// `S` is the type of the spread (one standard deviation of repeated measurement), in the unit of
/// the value; absent if the instrument did not report one.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured<T, S = crate::quantity::Micrometers> {
    /// The value as measured.
    pub value: T,
    /// How it was measured.
    pub method: Method,
    /// Standard deviation of repeated measurement, if reported.
    pub spread: Option<S>,
    /// The day.
    pub on: Option<NaiveDate>,
    /// Who measured.
    pub by: Option<String>,
}
