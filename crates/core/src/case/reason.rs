//! Going against a finding, on the record.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::{serde_as, skip_serializing_none};

use super::update::check_reason;
use crate::calendar::Day;
use crate::finding::{Fact, Limit};
use crate::lens::Place;
use crate::quantity::checked_when_read;

/// A reason recorded for a finding as it stood.
///
/// It holds only while the finding is the same: a reason given for 2.60 mm says nothing of 2.10 mm.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct RecordedReason {
    /// Permanent id of the rule.
    pub rule: String,
    /// The backup lens it is about; nothing for the planned one, and for all else.
    pub backup: Option<Place>,
    pub measured: Fact,
    pub limit: Limit,
    pub reason: String,
    pub by: String,
    /// The day; passed in, since this crate reads no clock.
    #[serde_as(as = "Day")]
    pub on: NaiveDate,
}

impl RecordedReason {
    /// Whether it was recorded for this rule, and for the lens it is about: a reason for one lens says
    /// nothing of another.
    pub fn is_for(&self, rule: &str, backup: Option<Place>) -> bool {
        self.rule == rule && self.backup == backup
    }
}

checked_when_read!(RecordedReason, check_reason);
