//! What stands between a plan and its signature, and what may be done about it.

use crate::case::{HiddenCharacter, Reserve};
use crate::quantity::HundredthDiopters;
use crate::rules::{Rule, Severity};

/// One thing that keeps a plan from being signed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Obstacle {
    /// Nobody said which eye.
    #[error("the operated eye is not chosen; choose the right or the left eye")]
    NoEye,
    /// The patient has no name or number.
    #[error("the patient has no {what}; enter it from the notes and compare it with the wristband")]
    NoIdentifier {
        /// Which of the two.
        what: &'static str,
    },
    /// No target.
    #[error("no target is chosen; choose the refraction that was agreed with the patient")]
    NoTarget,
    /// No consented target in the case.
    #[error("the case holds no consented target; enter it from the consent")]
    NoConsent,
    /// The case's own consented target is another one.
    #[error(
        "the target is {target} and the consented target {consented}; set the target to it, or \
         discuss the change with the patient and enter the new consent"
    )]
    ConsentDiffers {
        /// Target of the plan.
        target: HundredthDiopters,
        /// Consented target of the case.
        consented: HundredthDiopters,
    },
    /// The target entered with the signature is another one.
    #[error(
        "the consented target entered with the signature is {entered} and the target of the plan is \
         {target}; read the consent again, and correct the one that is wrong"
    )]
    EnteredDiffers {
        /// Target of the plan.
        target: HundredthDiopters,
        /// Target entered with the signature.
        entered: HundredthDiopters,
    },
    /// No lens.
    #[error("no lens is chosen; choose a lens record")]
    NoLens,
    /// No formula.
    #[error("no formula is chosen; choose the one the power is planned by")]
    NoFormula,
    /// No power.
    #[error("no lens power is chosen; choose one from the ladder")]
    NoPower,
    /// A power the lens is not made in.
    #[error("{lens} is not made in {power}; choose a power of its record, or correct the record")]
    PowerNotMade {
        /// Which lens.
        lens: &'static str,
        /// The power.
        power: HundredthDiopters,
    },
    /// A power for a lens that was not chosen, or where it may not sit.
    #[error("a power of {power} is chosen for {lens}; choose the lens too, or clear the power")]
    PowerWithoutLens {
        /// Which lens.
        lens: &'static str,
        /// The power.
        power: HundredthDiopters,
    },
    /// A toric lens without cylinder and axis.
    #[error("the lens is toric and no cylinder and axis are chosen; choose them")]
    NoCylinder,
    /// No approach.
    #[error("no approach is chosen; choose how the nucleus is to come out")]
    NoApproach,
    /// A Stop finding stands.
    #[error("{rule} {title}: {finding}. {options}")]
    Stop {
        /// Id of the rule.
        rule: &'static str,
        /// Its title.
        title: &'static str,
        /// What was found.
        finding: String,
        /// What may be done.
        options: &'static str,
    },
    /// A rule that could stop the plan was not evaluated.
    #[error(
        "{rule} {title}: this could not be told, for want of: {missing}. Enter it; a rule that could \
         stop the plan is not passed by silence"
    )]
    StopNotEvaluated {
        /// Id of the rule.
        rule: &'static str,
        /// Its title.
        title: &'static str,
        /// What is missing.
        missing: &'static str,
    },
    /// A Review finding without a reason.
    #[error("{rule} {title}: {finding}. Record a reason, or change what it rests on")]
    NoReason {
        /// Id of the rule.
        rule: &'static str,
        /// Its title.
        title: &'static str,
        /// What was found.
        finding: String,
    },
    /// A Review finding whose reason was given for another value.
    #[error(
        "{rule} {title}: {finding}. The recorded reason was given when it read otherwise; record one \
         for what it reads now"
    )]
    ReasonOutdated {
        /// Id of the rule.
        rule: &'static str,
        /// Its title.
        title: &'static str,
        /// What was found.
        finding: String,
    },
    /// Nobody is named as the one who signs, or no role.
    #[error("the signature has no {what}; enter it")]
    Unsigned {
        /// Name or role.
        what: &'static str,
    },
    /// A text that could forge a line of the sheet.
    #[error("{0}; enter it again")]
    Hidden(#[from] HiddenCharacter),
    /// A result that is no number.
    #[error("{what} is no finite number; nothing can be signed that shows it")]
    NotFinite {
        /// Which result.
        what: String,
    },
}

impl Obstacle {
    pub(super) fn stop(rule: &'static Rule, finding: String) -> Self {
        Self::Stop {
            rule: rule.id,
            title: rule.title,
            finding,
            options: rule.options,
        }
    }

    /// The rule it comes from, if any.
    #[must_use]
    pub const fn rule(&self) -> Option<&'static str> {
        match self {
            Self::Stop { rule, .. }
            | Self::StopNotEvaluated { rule, .. }
            | Self::NoReason { rule, .. }
            | Self::ReasonOutdated { rule, .. } => Some(rule),
            _ => None,
        }
    }

    /// How it is marked: what a reason removes is a Review, all else a Stop.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::NoReason { .. } | Self::ReasonOutdated { .. } => Severity::Review,
            _ => Severity::Stop,
        }
    }
}

/// What a lens that lies ready is called in an obstacle.
pub(super) const fn reserve_name(which: Reserve) -> &'static str {
    match which {
        Reserve::Spare => "the spare lens",
        Reserve::Sulcus => "the spare lens in the sulcus",
        Reserve::Chamber => "the chamber lens",
    }
}
