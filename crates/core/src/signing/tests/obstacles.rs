//! What stands before a signature, obstacle by obstacle.

use super::super::*;
use super::{signable, signature, signed, to_sign};
use crate::biometry::Side;
use crate::case::{ChosenLens, Draft, Lenses, Slot, TextRefused};
use crate::lens::{Place, PowerLabel, ToricSteps};
use crate::limits::Limits;
use crate::quantity::HundredthDiopters;
use crate::rules::{Finding, Identifier, Limit, Quantity, Verdict};

fn obstacles(change: impl FnOnce(&mut Draft)) -> Vec<Obstacle> {
    let mut draft = signable();
    change(&mut draft);
    sign(to_sign(&draft, Limits::shipped()), signature(-30)).unwrap_err()
}

const IN_CHAMBER: Slot = Slot::Backup(Place::AnteriorChamber);

fn lens(draft: &mut Draft, slot: Slot) -> &mut ChosenLens {
    draft.lens.lenses.get_mut(slot).unwrap()
}

fn steps() -> Option<ToricSteps> {
    ToricSteps::new(
        vec![HundredthDiopters::new(150)],
        PowerLabel::SphericalEquivalent,
    )
    .ok()
}

#[test]
fn each_missing_choice_is_an_obstacle_of_its_own() {
    type Change = fn(&mut Draft);
    let power = HundredthDiopters::new;
    let changes: [(Change, Obstacle); 10] = [
        (
            |draft| draft.patient.name = Some(" ".to_owned()),
            Obstacle::NoIdentifier {
                what: Identifier::Name,
            },
        ),
        (
            |draft| draft.patient.number = None,
            Obstacle::NoIdentifier {
                what: Identifier::Number,
            },
        ),
        (
            |draft| draft.lens.consented_target = None,
            Obstacle::NoConsent,
        ),
        (
            |draft| draft.lens.consented_target = Some(HundredthDiopters::new(30)),
            Obstacle::ConsentDiffers {
                target: power(-30),
                consented: power(30),
            },
        ),
        (
            |draft| lens(draft, Slot::Planned).power = None,
            Obstacle::NoPower,
        ),
        (
            |draft| lens(draft, Slot::Planned).power = Some(HundredthDiopters::new(2_225)),
            Obstacle::PowerNotMade {
                lens: Slot::Planned,
                power: power(2_225),
            },
        ),
        (|draft| draft.approach.approach = None, Obstacle::NoApproach),
        (
            |draft| lens(draft, IN_CHAMBER).power = Some(HundredthDiopters::new(2_225)),
            Obstacle::PowerNotMade {
                lens: IN_CHAMBER,
                power: power(2_225),
            },
        ),
        (
            |draft| lens(draft, Slot::Planned).record.toric = steps(),
            Obstacle::NoCylinder {
                lens: Slot::Planned,
            },
        ),
        (
            |draft| lens(draft, IN_CHAMBER).record.toric = steps(),
            Obstacle::NoCylinder { lens: IN_CHAMBER },
        ),
    ];
    for (change, expected) in changes {
        let found = obstacles(change);
        assert!(found.contains(&expected), "{expected:?}\n{found:?}");
    }
    assert_eq!(
        obstacles(|draft| draft.operation.eye = None),
        [Obstacle::NoEye]
    );
    let found = obstacles(|draft| draft.lens.formula = None);
    assert_eq!(found[0], Obstacle::NoFormula);
    let found = obstacles(|draft| draft.lens.lenses = Lenses::default());
    assert_eq!(found[0], Obstacle::NoLens);
}

/// A power that is not made is said once, not by its rule again.
#[test]
fn what_an_obstacle_says_its_rule_does_not_say_again() {
    let made = |it: &Obstacle| matches!(it, Obstacle::PowerNotMade { .. });
    let by_rule = |it: &Obstacle| matches!(it, Obstacle::Stop { rule: "PW-01", .. });
    let power = Some(HundredthDiopters::new(2_225));
    let found = obstacles(|draft| lens(draft, Slot::Planned).power = power);
    assert!(
        found.iter().any(made) && !found.iter().any(by_rule),
        "{found:?}"
    );
    let mut draft = signable();
    lens(&mut draft, Slot::Planned).power = power;
    let plan = crate::plan::Plan::of(&draft, Limits::shipped()).unwrap();
    let mut stops = plan.findings(crate::rules::Severity::Stop);
    assert!(stops.any(|evaluated| evaluated.rule.id == "PW-01"));
}

/// Nor does a rule that waits for a choice ask for it beside the obstacle that does.
#[test]
fn no_rule_is_an_obstacle_beside_the_one_that_says_the_same() {
    type Change = fn(&mut Draft);
    let cases: [(Change, &[&str]); 7] = [
        (|draft| draft.patient.number = None, &["ID-01"]),
        (|draft| draft.lens.consented_target = None, &["ID-02"]),
        (
            |draft| draft.lens.consented_target = Some(HundredthDiopters::new(30)),
            &["ID-02"],
        ),
        (
            |draft| draft.lens.target = None,
            &["ID-02", "PW-06", "PW-07"],
        ),
        (|draft| draft.lens.formula = None, &["PW-06", "PW-07"]),
        (
            |draft| lens(draft, Slot::Planned).power = None,
            &["PW-01", "PW-04", "PW-06", "PW-07"],
        ),
        (
            |draft| draft.lens.lenses = Lenses::default(),
            &["PW-01", "CT-03", "CT-04", "CT-06"],
        ),
    ];
    for (change, rules) in cases {
        let mut draft = signable();
        change(&mut draft);
        let plan = crate::plan::Plan::of(&draft, Limits::shipped()).unwrap();
        let found = sign(to_sign(&draft, Limits::shipped()), signature(-30)).unwrap_err();
        for rule in rules {
            let mut evaluated = plan.rules.iter();
            let verdict = &evaluated.find(|it| it.rule.id == *rule).unwrap().verdict;
            let speaks = matches!(verdict, Verdict::Finding(_) | Verdict::NotEvaluated(_));
            assert!(speaks, "{rule} {verdict:?}");
            let again = found.iter().any(|it| it.rule() == Some(rule));
            assert!(!again, "{rule} {found:?}");
        }
    }
}

fn is_three_points(finding: &Finding) -> bool {
    finding.measured == Quantity::Points(3).into()
        && finding.limit == Limit::Under(Quantity::Points(3))
}

#[test]
fn a_finding_asks_for_a_reason_and_one_for_another_value_is_none() {
    let found = obstacles(|draft| draft.reasons.clear());
    assert!(
        found.iter().any(
            |it| matches!(it, Obstacle::NoReason { rule: "RK-01", backup: None, finding }
            if is_three_points(finding))
        ),
        "{found:?}"
    );
    let found = obstacles(|draft| draft.reasons[0].measured = Quantity::Points(2).into());
    assert!(
        matches!(&found[..], [Obstacle::ReasonOutdated { rule: "RK-01", backup: None, finding }]
            if is_three_points(finding)),
        "{found:?}"
    );
}

/// A lens that lies ready without a power is asked for nothing; one for the sulcus that its maker does
/// not allow there is not even read, whoever computed a fingerprint for it.
#[test]
fn a_lens_that_lies_ready_has_what_it_needs_or_no_power() {
    let mut draft = signable();
    let backup = lens(&mut draft, IN_CHAMBER);
    (backup.power, backup.record.toric) = (None, steps());
    assert!(sign(to_sign(&draft, Limits::shipped()), signature(-30)).is_ok());
    let plan = signed();
    let at = plan.encoded().find("\"place\":\"sulcus\"").unwrap();
    let (before, sulcus) = plan.encoded().split_at(at);
    let [from, to] = [true, false].map(|may| format!("\"may_sit_in_sulcus\":{may}"));
    let text = before.to_owned() + &sulcus.replacen(&from, &to, 1);
    assert_ne!(text, plan.encoded());
    let Err(NotASignedPlan::Unreadable(error)) = SignedPlan::read(&text, Fingerprint::of(&text))
    else {
        panic!("it is read");
    };
    let said = "the backup lens for the sulcus is made for the capsular bag";
    assert!(error.to_string().contains(said), "{error}");
}

#[test]
fn the_signature_names_somebody_and_repeats_the_target() {
    let draft = signable();
    let found = |change: fn(&mut Signature)| {
        let mut signature = signature(-30);
        change(&mut signature);
        sign(to_sign(&draft, Limits::shipped()), signature).unwrap_err()
    };
    let unsigned = |what| [Obstacle::Unsigned { what }];
    let nobody = found(|signature| signature.name = " ".to_owned());
    assert_eq!(nobody, unsigned(SignatureEntry::Name));
    let as_nothing = found(|signature| signature.role.clear());
    assert_eq!(as_nothing, unsigned(SignatureEntry::Role));
    let hidden = found(|signature| signature.role = "surgeon\nPOWER".to_owned());
    let (what, code) = ("role", 0x0a);
    assert_eq!(hidden, [TextRefused::Hidden { what, code }.into()]);
    let beyond = found(|signature| signature.at = chrono::DateTime::<chrono::Utc>::MAX_UTC);
    assert!(
        matches!(&beyond[..], [Obstacle::NotFinite { what }]
            if what.contains("not a moment of the years 1 to 9999")),
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
            .any(|it| matches!(it, Obstacle::StopNotEvaluated { rule: "SO-01", .. })),
        "{found:?}"
    );
}
