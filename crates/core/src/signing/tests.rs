use super::signed_plan::Content;
use super::*;
use crate::biometry::Side;
use crate::case::Draft;
use crate::case_file;
use crate::document::{ReasonResult, RuleResult};
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
    for (from, to, message) in [
        (
            "\"consented_target_d\":-0.3},\"plan\"",
            "\"consented_target_d\":0.3},\"plan\"",
            "no plan is signed that says: the consented target entered with the signature is \
             +0.30 D and the target of the plan is \u{2212}0.30 D; read the consent again, and \
             correct the one that is wrong",
        ),
        (
            "\"power\":\"+22.50 D\"",
            "\"power\":\"-22.50 D\"",
            "no plan is signed that says: the lens to implant is not made in \u{2212}22.50 D; \
             choose a power of its record, or correct the record",
        ),
        (
            "\"spare_power\":\"+22.00 D\"",
            "\"spare_power\":\"+22.25 D\"",
            "no plan is signed that says: the spare lens is not made in +22.25 D; choose a power of \
             its record, or correct the record",
        ),
        (
            "\"supersedes\":12",
            "\"supersedes\":17",
            "sheet 17 cannot supersede sheet 17",
        ),
        (
            "\"version\":1,\"number\"",
            "\"version\":2,\"number\"",
            "the file has version 2; this program reads version 1",
        ),
    ] {
        assert_eq!(forged(from, to).unwrap_err().to_string(), message);
    }
    // A Stop finding, and a Review finding whose reason was taken out, among the frozen results.
    let mut content = signed().content;
    let length = |um| Quantity::Length(Micrometers::new(um));
    let open = |severity, id: &str| RuleResult {
        id: id.to_owned(),
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
        assert_eq!(content.check().is_ok(), passes, "{severity} {id}");
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

/// Rule and words of every obstacle of a draft that was changed.
fn obstacles(change: impl FnOnce(&mut Draft)) -> Vec<String> {
    let mut draft = signable();
    change(&mut draft);
    let found = sign(to_sign(&draft, Limits::shipped()), signature(-30)).unwrap_err();
    found.iter().map(ToString::to_string).collect()
}

#[test]
fn each_missing_choice_is_an_obstacle_of_its_own_with_a_way_on() {
    type Change = fn(&mut Draft);
    let changes: [(Change, &str); 9] = [
        (
            |draft| draft.patient.name = Some(" ".to_owned()),
            "the patient has no name; enter it from the notes and compare it with the wristband",
        ),
        (
            |draft| draft.patient.number = None,
            "the patient has no hospital number; enter it from the notes and compare it with the \
             wristband",
        ),
        (
            |draft| draft.lens.consented_target = None,
            "the case holds no consented target; enter it from the consent",
        ),
        (
            |draft| draft.lens.consented_target = Some(HundredthDiopters::new(30)),
            "the target is \u{2212}0.30 D and the consented target +0.30 D; set the target to it, \
             or discuss the change with the patient and enter the new consent",
        ),
        (
            |draft| draft.lens.power = None,
            "no lens power is chosen; choose one from the ladder",
        ),
        (
            |draft| draft.lens.power = Some(HundredthDiopters::new(2_225)),
            "the lens to implant is not made in +22.25 D; choose a power of its record, or correct \
             the record",
        ),
        (
            |draft| draft.approach.approach = None,
            "no approach is chosen; choose how the nucleus is to come out",
        ),
        (
            |draft| draft.lens.chamber_lens = None,
            "a power of +18.50 D is chosen for the chamber lens; choose the lens too, or clear the \
             power",
        ),
        (
            |draft| draft.reasons.clear(),
            "RK-01 Complications are more likely: 3 points (limit: under 3 points). Record a \
             reason, or change what it rests on",
        ),
    ];
    for (change, message) in changes {
        let found = obstacles(change);
        assert!(found.contains(&message.to_owned()), "{message}\n{found:?}");
    }
    assert_eq!(
        obstacles(|draft| draft.operation.eye = None),
        ["the operated eye is not chosen; choose the right or the left eye"]
    );
    let found = obstacles(|draft| draft.lens.formula = None);
    assert!(found[0].starts_with("no formula is chosen"), "{found:?}");
    let found = obstacles(|draft| draft.lens.record = None);
    assert!(found[0].starts_with("no lens is chosen"), "{found:?}");
}

#[test]
fn a_reason_for_another_value_is_none() {
    let found = obstacles(|draft| draft.reasons[0].measured = Quantity::Points(2).into());
    assert_eq!(
        found,
        [
            "RK-01 Complications are more likely: 3 points (limit: under 3 points). The recorded \
             reason was given when it read otherwise; record one for what it reads now"
        ]
    );
}

/// A sulcus power for a lens that its maker does not allow there.
#[test]
fn a_power_for_the_sulcus_needs_a_lens_that_may_sit_there() {
    let found = obstacles(|draft| draft.lens.spare.as_mut().unwrap().may_sit_in_sulcus = false);
    let expected = "a power of +21.00 D is chosen for the spare lens in the sulcus";
    assert!(
        found.iter().any(|text| text.starts_with(expected)),
        "{found:?}"
    );
}

#[test]
fn the_signature_names_somebody_and_repeats_the_target() {
    let draft = signable();
    let found = |change: fn(&mut Signature)| -> Vec<String> {
        let mut signature = signature(-30);
        change(&mut signature);
        let found = sign(to_sign(&draft, Limits::shipped()), signature).unwrap_err();
        found.iter().map(ToString::to_string).collect()
    };
    assert_eq!(
        found(|signature| signature.name = " ".to_owned()),
        ["the signature has no name; enter it"]
    );
    assert_eq!(
        found(|signature| signature.role.clear()),
        ["the signature has no role; enter it"]
    );
    assert_eq!(
        found(|signature| signature.role = "surgeon\nPOWER".to_owned()),
        ["role holds an invisible or a control character (U+000A); enter it again"]
    );
    let beyond = found(|signature| signature.at = chrono::DateTime::<chrono::Utc>::MAX_UTC);
    assert!(
        beyond.len() == 1 && beyond[0].contains("not a moment of the years 1 to 9999"),
        "{beyond:?}"
    );
    for entered in [30, -31, -29, 0] {
        let obstacles = sign(to_sign(&draft, Limits::shipped()), signature(entered)).unwrap_err();
        let target = HundredthDiopters::new(-30);
        let entered = HundredthDiopters::new(entered);
        assert_eq!(obstacles, [Obstacle::EnteredDiffers { target, entered }]);
    }
}

#[test]
fn a_rule_that_could_stop_the_plan_is_not_passed_by_silence() {
    let found = obstacles(|draft| draft.eyes.get_mut(Side::Right).state.silicone_oil = None);
    assert!(
        found
            .iter()
            .any(|text| text.starts_with("SO-01 ") && text.contains("could not be told")),
        "{found:?}"
    );
}
