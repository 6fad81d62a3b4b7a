//! Who signed, as what, when, and to which target.

use core::fmt;

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

use crate::quantity::HundredthDiopters;

/// Number of a sheet within its register: 1, 2, 3 …
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u32", into = "u32")]
pub struct SheetNumber(u32);

impl SheetNumber {
    /// The first sheet of a register.
    pub const FIRST: Self = Self(1);

    /// The sheet with this number; nothing for 0.
    pub const fn new(number: u32) -> Option<Self> {
        if number == 0 {
            None
        } else {
            Some(Self(number))
        }
    }

    pub const fn get(self) -> u32 {
        self.0
    }

    /// The sheet after it; nothing after the last number there is.
    pub const fn next(self) -> Option<Self> {
        match self.0.checked_add(1) {
            None => None,
            Some(next) => Some(Self(next)),
        }
    }
}

impl From<SheetNumber> for u32 {
    fn from(number: SheetNumber) -> Self {
        number.0
    }
}

impl TryFrom<u32> for SheetNumber {
    type Error = &'static str;

    fn try_from(number: u32) -> Result<Self, &'static str> {
        Self::new(number).ok_or("no sheet has the number 0")
    }
}

impl fmt::Display for SheetNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.0, f)
    }
}

/// A signature: typed names, not proof of a person.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Signature {
    pub name: String,
    pub role: String,
    /// The moment; this crate reads no clock.
    #[serde(with = "crate::calendar::moment")]
    pub at: DateTime<Utc>,
    /// The target the patient consented to, entered once more from the consent.
    #[serde(rename = "consented_target_d", with = "crate::quantity::as_diopters")]
    pub consented_target: HundredthDiopters,
}
