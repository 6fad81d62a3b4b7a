//! How a rule ends.

use super::{Because, Finding, Missing, Verdict};

impl Finding {
    /// What the rule came to.
    #[expect(
        clippy::unnecessary_wraps,
        reason = "the end of a rule, which returns a look"
    )]
    pub(super) fn found(self) -> Look {
        Ok(Some(self))
    }
}

/// What a rule came to: a finding or none, or why it could not look.
pub(super) type Look = Result<Option<Finding>, NoLook>;

/// Why a rule did not look.
#[derive(Clone, Copy, Debug)]
pub(super) enum NoLook {
    /// It does not concern the case.
    Because(Because),
    Missing(Missing),
}

impl From<Missing> for NoLook {
    fn from(missing: Missing) -> Self {
        Self::Missing(missing)
    }
}

impl From<Because> for NoLook {
    fn from(because: Because) -> Self {
        Self::Because(because)
    }
}

impl From<Look> for Verdict {
    fn from(look: Look) -> Self {
        match look {
            Ok(None) => Self::Satisfied,
            Ok(Some(finding)) => Self::Finding(finding),
            Err(NoLook::Because(because)) => Self::NotApplicable(because),
            Err(NoLook::Missing(missing)) => Self::NotEvaluated(missing),
        }
    }
}
