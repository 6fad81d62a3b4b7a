//! A nucleus judged by hand, against what follows from grade and appearance or where nothing does.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::serde_as;

use super::CommandRefused;
use super::update::check_said;
use crate::calendar::Day;
use crate::quantity::checked_when_read;

/// Whether the nucleus is hard, as somebody judged it.
#[serde_as]
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct JudgedNucleus {
    pub hard: bool,
    pub reason: String,
    pub by: String,
    /// The day; passed in, since this crate reads no clock.
    #[serde_as(as = "Day")]
    pub on: NaiveDate,
}

checked_when_read!(JudgedNucleus, JudgedNucleus::check);

impl JudgedNucleus {
    /// Refuses one without a reason or a person.
    pub(super) fn check(&self) -> Result<(), CommandRefused> {
        check_said(&self.reason, &self.by)
    }
}
