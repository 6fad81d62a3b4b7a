//! Every state of an eye that can be recorded has a control that records it.

use crate::reach_measurements::{HIGH, Window, one_eye};
use crate::support::{Bench, click, date, enter, fill, harness, light};
use millrace_core::biometry::{ContactLensKind, ContactLenses, EyeState, Sign};
use millrace_core::quantity::Micrometers;
use millrace_wording::{Show as _, Words, sentence};

#[test]
fn every_sign_can_be_seen_and_be_absent() {
    let mut bench = Bench::new(vec![one_eye()], light());
    bench.open(0);
    let mut window = harness(bench, HIGH);
    for &sign in Sign::ALL {
        let name = sentence(&sign.show(Words::ENGLISH));
        for (answer, seen) in [("yes", true), ("no", false)] {
            let mut expected = window.state().draft().clone();
            sign.set(&mut expected.eyes.right.state, Some(seen));
            click(&mut window, &format!("{name}, {answer}"));
            assert_eq!(window.state().draft(), &expected, "{name}");
        }
    }
    let mut nothing_seen = EyeState::default();
    for &sign in Sign::ALL {
        sign.set(&mut nothing_seen, Some(false));
    }
    assert_eq!(window.state().draft().eyes.right.state, nothing_seen);
}

#[test]
fn numbers_of_the_state_can_be_recorded() {
    let mut bench = Bench::new(vec![one_eye()], light());
    bench.open(0);
    let mut window = harness(bench, HIGH);
    click(&mut window, "Posterior polar cataract, yes");
    enter(&mut window, "Opacity, diameter", "4.2");
    enter(&mut window, "Lens decentration", "0.9");
    let state = EyeState {
        posterior_polar: Some(true),
        polar_opacity: Some(Micrometers::new(4_200)),
        lens_decentration: Some(Micrometers::new(900)),
        ..EyeState::default()
    };
    assert_eq!(window.state().draft().eyes.right.state, state);
}

#[test]
fn contact_lenses_and_the_day_they_were_last_worn_can_be_recorded() {
    let mut bench = Bench::new(vec![one_eye()], light());
    bench.open(0);
    let mut window = harness(bench, HIGH);
    let recorded = |window: &Window| window.state().draft().eyes.right.state.contact_lenses;
    click(&mut window, "Contact lenses, hard");
    let kind = ContactLensKind::Hard;
    let last_worn = None;
    let worn = Some(ContactLenses::Worn { kind, last_worn });
    assert_eq!(recorded(&window), worn);
    fill(&mut window, "Last worn on", "2026-10-01");
    let last_worn = Some(date(2026, 10, 1));
    let worn = Some(ContactLenses::Worn { kind, last_worn });
    assert_eq!(recorded(&window), worn);
    click(&mut window, "Contact lenses, not worn");
    assert_eq!(recorded(&window), Some(ContactLenses::NotWorn));
}

#[test]
fn what_matters_of_the_patient_can_be_recorded() {
    let mut bench = Bench::new(vec![one_eye()], light());
    bench.open(0);
    let mut window = harness(bench, HIGH);
    for name in ["Alpha-blocker, ever", "Anticoagulant now", "Diabetes"] {
        click(&mut window, &format!("{name}, yes"));
    }
    let patient = &window.state().draft().patient;
    let told = [
        patient.alpha_blocker,
        patient.anticoagulant,
        patient.diabetes,
    ];
    assert_eq!(told, [Some(true); 3]);
}
