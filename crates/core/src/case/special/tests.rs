//! Nothing that can be recorded is a promise broken: each entry changes what a rule finds, or stands
//! among what the sheet prints as special.

use serde_json::{Map, Value};

use super::Special;
use crate::biometry::{
    ContactLensKind, ContactLenses, CornealSurgery, CornealSurgeryKind, EyeState, LocsTenths,
    NucleusGrade, Sign, SiliconeOil,
};
use crate::case::{Draft, Patient, Sex};
use crate::limits::Limits;
use crate::plan::Plan;
use crate::rules::Verdict;
use crate::rules::testing::{date, micrometers, ordinary_draft, sphere};

/// Every state there is, each field named: one that is added does not compile before it is here.
fn everything() -> EyeState {
    let yes = Some(true);
    EyeState {
        nucleus: Some(NucleusGrade::LocsIii {
            opalescence: LocsTenths::new(50).unwrap(),
            color: None,
        }),
        dense_cataract: yes,
        white_cataract: yes,
        intumescent: yes,
        brunescent: yes,
        posterior_polar: yes,
        polar_opacity: Some(micrometers(4_200)),
        capsule_plaque: yes,
        pseudoexfoliation: yes,
        phacodonesis: yes,
        lens_decentration: Some(micrometers(100)),
        guttata: yes,
        corneal_scarring: yes,
        irregular_cornea: yes,
        keratoconus: yes,
        unstable_surface: yes,
        keratoplasty_likely: yes,
        previous_vitrectomy: yes,
        intravitreal_injections: yes,
        contact_lenses: Some(ContactLenses::Worn {
            kind: ContactLensKind::Soft,
            last_worn: None,
        }),
        macular_disease: yes,
        glaucoma: yes,
        uveitis: yes,
        amblyopia: yes,
        only_eye: yes,
        iris_defect: yes,
        narrow_angle: yes,
        silicone_oil: Some(SiliconeOil::LengthCorrected),
        corneal_surgery: Some(CornealSurgery::Done {
            kind: CornealSurgeryKind::MyopicLaser,
            before: None,
            correction: None,
        }),
        other_difficulty: yes,
        refraction: Some(sphere(-700)),
    }
}

/// What is shown of a case: what is special, and what rules found, gave up on or passed by.
fn shown(draft: &Draft) -> (Vec<Special>, Vec<Verdict>) {
    let plan = Plan::of(draft, Limits::shipped()).unwrap();
    let special = Special::all(draft, plan.side);
    let findings = plan.rules.into_iter().map(|it| it.verdict);
    // A rule that now finds nothing tells nobody of the entry.
    let findings = findings.filter(|verdict| matches!(verdict, Verdict::Finding(_)));
    (special, findings.collect())
}

/// The same with this alone recorded of the operated eye.
fn with_state(name: &str, value: &Value) -> Draft {
    let mut draft = ordinary_draft();
    let alone = Map::from_iter([(name.to_owned(), value.clone())]);
    draft.operated().state = serde_json::from_value(Value::Object(alone)).unwrap();
    draft.0
}

#[test]
fn every_state_that_can_be_recorded_is_read_or_printed() {
    let blank = shown(&ordinary_draft().0);
    let Value::Object(fields) = serde_json::to_value(everything()).unwrap() else {
        panic!("a state has fields");
    };
    let mut silent = Vec::new();
    for (name, value) in &fields {
        if shown(&with_state(name, value)) == blank {
            silent.push(name);
        }
    }
    // A hard nucleus speaks of the depth, and high ametropia beside other risk points.
    assert_eq!(silent, ["refraction"]);
    let mut risky = ordinary_draft();
    risky.operated().state.pseudoexfoliation = Some(true);
    let without = shown(&risky.0);
    risky.operated().state.refraction = Some(sphere(-700));
    assert_ne!(shown(&risky.0), without);
    // As many as there are: nothing of it was left out by being blank.
    assert_eq!(fields.len(), 31);
}

#[test]
fn every_sign_is_printed_when_seen_and_only_then() {
    for &sign in Sign::ALL {
        let special = |seen| {
            let mut draft = ordinary_draft();
            sign.set(&mut draft.operated().state, seen);
            shown(&draft.0).0
        };
        assert_eq!(special(Some(true)), [Special::Sign(sign)]);
        assert_eq!(special(Some(false)), []);
        assert_eq!(special(None), []);
    }
}

/// The other eye's state is not this eye's.
#[test]
fn only_the_operated_eye_counts() {
    let mut draft = ordinary_draft();
    draft.fellow().state = everything();
    assert_eq!(shown(&draft.0).0, []);
}

#[test]
fn everything_of_the_patient_is_read_or_printed() {
    let patient = Patient {
        name: Some("Vane, Ida".to_owned()),
        number: Some("40-2291".to_owned()),
        birth_date: Some(date(1951, 3, 14)),
        sex: Some(Sex::Female),
        alpha_blocker: Some(true),
        anticoagulant: Some(true),
        diabetes: Some(true),
    };
    let mut draft = Draft {
        patient,
        ..ordinary_draft().0
    };
    let all = [
        Special::AlphaBlocker,
        Special::Anticoagulant,
        Special::Diabetes,
    ];
    assert_eq!(shown(&draft).0, all);
    draft.patient.alpha_blocker = Some(false);
    draft.patient.anticoagulant = Some(false);
    draft.patient.diabetes = Some(false);
    assert_eq!(shown(&draft).0, []);
}
