//! That another case of the register does not go together with this one's patient.

use serde::{Deserialize, Serialize};

use crate::plain_text::{self, TextRefused};
use crate::quantity::checked_when_read;

/// Another case that has this patient's number or this patient's name, and not both alike.
///
/// Whoever keeps the cases finds it; a case alone cannot tell. The other patient stays unnamed here, so that
/// no paper of one patient names another.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct OtherCase {
    /// Name of the other case, as the register has it.
    pub case: String,
    pub doubt: Doubt,
}

checked_when_read!(OtherCase, OtherCase::check);

/// Why two cases do not go together: one of them is another patient's, or mistyped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Doubt {
    /// It has the hospital number, and another name or birth date.
    NumberOfAnother,
    /// It has the name and the birth date, and another hospital number.
    AnotherNumber,
}

impl OtherCase {
    /// As many are named at most. A number that stands for "none" may be that of hundreds.
    pub const NAMED: usize = 20;

    /// As it is named where people read: enough of it to find the case by.
    pub fn name(&self) -> &str {
        self.case.get(..10).unwrap_or(&self.case)
    }

    pub(crate) fn check(&self) -> Result<(), TextRefused> {
        plain_text::check("case", &self.case)
    }
}
