//! What a rule is.

use core::fmt;

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
    /// Question it belongs to.
    pub group: Group,
    /// What a finding asks for.
    pub severity: Severity,
    /// The approach a finding speaks for, if any.
    pub bearing: Option<Bearing>,
    /// What is compared with what; which side the limit itself is on.
    pub checks: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// What may be done about it: options, not directives.
    pub options: &'static str,
    /// Where limit and reason come from.
    pub sources: &'static [Source],
    /// Names of the limits it reads, as in the file of limits.
    pub limits: &'static [&'static str],
    /// Looks at a case.
    pub(super) evaluate: fn(&Facts<'_>) -> Look,
}

impl Rule {
    /// What it says of a case.
    #[must_use]
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
    /// To be known.
    Note,
}

/// The clinical question a rule belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Is this the right patient, eye and target?
    Identity,
    /// Is this measurement believable?
    Believable,
    /// Phacoemulsification or manual small-incision surgery?
    Approach,
    /// How likely are complications?
    Risk,
    /// Does this lens fit?
    LensChoice,
    /// What does the first eye say of the second?
    SecondEye,
}

/// Which approach a finding speaks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Bearing {
    /// For phacoemulsification.
    Phacoemulsification,
    /// For manual small-incision surgery.
    SmallIncision,
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Stop => "Stop",
            Self::Review => "Review",
            Self::Note => "Note",
        })
    }
}

impl Group {
    /// Every group, in order.
    pub const ALL: [Self; 6] = [
        Self::Identity,
        Self::Believable,
        Self::Approach,
        Self::Risk,
        Self::LensChoice,
        Self::SecondEye,
    ];

    /// The question.
    #[must_use]
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
