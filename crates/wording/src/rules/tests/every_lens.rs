//! What is said of every lens: powers in their place, constants, and which lens a finding is about.

use millrace_core::finding::{Asks, ConstantValue, Found, Lacking, LensConstant, Outcome};
use millrace_core::iol_power::Formula;
use millrace_core::lens::{Haptic, Material, Place};
use millrace_core::quantity::ThousandthDiopters;
use millrace_core::rules::{Detail, Fact, Limit, Quantity};

use super::{diopters, finding, micrometers};
use crate::rules::{id, title};
use crate::{Show as _, Words};

const ENGLISH: Words = Words::ENGLISH;

#[test]
fn a_power_in_its_place() {
    let predicted = Fact::PredictedBy {
        formula: Formula::SrkT,
        power: diopters(918),
        refraction: diopters(704),
    };
    let near = Limit::NearTarget {
        within: diopters(200),
        target: diopters(-30),
    };
    assert_eq!(
        finding(predicted, near).show(ENGLISH),
        "+9.18 D, predicted +7.04 D by SRK/T (limit: at most 2.00 D from the target \u{2212}0.30 D)"
    );
    let sign = finding(
        Quantity::Power(diopters(-100)),
        Limit::SignOf(diopters(224)),
    );
    assert_eq!(
        sign.show(ENGLISH),
        "\u{2212}1.00 D (limit: the sign of +2.24 D, which the eye needs)"
    );
    let details = [
        Detail::NeededPower(diopters(2_007)),
        Detail::TakenForward(micrometers(500)),
    ];
    assert_eq!(
        ENGLISH.clauses(&details),
        "the eye needs +20.07 D there; taken to sit 0.50 mm forward of the bag"
    );
    let design = Fact::Design {
        lens: "Weir one-piece".to_owned(),
        haptic: Haptic::OnePiece,
        material: Material::HydrophobicAcrylic,
    };
    assert_eq!(
        finding(design, Limit::SulcusDesign).show(ENGLISH),
        "Weir one-piece: one-piece, hydrophobic acrylic (limit: three pieces, or one of PMMA)"
    );
}

#[test]
fn constants_of_a_record() {
    let value = |which, thousandths| ConstantValue { which, thousandths };
    let converted = finding(
        Fact::Constants(vec![
            value(LensConstant::PersonalizedAcd, 5_370),
            value(LensConstant::SurgeonFactor, -1_620),
        ]),
        Limit::Converted(vec![
            value(LensConstant::PersonalizedAcd, 4_849),
            value(LensConstant::SurgeonFactor, 1_110),
        ]),
    );
    assert_eq!(
        converted.show(ENGLISH),
        "pACD 5.37 mm, surgeon factor \u{2212}1.62 mm (limit: by conversion pACD 4.849 mm, surgeon \
         factor 1.11 mm)"
    );
    let a = value(LensConstant::A, 130_000);
    let range = [115_000, 121_000].map(|end| value(LensConstant::A, end));
    assert_eq!(
        finding(Fact::Constants(vec![a]), Limit::UsualConstants(vec![range])).show(ENGLISH),
        "A 130.00 (limit: A 115.00 to A 121.00)"
    );
    let detail = Detail::SameModel {
        model: "Weir Q".to_owned(),
        formula: Formula::HofferQ,
    };
    assert_eq!(detail.show(ENGLISH), "two records of Weir Q, by Hoffer Q");
}

#[test]
fn a_finding_of_a_backup_lens_says_which() {
    let of_rule = "The lens is not made in this power";
    assert_eq!(title(ENGLISH, of_rule, None), of_rule);
    assert_eq!(
        title(ENGLISH, of_rule, Some(Place::Sulcus)),
        "Backup lens for the sulcus: The lens is not made in this power"
    );
    assert_eq!(id(ENGLISH, "PW-01", None), "PW-01");
    assert_eq!(
        id(ENGLISH, "PW-01", Some(Place::AnteriorChamber)),
        "PW-01, anterior chamber IOL"
    );
}

#[test]
fn conditions_of_the_refinement_that_came_later() {
    let error = ThousandthDiopters::new(-1_625);
    let it = Fact::Conditions(vec![
        (
            Asks::SmallError(diopters(150)),
            Outcome::NotMet(Found::Error(error)),
        ),
        (
            Asks::Lengths(micrometers(300)),
            Outcome::NotMet(Found::LengthsApart(micrometers(310))),
        ),
        (Asks::SameModel, Outcome::CannotBeTold(Lacking::FirstModel)),
    ]);
    assert_eq!(
        it.show(ENGLISH),
        "not met: the first eye came out at most 1.50 D from its prediction (1.625 D more myopic \
         than predicted); not met: axial lengths of the eyes differ by at most 0.30 mm (0.31 mm \
         apart); could not be evaluated: both eyes get the same lens model (lens model in the first \
         eye is missing)"
    );
}
