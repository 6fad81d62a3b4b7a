//! What keeps a plan from being signed, and what may be done about it. None has a full stop.

use millrace_core::lens::Place;
use millrace_core::rules::by_id;
use millrace_core::signing::{
    CannotRecompute, Fingerprint, FingerprintError, NotASignedPlan, Obstacle, ShortFingerprint,
    SignatureEntry,
};

use crate::{Words, rules};

messages! {
    wrong_length(short, full, found) = "a fingerprint has {short} letters and digits, or {full} in full, and this has {found}; read it from the sheet again";
    named(id, title) = "{id} {title}";
    stop(rule, finding, options) = "{rule}: {finding}. {options}";
    stop_not_evaluated(rule, missing) = "{rule}: could not be evaluated: {missing} is missing. Enter it; a rule that could stop the plan must be evaluated";
    no_reason(rule, finding) = "{rule}: {finding}. Record a reason, or change what it rests on";
    reason_outdated(rule, finding) = "{rule}: {finding}. The finding has changed since its reason was recorded; record a reason for it as it is now";
}

shown! { Obstacle, words {
    NoEye = "the operative eye is not chosen; choose the right or the left eye";
    NoIdentifier { what } = "the patient has no {what}; enter it from the notes and compare it with the wristband";
    NoTarget = "no target is chosen; choose the refraction that was agreed with the patient";
    NoConsent = "the case holds no consented target; enter it from the consent";
    ConsentDiffers { target, consented } = "the target is {target} and the consented target {consented}; set the target to it, or discuss the change with the patient and enter the new consent";
    EnteredDiffers { target, entered } = "the consented target entered with the signature is {entered} and the target of the plan is {target}; read the consent again, and correct the one that is wrong";
    NoLens = "no lens is chosen; choose a lens record";
    NoFormula = "no formula is chosen; choose the one to plan with";
    NoPower = "no lens power is chosen; choose one from the lens power table";
    PowerNotMade { lens, power } = "the {lens} is not made in {power}; choose a power of its record, or correct the record";
    NoCylinder { lens } = "the {lens} is toric and no cylinder and axis are chosen; choose them";
    NoApproach = "no approach is chosen; choose how the nucleus is to come out";
    UnknownRule { rule } = "a finding of {rule}, a rule that this program does not know, stands open";
    Unsigned { what } = "the signature has no {what}; enter it";
    Hidden(hidden) = "{hidden}; enter it again";
    NotFinite { what } = "{what} is not a finite number; nothing can be signed that shows it";
} else {
    Self::Stop { rule: id, backup, finding: it } => {
        let options = by_id(id).map_or("", |rule| words.reference(rule.options));
        stop(words, by_name(words, id, *backup), it, options).into()
    }
    Self::StopNotEvaluated { rule, backup, missing } => {
        stop_not_evaluated(words, by_name(words, rule, *backup), missing).into()
    }
    Self::NoReason { rule, backup, finding } => {
        no_reason(words, by_name(words, rule, *backup), finding).into()
    }
    Self::ReasonOutdated { rule, backup, finding } => {
        reason_outdated(words, by_name(words, rule, *backup), finding).into()
    }
}}

shown! { NotASignedPlan, words {
    OtherFingerprint = "it does not have the fingerprint it was signed with";
    Impossible(obstacle) = "no plan is signed that says: {obstacle}";
    Order { number, supersedes } = "sheet {number} cannot supersede sheet {supersedes}";
} else {
    Self::Unreadable(error) => error.show(words),
}}

shown! { FingerprintError, words {
    Empty = "no fingerprint was given; it stands at the foot of the sheet, in groups of four";
    Letter { letter } = "no fingerprint has \"{letter}\": it is written in digits and letters without I, L, O and U; read it from the sheet again";
    Misread = "a letter was misread or two were exchanged: the last letter does not fit the others; read it from the sheet again";
    Newer = "this code is of a newer program; use that one";
} else {
    Self::Length { found } => {
        wrong_length(words, ShortFingerprint::LETTERS, Fingerprint::LETTERS, *found).into()
    }
}}

shown! { CannotRecompute, words {
    OtherLimits { names } = "this program does not have the limits of the signed plan: {names}";
} else {
    Self::Limit(error) => error.show(words),
    Self::Plan(refused) => refused.show(words),
}}

shown! { SignatureEntry, words {
    Name = "name";
    Role = "role";
}}

/// A rule by its id and title.
fn by_name(words: Words, id: &str, backup: Option<Place>) -> String {
    let title = by_id(id).map_or("", |rule| rule.title);
    named(words, id, rules::title(words, title, backup))
}

#[cfg(test)]
mod tests {
    use millrace_core::case::Slot;
    use millrace_core::quantity::HundredthDiopters;
    use millrace_core::rules::{Certainty, Finding, Identifier, Limit, Missing, Quantity};

    use super::*;
    use crate::Show as _;

    fn assert_said(obstacles: impl IntoIterator<Item = (Obstacle, &'static str)>) {
        for (it, text) in obstacles {
            assert_eq!(it.show(Words::ENGLISH), text);
        }
    }

    /// What a person reads from the sheet and mistypes.
    #[test]
    fn a_fingerprint_that_is_none_says_what_to_do() {
        for (error, text) in [
            (
                FingerprintError::Empty,
                "no fingerprint was given; it stands at the foot of the sheet, in groups of four",
            ),
            (
                FingerprintError::Letter { letter: 'O' },
                "no fingerprint has \"O\": it is written in digits and letters without I, L, O \
                 and U; read it from the sheet again",
            ),
            (
                FingerprintError::Length { found: 15 },
                "a fingerprint has 16 letters and digits, or 53 in full, and this has 15; read it \
                 from the sheet again",
            ),
            (
                FingerprintError::Misread,
                "a letter was misread or two were exchanged: the last letter does not fit the \
                 others; read it from the sheet again",
            ),
        ] {
            assert_eq!(error.show(Words::ENGLISH), text);
        }
    }

    #[test]
    fn each_missing_choice_says_a_way_on() {
        let power = HundredthDiopters::new;
        let no = |what| Obstacle::NoIdentifier { what };
        assert_said([
            (
                no(Identifier::Name),
                "the patient has no name; enter it from the notes and compare it with the wristband",
            ),
            (
                no(Identifier::Number),
                "the patient has no hospital number; enter it from the notes and compare it with \
                 the wristband",
            ),
            (
                Obstacle::ConsentDiffers {
                    target: power(-30),
                    consented: power(30),
                },
                "the target is \u{2212}0.30 D and the consented target +0.30 D; set the target to \
                 it, or discuss the change with the patient and enter the new consent",
            ),
            (
                Obstacle::PowerNotMade {
                    lens: Slot::Planned,
                    power: power(2_225),
                },
                "the planned lens is not made in +22.25 D; choose a power of its record, or \
                 correct the record",
            ),
            (
                Obstacle::NoCylinder {
                    lens: Slot::Backup(Place::AnteriorChamber),
                },
                "the anterior chamber IOL is toric and no cylinder and axis are chosen; choose them",
            ),
            (
                Obstacle::Unsigned {
                    what: SignatureEntry::Role,
                },
                "the signature has no role; enter it",
            ),
        ]);
    }

    #[test]
    fn a_rule_that_stands_against_it_is_named() {
        let three = Quantity::Points(3);
        let finding = Finding {
            measured: three.into(),
            limit: Limit::Under(three),
            details: Vec::new(),
            certainty: Certainty::AsMeasured,
        };
        let silent = Obstacle::StopNotEvaluated {
            rule: "SO-01",
            backup: None,
            missing: Missing::SiliconeOil,
        };
        let said = silent.show(Words::ENGLISH);
        assert!(said.starts_with("SO-01 "), "{said}");
        assert!(
            said.contains("could not be evaluated: silicone oil (yes or no) is missing. Enter it"),
            "{said}"
        );
        assert_said([
            (
                Obstacle::NoReason {
                    rule: "RK-01",
                    backup: None,
                    finding: finding.clone(),
                },
                "RK-01 Complications are more likely: 3 points (limit: under 3 points). Record a \
                 reason, or change what it rests on",
            ),
            (
                Obstacle::ReasonOutdated {
                    rule: "RK-01",
                    backup: None,
                    finding,
                },
                "RK-01 Complications are more likely: 3 points (limit: under 3 points). The \
                 finding has changed since its reason was recorded; record a reason for it as it is \
                 now",
            ),
        ]);
    }

    #[test]
    fn what_no_plan_is_signed_with_is_told_with_its_obstacle() {
        let entered = Obstacle::EnteredDiffers {
            target: HundredthDiopters::new(-30),
            entered: HundredthDiopters::new(30),
        };
        assert_eq!(
            NotASignedPlan::Impossible(Box::new(entered)).show(Words::ENGLISH),
            "no plan is signed that says: the consented target entered with the signature is \
             +0.30 D and the target of the plan is \u{2212}0.30 D; read the consent again, and \
             correct the one that is wrong"
        );
    }
}
