//! An incision against hand-worked values.

use super::*;

fn planned(approach: Approach, width_um: i32, degrees: u16) -> Incision {
    Incision {
        approach: Some(approach),
        width: Some(Micrometers::new(width_um)),
        direction: Direction::new(degrees).ok(),
        ..Incision::default()
    }
}

fn own(flattening: i32) -> Option<IncisionEffect> {
    let [flattening, scatter] = [flattening, 25].map(HundredthDiopters::new);
    IncisionEffect::new(flattening, scatter, 60, None).ok()
}

/// By hand: (0.25 + 0.1296 − 0.0324)/2 = 0.1736, whose root is 0.41665.
#[test]
fn published_scatter_by_hand() {
    assert!((published_scatter().d() - 0.41665).abs() < 5e-6);
}

/// By hand: 0.50² − 2·0.30² = 0.25 − 0.18 = 0.07, whose root is 0.264575. The published 0.1736 holds
/// less than the 0.18 of two keratometries, and so does a surgeon's 0.42² = 0.1764, but 0.43² = 0.1849
/// leaves 0.0049 = 0.07².
#[test]
fn two_keratometries_are_taken_off_what_was_observed() {
    let keratometry = Diopters::new(0.30);
    let of = |observed| OwnScatter::of(observed, keratometry);
    for (observed_d, left_d) in [(0.50, 0.264_575), (0.43, 0.07)] {
        match of(Diopters::new(observed_d)) {
            OwnScatter::Left(left) => assert!((left.d() - left_d).abs() < 5e-7, "{left:?}"),
            OwnScatter::InKeratometry => panic!("{observed_d}"),
        }
    }
    assert_eq!(of(published_scatter()), OwnScatter::InKeratometry);
    assert_eq!(of(Diopters::new(0.42)), OwnScatter::InKeratometry);
    assert_eq!(of(published_scatter()).counted(), Diopters::new(0.0));
}

/// By hand: flattening at 180 is steepening at 90, at 45 steepening at 135.
#[test]
fn an_incision_flattens_its_own_meridian() {
    let phaco = |degrees| planned(Approach::Phacoemulsification, 2_800, degrees);
    for (degrees, steepened) in [(180, 90.0), (360, 90.0), (90, 180.0), (225, 135.0)] {
        let term = IncisionTerm::of(phaco(degrees), Side::Right).unwrap();
        assert!((term.astigmatism.cylinder().d() - 0.18).abs() < 1e-12);
        let found = term.astigmatism.steep_degrees().unwrap();
        assert!((found - steepened).abs() < 1e-9, "{degrees}: {found}");
    }
}

#[test]
fn the_published_effect_is_for_temporal_incisions_up_to_2_8_mm() {
    use ToricCaution::{IncisionElsewhere, IncisionPublished};
    let phaco = |width, degrees| planned(Approach::Phacoemulsification, width, degrees);
    let cautions = |side, degrees| {
        let term = IncisionTerm::of(phaco(2_400, degrees), side).unwrap();
        term.cautions().collect::<Vec<_>>()
    };
    assert_eq!(cautions(Side::Right, 180), [IncisionPublished]);
    assert_eq!(cautions(Side::Left, 360), [IncisionPublished]);
    let elsewhere = [IncisionPublished, IncisionElsewhere];
    assert_eq!(cautions(Side::Left, 180), elsewhere);
    assert_eq!(cautions(Side::Right, 90), elsewhere);
    assert_eq!(
        IncisionTerm::of(phaco(2_801, 180), Side::Right),
        Err(ToricRefusal::WideIncisionUnknown {
            width: Micrometers::new(2_801)
        })
    );
}

#[test]
fn a_small_incision_needs_the_surgeons_own_figures() {
    let mut incision = planned(Approach::SmallIncision, 6_500, 90);
    assert_eq!(
        IncisionTerm::of(incision, Side::Right),
        Err(ToricRefusal::SmallIncisionUnknown)
    );
    incision.effect = own(80);
    let term = IncisionTerm::of(incision, Side::Right).unwrap();
    assert!((term.astigmatism.cylinder().d() - 0.8).abs() < 1e-12);
    assert!((term.astigmatism.steep_degrees().unwrap() - 180.0).abs() < 1e-9);
    assert_eq!(term.scatter, Diopters::new(0.25));
    assert_eq!(term.cautions().count(), 0);
}

/// The left eye is the right one in a mirror: direction d becomes 180 − d, the place stays, the
/// effect keeps its size and its meridian is mirrored.
#[test]
fn a_mirrored_incision_has_a_mirrored_effect() {
    for degrees in 1..=360 {
        let phaco = |degrees| planned(Approach::Phacoemulsification, 2_800, degrees);
        let right = IncisionTerm::of(phaco(degrees), Side::Right).unwrap();
        let mirrored = match (540 - degrees) % 360 {
            0 => 360,
            mirrored => mirrored,
        };
        let left = IncisionTerm::of(phaco(mirrored), Side::Left).unwrap();
        assert_eq!(right.place, left.place, "{degrees}");
        let (right, left) = (right.astigmatism, left.astigmatism);
        assert!((right.x - left.x).d().abs() < 1e-12, "{degrees}");
        assert!((right.y + left.y).d().abs() < 1e-12, "{degrees}");
    }
}

#[test]
fn what_is_missing_is_named() {
    let complete = planned(Approach::Phacoemulsification, 2_400, 180);
    let assert_missing = |remove: fn(&mut Incision), what| {
        let mut incision = complete;
        remove(&mut incision);
        let found = IncisionTerm::of(incision, Side::Right);
        assert_eq!(found, Err(ToricRefusal::Missing { what }));
    };
    assert_missing(
        |incision| incision.direction = None,
        ToricNeeds::IncisionDirection,
    );
    assert_missing(|incision| incision.approach = None, ToricNeeds::Approach);
    assert_missing(|incision| incision.width = None, ToricNeeds::IncisionWidth);
}

#[test]
fn figures_that_cannot_be_are_refused() {
    let new = |flattening, scatter, eyes| {
        let [flattening, scatter] = [flattening, scatter].map(HundredthDiopters::new);
        IncisionEffect::new(flattening, scatter, eyes, None)
    };
    for (flattening, scatter, eyes) in [(0, 1, 2), (500, 300, 2)] {
        assert!(new(flattening, scatter, eyes).is_ok());
    }
    for (flattening, scatter, eyes) in [(501, 25, 60), (30, 0, 60), (30, 301, 60), (30, 25, 1)] {
        assert!(new(flattening, scatter, eyes).is_err());
    }
    assert_eq!(
        new(-1, 25, 60).unwrap_err().to_string(),
        "flattening by the incision \u{2212}0.01 D is outside +0.00 D to +5.00 D"
    );
}

#[test]
fn the_figures_are_those_that_were_entered() {
    let [flattening, scatter] = [30, 25].map(HundredthDiopters::new);
    let day = NaiveDate::from_ymd_opt(2026, 3, 1);
    let effect = IncisionEffect::new(flattening, scatter, 60, day).unwrap();
    assert_eq!(effect.flattening(), flattening);
    assert_eq!(effect.scatter(), scatter);
    assert_eq!((effect.eyes(), effect.on()), (60, day));
    assert_eq!(own(30).unwrap().on(), None);
}
