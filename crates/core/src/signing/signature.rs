//! Who signed, as what, when, and to which target.

use core::fmt;

use chrono::{DateTime, Utc};

use crate::quantity::HundredthDiopters;

/// Number of a sheet within its register: 1, 2, 3 …
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SheetNumber(u32);

impl SheetNumber {
    /// The first sheet of a register.
    pub const FIRST: Self = Self(1);

    /// The sheet with this number; nothing for 0.
    #[must_use]
    pub const fn new(number: u32) -> Option<Self> {
        if number == 0 {
            None
        } else {
            Some(Self(number))
        }
    }

    /// The number.
    #[must_use]
    pub const fn get(self) -> u32 {
        self.0
    }

    /// The sheet after it; nothing after the last number there is.
    #[must_use]
    pub const fn next(self) -> Option<Self> {
        match self.0.checked_add(1) {
            None => None,
            Some(next) => Some(Self(next)),
        }
    }
}

impl fmt::Display for SheetNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.0, f)
    }
}

/// A signature: typed names, not proof of a person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signature {
    /// The person who signs.
    pub name: String,
    /// As what.
    pub role: String,
    /// The moment; this crate reads no clock.
    pub at: DateTime<Utc>,
    /// The target the patient consented to, entered once more from the consent.
    pub consented_target: HundredthDiopters,
}
