//! What a rule is.

use super::{Facts, Look, Verdict};
use crate::evidence::Source;

/// A rule: who it is, what it looks at, and how.
///
/// Its texts are the help on the desk, `millrace rules` and `docs/rules.md`: one text, three
/// places.
#[derive(Debug)]
pub struct Rule {
    /// Permanent id, never reused.
    pub id: &'static str,
    /// What a finding says, in a few words.
    pub title: &'static str,
    pub group: Group,
    pub severity: Severity,
    /// The approach a finding speaks for, if any.
    pub bearing: Option<Bearing>,
    /// What is compared with what; which side the limit itself is on.
    pub checks: &'static str,
    pub why: &'static str,
    /// What may be done about it: options, not directives.
    pub options: &'static str,
    /// Where limit and reason come from.
    pub sources: &'static [Source],
    /// Names of the limits it reads, as in the file of limits.
    pub limits: &'static [&'static str],
    pub(super) evaluate: fn(&Facts<'_>) -> Look,
}

impl Rule {
    pub fn verdict(&self, facts: &Facts<'_>) -> Verdict {
        (self.evaluate)(facts).into()
    }
}

/// What a finding asks of the person planning.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Cannot be signed.
    Stop,
    /// Needs a recorded reason.
    Review,
    Note,
}

/// The clinical question a rule belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Is this the right patient, eye and target?
    Identity,
    Believable,
    /// Phacoemulsification or manual small-incision surgery?
    Approach,
    Risk,
    LensChoice,
    /// What does the first eye say of the second?
    SecondEye,
}

/// Which approach a finding speaks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Bearing {
    Phacoemulsification,
    /// For manual small-incision surgery.
    SmallIncision,
}

impl Group {
    pub const ALL: [Self; 6] = [
        Self::Identity,
        Self::Believable,
        Self::Approach,
        Self::Risk,
        Self::LensChoice,
        Self::SecondEye,
    ];

    pub const fn question(self) -> &'static str {
        match self {
            Self::Identity => "Patient, eye and target",
            Self::Believable => "Plausibility of measurements",
            Self::Approach => {
                "Approach: phacoemulsification or manual small-incision surgery (SICS)"
            }
            Self::Risk => "Risk of complications",
            Self::LensChoice => "Choice of lens",
            Self::SecondEye => "Second eye",
        }
    }
}
