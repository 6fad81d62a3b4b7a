mod backup_lenses;
mod obstacles;

use super::signed_plan::Content;
use super::*;
use crate::case::{Draft, Slot};
use crate::case_file::{self, CaseFileError};
use crate::document::{ReasonResult, RuleResult};
use crate::lens::Place;
use crate::limits::Limits;
use crate::quantity::{Diopters, HundredthDiopters, Micrometers};
use crate::rules::{Certainty, Finding, Limit, Quantity, Severity, Verdict};

/// The hard, shallow eye, which may be signed as it is.
pub(super) fn signable() -> Draft {
    case_file::read(include_str!(
        "../../../../demo-data/cases/hard-and-shallow.ron"
    ))
    .unwrap()
}

fn signature(hundredths: i32) -> Signature {
    Signature {
        name: "A. Okafor".to_owned(),
        role: "surgeon".to_owned(),
        at: "2026-11-25T08:00:00.25Z".parse().unwrap(),
        consented_target: HundredthDiopters::new(hundredths),
    }
}

fn to_sign<'a>(draft: &'a Draft, limits: &'a Limits) -> ToSign<'a> {
    ToSign {
        number: SheetNumber::new(17).unwrap(),
        supersedes: SheetNumber::new(12),
        draft,
        limits,
        program: "millrace test",
    }
}

pub(super) fn signed() -> SignedPlan {
    sign(to_sign(&signable(), Limits::shipped()), signature(-30)).unwrap()
}

#[test]
fn the_same_plan_has_the_same_bytes_and_reads_back() {
    let plan = signed();
    assert_eq!(plan, signed());
    assert_eq!(plan.encoded(), signed().encoded());
    let back = SignedPlan::read(plan.encoded(), plan.fingerprint()).unwrap();
    assert_eq!(back, plan);
    assert_eq!(back.content.write().unwrap(), plan.encoded());
    assert!(!plan.encoded().contains('\n'));
    assert_eq!(
        (plan.number().get(), plan.supersedes()),
        (17, SheetNumber::new(12))
    );
    assert_eq!(*plan.draft(), signable());
    assert_eq!(plan.plan().limits.len(), Limits::shipped().entries().len());
    assert_eq!(plan.plan().changed_limits().count(), 0);
}

/// From and to of every word, number, truth value and null in a JSON text that stands as a value.
fn leaves(text: &str) -> Vec<(usize, usize)> {
    let bytes = text.as_bytes();
    let (mut found, mut at) = (Vec::new(), 0);
    while at < bytes.len() {
        let start = at;
        match bytes[at] {
            b'"' => {
                at += 1;
                while bytes[at] != b'"' {
                    at += if bytes[at] == b'\\' { 2 } else { 1 };
                }
                at += 1;
                // What a colon follows is the name of a field.
                if bytes.get(at) != Some(&b':') {
                    found.push((start, at));
                }
            }
            b'{' | b'}' | b'[' | b']' | b',' | b':' => at += 1,
            _ => {
                while !b",]}".contains(&bytes[at]) {
                    at += 1;
                }
                found.push((start, at));
            }
        }
    }
    found
}

/// Another value of the same kind.
fn another(leaf: &str) -> String {
    match leaf {
        "true" => "false".to_owned(),
        "false" => "true".to_owned(),
        "null" => "1".to_owned(),
        text if text.starts_with('"') => {
            format!("\"{}\"", &format!("{}9", &text[1..text.len() - 1]))
        }
        // In front, where a digit always counts; behind 17 others it would not.
        number => match number.strip_prefix('-') {
            Some(digits) => format!("-1{digits}"),
            None => format!("1{number}"),
        },
    }
}

/// Every value counts: with one changed the fingerprint is another, the old one is refused, and a text
/// that is read under its own fingerprint says something else.
#[test]
fn every_single_changed_value_changes_the_fingerprint_and_the_content() {
    let plan = signed();
    let text = plan.encoded();
    let leaves = leaves(text);
    let (mut refused, mut other) = (0, 0);
    for (from, to) in &leaves {
        let changed = [&text[..*from], &another(&text[*from..*to]), &text[*to..]].concat();
        assert_ne!(Fingerprint::of(&changed), plan.fingerprint());
        assert_eq!(
            SignedPlan::read(&changed, plan.fingerprint()),
            Err(NotASignedPlan::OtherFingerprint)
        );
        match Content::read(&changed) {
            Err(_) => refused += 1,
            Ok(content) => {
                assert!(content != plan.content, "{}", &text[*from..*to]);
                other += 1;
            }
        }
    }
    // Well over a thousand values; many limits and measurements cannot be the changed one.
    assert!(
        1_000 < leaves.len() && 0 < refused && 500 < other,
        "{refused} {other}"
    );
}

/// A text with a fingerprint that somebody computed for it.
fn forged(from: &str, to: &str) -> Result<SignedPlan, NotASignedPlan> {
    let plan = signed();
    assert!(plan.encoded().contains(from), "{from}");
    let text = plan.encoded().replacen(from, to, 1);
    SignedPlan::read(&text, Fingerprint::of(&text))
}

#[test]
fn what_no_signature_lets_pass_is_not_read_either() {
    let impossible = |it| NotASignedPlan::Impossible(Box::new(it));
    let power = HundredthDiopters::new;
    let not_made = |lens, power| impossible(Obstacle::PowerNotMade { lens, power });
    let order = |number| NotASignedPlan::Order {
        number,
        supersedes: number,
    };
    for (from, to, expected) in [
        (
            "\"consented_target_d\":-0.3},\"plan\"",
            "\"consented_target_d\":0.3},\"plan\"",
            impossible(Obstacle::EnteredDiffers {
                target: power(-30),
                entered: power(30),
            }),
        ),
        (
            "\"power\":\"+22.50 D\"",
            "\"power\":\"-22.50 D\"",
            not_made(Slot::Planned, power(-2_250)),
        ),
        (
            "\"power\":\"+22.00 D\"",
            "\"power\":\"+22.25 D\"",
            not_made(Slot::Backup(Place::Bag), power(2_225)),
        ),
        (
            "\"supersedes\":12",
            "\"supersedes\":17",
            order(signed().number()),
        ),
        (
            "\"version\":1,\"number\"",
            "\"version\":2,\"number\"",
            NotASignedPlan::Unreadable(Box::new(CaseFileError::Version {
                found: 2,
                newest: 1,
            })),
        ),
    ] {
        assert_eq!(forged(from, to).unwrap_err(), expected);
    }
}

/// A Stop finding, and a Review finding whose reason was taken out, among the frozen results.
#[test]
fn no_result_that_forbids_a_signature_is_read() {
    let mut content = signed().content;
    let length = |um| Quantity::Length(Micrometers::new(um));
    let open = |severity, id: &str| RuleResult {
        id: id.to_owned(),
        backup: None,
        severity,
        verdict: Verdict::Finding(Finding {
            measured: length(27_000).into(),
            limit: Limit::AtMost(length(26_600)),
            details: Vec::new(),
            certainty: Certainty::AsMeasured,
        }),
        reason: ReasonResult::None,
    };
    for (severity, id, passes) in [
        (Severity::Note, "AL-01", true),
        (Severity::Review, "AL-01", false),
        (Severity::Stop, "AL-01", false),
        (Severity::Note, "XX-99", true),
        (Severity::Review, "XX-99", false),
        (Severity::Stop, "XX-99", false),
    ] {
        content.plan.results.rules[0] = open(severity, id);
        assert_eq!(content.check().is_ok(), passes, "{severity:?} {id}");
    }
    // A reason that is said to stand, and that the case does not hold.
    content.plan.results.rules[0] = RuleResult {
        reason: ReasonResult::Standing,
        ..open(Severity::Review, "AL-01")
    };
    assert!(content.check().is_err());
    // No other word is a severity.
    let text = signed().content.write().unwrap();
    let other = text.replacen("\"severity\":\"stop\"", "\"severity\":\"\"", 1);
    assert_ne!(other, text);
    assert!(SignedPlan::read(&other, Fingerprint::of(&other)).is_err());
}

/// One moment has one text, or equal plans would have unequal bytes.
#[test]
fn a_moment_in_another_form_is_not_read() {
    let at = "2026-11-25T08:00:00.25Z";
    assert!(forged(at, "2026-11-25T08:00:01.25Z").is_ok());
    for other in [
        "2026-11-25T08:00:00.250Z",
        "2026-11-25T09:00:00.25+01:00",
        "2026-11-25 08:00:00.25Z",
        "2026-11-25T07:59:60.25Z",
        "0000-11-25T08:00:00.25Z",
    ] {
        let error = forged(at, other).unwrap_err();
        let told = format!("\"{other}\" is not a moment");
        let NotASignedPlan::Unreadable(error) = error else {
            panic!("{error:?}");
        };
        assert!(error.to_string().contains(&told), "{error}");
    }
}

#[test]
fn a_result_that_is_no_number_is_not_signed() {
    let mut content = signed().content;
    for value in [f64::NAN, f64::INFINITY] {
        content.plan.results.toric.spreads.keratometry_d = Diopters::new(value);
        let text = content.write().unwrap();
        assert!(SignedPlan::read(&text, Fingerprint::of(&text)).is_err());
    }
}
