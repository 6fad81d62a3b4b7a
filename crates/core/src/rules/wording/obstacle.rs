//! What keeps a plan from being signed, and what may be done about it.

use super::fact::identifier;
use super::{finding, missing};
use crate::case::Reserve;
use crate::rules::by_id;
use crate::signing::{Obstacle, SignatureEntry};

/// What keeps a plan from being signed, without a full stop.
#[must_use]
#[expect(clippy::too_many_lines, reason = "one arm for each obstacle")]
pub fn obstacle(obstacle: &Obstacle) -> String {
    match obstacle {
        Obstacle::NoEye => {
            "the operated eye is not chosen; choose the right or the left eye".to_owned()
        }
        Obstacle::NoIdentifier { what } => format!(
            "the patient has no {}; enter it from the notes and compare it with the wristband",
            identifier(*what)
        ),
        Obstacle::NoTarget => {
            "no target is chosen; choose the refraction that was agreed with the patient".to_owned()
        }
        Obstacle::NoConsent => {
            "the case holds no consented target; enter it from the consent".to_owned()
        }
        Obstacle::ConsentDiffers { target, consented } => format!(
            "the target is {target} and the consented target {consented}; set the target to it, or \
             discuss the change with the patient and enter the new consent"
        ),
        Obstacle::EnteredDiffers { target, entered } => format!(
            "the consented target entered with the signature is {entered} and the target of the \
             plan is {target}; read the consent again, and correct the one that is wrong"
        ),
        Obstacle::NoLens => "no lens is chosen; choose a lens record".to_owned(),
        Obstacle::NoFormula => {
            "no formula is chosen; choose the one the power is planned by".to_owned()
        }
        Obstacle::NoPower => "no lens power is chosen; choose one from the ladder".to_owned(),
        Obstacle::PowerNotMade { lens, power } => format!(
            "{} is not made in {power}; choose a power of its record, or correct the record",
            lens.map_or("the lens to implant", reserve)
        ),
        Obstacle::PowerWithoutLens { lens, power } => format!(
            "a power of {power} is chosen for {}; choose the lens too, or clear the power",
            reserve(*lens)
        ),
        Obstacle::NoCylinder => {
            "the lens is toric and no cylinder and axis are chosen; choose them".to_owned()
        }
        Obstacle::NoApproach => {
            "no approach is chosen; choose how the nucleus is to come out".to_owned()
        }
        Obstacle::Stop { rule, finding: it } => {
            let options = by_id(rule).map_or("", |rule| rule.options);
            format!("{}: {}. {options}", named(rule), finding(it))
        }
        Obstacle::StopNotEvaluated { rule, missing: it } => format!(
            "{}: this could not be told, for want of: {}. Enter it; a rule that could stop the \
             plan is not passed by silence",
            named(rule),
            missing(*it)
        ),
        Obstacle::NoReason { rule, finding: it } => format!(
            "{}: {}. Record a reason, or change what it rests on",
            named(rule),
            finding(it)
        ),
        Obstacle::ReasonOutdated { rule, finding: it } => format!(
            "{}: {}. The recorded reason was given when it read otherwise; record one for what it \
             reads now",
            named(rule),
            finding(it)
        ),
        Obstacle::UnknownRule { rule } => {
            format!("a finding of {rule}, a rule that this program does not know, stands open")
        }
        Obstacle::Unsigned { what } => {
            let what = match what {
                SignatureEntry::Name => "name",
                SignatureEntry::Role => "role",
            };
            format!("the signature has no {what}; enter it")
        }
        Obstacle::Hidden(hidden) => format!("{hidden}; enter it again"),
        Obstacle::NotFinite { what } => {
            format!("{what} is no finite number; nothing can be signed that shows it")
        }
    }
}

fn named(id: &str) -> String {
    let title = by_id(id).map_or("", |rule| rule.title);
    format!("{id} {title}")
}

/// What a lens that lies ready is called.
const fn reserve(which: Reserve) -> &'static str {
    match which {
        Reserve::Spare => "the spare lens",
        Reserve::Sulcus => "the spare lens in the sulcus",
        Reserve::Chamber => "the chamber lens",
    }
}
