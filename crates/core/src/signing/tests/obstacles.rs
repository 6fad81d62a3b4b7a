//! What stands before a signature, obstacle by obstacle.

use super::super::*;
use super::{forged, signable, signature, to_sign};
use crate::biometry::Side;
use crate::case::{Draft, Reserve, TextRefused};
use crate::limits::Limits;
use crate::quantity::HundredthDiopters;
use crate::rules::{Finding, Identifier, Limit, Quantity};

fn obstacles(change: impl FnOnce(&mut Draft)) -> Vec<Obstacle> {
    let mut draft = signable();
    change(&mut draft);
    sign(to_sign(&draft, Limits::shipped()), signature(-30)).unwrap_err()
}

#[test]
fn each_missing_choice_is_an_obstacle_of_its_own() {
    type Change = fn(&mut Draft);
    let power = HundredthDiopters::new;
    let changes: [(Change, Obstacle); 8] = [
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
        (|draft| draft.lens.power = None, Obstacle::NoPower),
        (
            |draft| draft.lens.power = Some(HundredthDiopters::new(2_225)),
            Obstacle::PowerNotMade {
                lens: None,
                power: power(2_225),
            },
        ),
        (|draft| draft.approach.approach = None, Obstacle::NoApproach),
        (
            |draft| draft.lens.chamber_lens = None,
            Obstacle::PowerWithoutLens {
                lens: Reserve::Chamber,
                power: power(1_850),
            },
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
    let found = obstacles(|draft| draft.lens.record = None);
    assert_eq!(found[0], Obstacle::NoLens);
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
            |it| matches!(it, Obstacle::NoReason { rule: "RK-01", finding }
            if is_three_points(finding))
        ),
        "{found:?}"
    );
    let found = obstacles(|draft| draft.reasons[0].measured = Quantity::Points(2).into());
    assert!(
        matches!(&found[..], [Obstacle::ReasonOutdated { rule: "RK-01", finding }]
            if is_three_points(finding)),
        "{found:?}"
    );
}

/// A sulcus power for a lens that its maker does not allow there.
#[test]
fn a_power_for_the_sulcus_needs_a_lens_that_may_sit_there() {
    let found = obstacles(|draft| draft.lens.spare.as_mut().unwrap().may_sit_in_sulcus = false);
    let expected = Obstacle::PowerWithoutLens {
        lens: Reserve::Sulcus,
        power: HundredthDiopters::new(2_100),
    };
    assert!(found.contains(&expected), "{found:?}");
    // Nor is one read that somebody else computed a fingerprint for.
    let [from, to] = [true, false].map(|may| format!("\"may_sit_in_sulcus\":{may}"));
    let Err(NotASignedPlan::Impossible(it)) = forged(&from, &to) else {
        panic!("it is read");
    };
    assert!(matches!(
        *it,
        Obstacle::PowerNotMade {
            lens: Some(Reserve::Sulcus),
            ..
        }
    ));
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
