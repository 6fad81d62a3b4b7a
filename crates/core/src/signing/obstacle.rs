//! What stands between a plan and its signature.

use crate::case::{Slot, TextRefused};
use crate::lens::Place;
use crate::quantity::HundredthDiopters;
use crate::rules::{Finding, Identifier, Missing, Severity};

/// One thing that keeps a plan from being signed.
#[derive(Clone, Debug, PartialEq)]
pub enum Obstacle {
    /// Nobody said which eye.
    NoEye,
    /// The patient has no name or number.
    NoIdentifier {
        /// Which of the two.
        what: Identifier,
    },
    /// No target.
    NoTarget,
    /// No consented target in the case.
    NoConsent,
    /// The case's own consented target is another one.
    ConsentDiffers {
        /// Target of the plan.
        target: HundredthDiopters,
        /// Consented target of the case.
        consented: HundredthDiopters,
    },
    /// The target entered with the signature is another one.
    EnteredDiffers {
        /// Target of the plan.
        target: HundredthDiopters,
        /// Target entered with the signature.
        entered: HundredthDiopters,
    },
    /// No lens.
    NoLens,
    /// No formula.
    NoFormula,
    /// No power.
    NoPower,
    /// A power the lens is not made in.
    PowerNotMade {
        /// Which lens.
        lens: Slot,
        /// The power.
        power: HundredthDiopters,
    },
    /// A toric lens without cylinder and axis.
    NoCylinder {
        /// Which lens.
        lens: Slot,
    },
    /// No approach.
    NoApproach,
    /// A Stop finding stands.
    Stop {
        /// Id of the rule.
        rule: &'static str,
        /// The backup lens it is about, if it is.
        backup: Option<Place>,
        /// What was found.
        finding: Finding,
    },
    /// A rule that could stop the plan was not evaluated.
    StopNotEvaluated {
        /// Id of the rule.
        rule: &'static str,
        /// The backup lens it is about, if it is.
        backup: Option<Place>,
        /// What is missing.
        missing: Missing,
    },
    /// A Review finding without a reason.
    NoReason {
        /// Id of the rule.
        rule: &'static str,
        /// The backup lens it is about, if it is.
        backup: Option<Place>,
        /// What was found.
        finding: Finding,
    },
    /// A Review finding whose reason was given for another value.
    ReasonOutdated {
        /// Id of the rule.
        rule: &'static str,
        /// The backup lens it is about, if it is.
        backup: Option<Place>,
        /// What was found.
        finding: Finding,
    },
    /// A rule that this program does not know left a finding without a reason.
    UnknownRule {
        /// Its id.
        rule: String,
    },
    /// Nobody is named as the one who signs, or no role.
    Unsigned {
        /// What is missing.
        what: SignatureEntry,
    },
    /// A text that could forge a line of the sheet.
    Hidden(TextRefused),
    /// A result that is no number.
    NotFinite {
        /// Its place in the document.
        what: String,
    },
}

/// What a signature holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SignatureEntry {
    /// Name.
    Name,
    /// Role.
    Role,
}

impl From<TextRefused> for Obstacle {
    fn from(hidden: TextRefused) -> Self {
        Self::Hidden(hidden)
    }
}

impl Obstacle {
    /// The rule it comes from, if any.
    pub const fn rule(&self) -> Option<&'static str> {
        match self {
            Self::Stop { rule, .. }
            | Self::StopNotEvaluated { rule, .. }
            | Self::NoReason { rule, .. }
            | Self::ReasonOutdated { rule, .. } => Some(rule),
            _ => None,
        }
    }

    /// The backup lens that a rule found it of, if it did.
    pub const fn backup(&self) -> Option<Place> {
        match self {
            Self::Stop { backup, .. }
            | Self::StopNotEvaluated { backup, .. }
            | Self::NoReason { backup, .. }
            | Self::ReasonOutdated { backup, .. } => *backup,
            _ => None,
        }
    }

    /// How it is marked: what a reason removes is a Review, all else a Stop.
    pub const fn severity(&self) -> Severity {
        match self {
            Self::NoReason { .. } | Self::ReasonOutdated { .. } => Severity::Review,
            _ => Severity::Stop,
        }
    }
}
