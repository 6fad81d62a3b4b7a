//! Measured numbers as text with their unit: "23.45 mm", "540 µm", "−0.25 D".

use core::fmt;

use super::DecimalError;
use crate::quantity::keratometric::IndexError;

/// A number is outside the range its quantity can physically have.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{quantity} {value} is outside {min} to {max}")]
pub struct OutOfRange {
    /// What was being set, in the field's standard term.
    pub quantity: &'static str,
    /// The rejected number with its unit.
    pub value: String,
    /// Smallest accepted number with its unit.
    pub min: String,
    /// Largest accepted number with its unit.
    pub max: String,
}

impl OutOfRange {
    /// Refuses a value outside the limits, which themselves pass.
    pub(crate) fn unless_within<T: fmt::Display + PartialOrd>(
        quantity: &'static str,
        value: T,
        [min, max]: [T; 2],
    ) -> Result<(), Self> {
        if min <= value && value <= max {
            return Ok(());
        }
        Err(Self::new(quantity, value, [min, max]))
    }

    /// Describes `value` against the limits it broke.
    pub fn new(
        quantity: &'static str,
        value: impl fmt::Display,
        limits: [impl fmt::Display; 2],
    ) -> Self {
        let [min, max] = limits.map(|limit| limit.to_string());
        Self {
            quantity,
            value: value.to_string(),
            min,
            max,
        }
    }
}

/// Why a text is no measurement of the wanted kind.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MeasureError {
    /// The number cannot be read.
    #[error("{quantity}: {error}")]
    Number {
        /// What was being read, in the field's standard term.
        quantity: &'static str,
        error: DecimalError,
    },
    /// The unit is missing or another one.
    #[error("{quantity} \"{text}\" needs its unit: write {example}")]
    Unit {
        quantity: &'static str,
        text: String,
        /// How such a value is written.
        example: &'static str,
    },
    /// The number is outside what the quantity can be.
    #[error(transparent)]
    Range(#[from] OutOfRange),
    #[error(transparent)]
    Index(#[from] IndexError),
    /// A keratometric power without the index it was computed with.
    #[error(
        "keratometry \"{text}\" is a power without its index, which can be off by 0.8 D: \
         write \"{text} at 1.3375\" with the index of the instrument, or the radius in mm"
    )]
    IndexMissing { text: String },
}

/// The number in front of `unit`, or nothing if the text does not end in that unit.
pub fn number_before_unit<'a>(text: &'a str, unit: &str) -> Option<&'a str> {
    let number = text.trim().strip_suffix(unit)?.trim_end();
    let ends_in_digit = number.ends_with(|last: char| last.is_ascii_digit());
    ends_in_digit.then_some(number)
}
