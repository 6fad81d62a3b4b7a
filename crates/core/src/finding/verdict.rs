//! The four verdicts of a rule.

use serde::{Deserialize, Serialize};

use super::{Because, Detail, Fact, Limit, Missing};

/// What a rule says of a case.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Looked at, nothing to say.
    Satisfied,
    /// Looked at, something to say.
    Finding(Finding),
    /// Does not concern this case.
    NotApplicable(Because),
    /// Could not be looked at. Silence is not a pass.
    NotEvaluated(Missing),
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Finding {
    pub measured: Fact,
    pub limit: Limit,
    /// More to know.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub details: Vec<Detail>,
    /// Whether it is clearly beyond the limit.
    pub certainty: Certainty,
}

/// How sure a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Certainty {
    AsMeasured,
    /// Beyond the limit with at least the chance a clinic calls clear.
    Clear {
        /// Chance that the true value lies beyond the limit.
        chance: f64,
    },
    /// Too near to the limit to tell.
    Borderline {
        /// Chance that the true value lies beyond the limit.
        chance: f64,
    },
}

impl Finding {
    pub(crate) fn new(measured: impl Into<Fact>, limit: Limit) -> Self {
        Self {
            measured: measured.into(),
            limit,
            details: Vec::new(),
            certainty: Certainty::AsMeasured,
        }
    }

    /// With more to know.
    #[must_use]
    pub(crate) fn with(mut self, details: impl IntoIterator<Item = Detail>) -> Self {
        self.details.extend(details);
        self
    }
}
