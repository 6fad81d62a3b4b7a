//! Known tendencies of a formula, as the document says them.

use serde::{Deserialize, Serialize};

use crate::certainty::{Tendency, UnusualEye, Way};

/// A known tendency of a formula.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TendencyResult {
    /// In which eyes.
    pub eye: UnusualEye,
    /// Which way: achieved less predicted refraction.
    pub way: Way,
}

impl TendencyResult {
    pub(super) const fn of(tendency: &Tendency) -> Self {
        Self {
            eye: tendency.eye,
            way: tendency.way,
        }
    }
}
