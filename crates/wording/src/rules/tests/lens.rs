//! Facts of the lens and of the second eye.

use millrace_core::astigmatism::{Orientation, PosteriorBasis, ToricNeeds, ToricRefusal};
use millrace_core::biometry::CornealSurgeryKind::{HyperopicLaser, MyopicLaser, Other};
use millrace_core::biometry::Side;
use millrace_core::finding::{Asks, Found, Lacking, Outcome};
use millrace_core::iol_power::{Formula, MadeFor, Needed, NeededConstant, Refusal};
use millrace_core::lens::{Material, Obtained};
use millrace_core::quantity::ThousandthDiopters;
use millrace_core::rules::{Drift, Fact, NoAnswer};

use super::{diopters, meridian, micrometers};
use crate::{Show as _, Words};

#[test]
#[expect(clippy::too_many_lines, reason = "a row for each")]
fn facts_of_the_lens() {
    let no_answer = |formula, why| Fact::NoAnswer { formula, why };
    let toric = |refusal| no_answer(Formula::SrkT, NoAnswer::Astigmatism(refusal));
    let eye = |refusal| no_answer(Formula::SrkT, NoAnswer::Eye(refusal));
    let missing = |what| ToricRefusal::Missing { what };
    let cornea = |[irregular, operated]: [bool; 2]| Fact::Cornea {
        irregular,
        operated,
    };
    for (it, text) in [
        (
            Fact::FormulaAt {
                formula: Formula::HofferQ,
                length: micrometers(26_001),
            },
            "Hoffer Q at 26.001 mm",
        ),
        (
            Fact::FormulaAfter {
                formula: None,
                surgery: Other,
            },
            "no formula chosen after other corneal surgery",
        ),
        (
            Fact::FormulaAfter {
                formula: Some(Formula::ThickLens),
                surgery: MyopicLaser,
            },
            "thick lens without a measured back surface after laser for myopia",
        ),
        (
            Fact::FormulaAfter {
                formula: Some(Formula::SrkT),
                surgery: HyperopicLaser,
            },
            "SRK/T after laser for hyperopia",
        ),
        (Fact::NoFormula, "no formula"),
        (
            eye(Refusal::NotMeasured {
                what: Needed::ChamberDepth,
            }),
            "SRK/T: anterior chamber depth is missing",
        ),
        (
            eye(Refusal::NoConstant {
                what: NeededConstant::SurgeonFactor,
            }),
            "SRK/T: surgeon factor is missing in the lens record",
        ),
        (
            eye(Refusal::OtherSurgery {
                to: MadeFor::MyopicOrHyperopic,
            }),
            "SRK/T: applies only after myopic or hyperopic laser corneal surgery",
        ),
        (
            eye(Refusal::CorneaOperated),
            "SRK/T: made for corneas without refractive surgery; this one had it",
        ),
        (
            no_answer(Formula::HaigisModifiedRadius, NoAnswer::NotOnLadder),
            "Haigis, modified radius: not in the lens power table of this eye",
        ),
        (
            toric(missing(ToricNeeds::Keratometry)),
            "SRK/T: keratometry is missing",
        ),
        (
            toric(missing(ToricNeeds::IncisionDirection)),
            "SRK/T: direction of the incision is missing",
        ),
        (
            toric(missing(ToricNeeds::LensTargetAndFormula)),
            "SRK/T: chosen lens, target or a formula in the lens power table of this eye is missing",
        ),
        (
            toric(ToricRefusal::MultiplierAbove {
                cylinder: diopters(225),
            }),
            "SRK/T: the multiplier is published for lens cylinders up to +2.00 D, not for +2.25 D",
        ),
        (
            toric(ToricRefusal::SmallIncisionUnknown),
            "SRK/T: surgically induced astigmatism (SIA) of a small-incision (SICS) wound is not \
             known: the surgeon's own SIA may be recorded",
        ),
        (
            Fact::Predicted {
                power: diopters(2_200),
                refraction: Some(diopters(-66)),
            },
            "+22.00 D, predicted \u{2212}0.66 D",
        ),
        (
            Fact::Predicted {
                power: diopters(2_200),
                refraction: None,
            },
            "+22.00 D, no prediction",
        ),
        (Fact::Constant(Obtained::Given), "given by the maker"),
        (
            Fact::Constant(Obtained::ConvertedFromA),
            "converted from the A constant, not optimized",
        ),
        (
            Fact::Material(Material::HydrophilicAcrylic),
            "hydrophilic acrylic",
        ),
        (
            Fact::NotForSulcus("Lens under test".to_owned()),
            "Lens under test is not allowed in the sulcus",
        ),
        (
            Fact::Drifts(vec![
                Drift::FrontWithTheRule {
                    cylinder: diopters(200),
                    steep: meridian(60),
                },
                Drift::LeftAgainstTheRule {
                    cylinder: diopters(5),
                    steep: meridian(180),
                },
            ]),
            "anterior cornea with the rule, 2.00 D steep at 60°; left against the rule, 0.05 D steep at 180°",
        ),
        (
            Fact::Posterior(PosteriorBasis::NotMeasured),
            "left out, since it was not measured",
        ),
        (
            Fact::Posterior(PosteriorBasis::LeftOut),
            "left out by choice",
        ),
        (
            Fact::Posterior(PosteriorBasis::Regression(Orientation::WithTheRule)),
            "estimated by the regression, with the rule",
        ),
        (
            Fact::Posterior(PosteriorBasis::Multiplier(Orientation::AgainstTheRule)),
            "estimated by the multiplier, against the rule",
        ),
        (
            Fact::Axis {
                chosen: meridian(84),
                suggested: meridian(90),
                apart: 6,
            },
            "84°, suggested 90°: 6° apart",
        ),
        (cornea([true, true]), "irregular and operated on"),
        (cornea([true, false]), "irregular"),
        (cornea([false, true]), "operated on"),
        (
            Fact::Leaves {
                cylinder: Some(diopters(225)),
                left: Some(diopters(35)),
            },
            "+2.25 D, leaves 0.35 D",
        ),
        (
            Fact::Leaves {
                cylinder: None,
                left: None,
            },
            "no cylinder, what it leaves is not computed",
        ),
        (
            Fact::EquivalentWithCylinder(diopters(-102)),
            "spherical equivalent \u{2212}1.02 D predicted with the cylinder",
        ),
    ] {
        assert_eq!(it.show(Words::ENGLISH), text);
    }
}

#[test]
fn facts_of_the_second_eye() {
    let first = |hundredths| Fact::FirstEye {
        eye: Side::Left,
        error: diopters(hundredths).into(),
    };
    let finer = Fact::FirstEye {
        eye: Side::Left,
        error: ThousandthDiopters::new(-1_625),
    };
    for (it, text) in [
        (finer, "left eye: 1.625 D more myopic than predicted"),
        (first(-50), "left eye: 0.50 D more myopic than predicted"),
        (first(0), "left eye: as predicted"),
        (first(125), "left eye: 1.25 D more hyperopic than predicted"),
        (
            Fact::NoEarlierOperation,
            "no earlier operation on the fellow eye is recorded",
        ),
        (
            Fact::Conditions(vec![
                (
                    Asks::MeanK(diopters(60)),
                    Outcome::CannotBeTold(Lacking::Keratometry),
                ),
                (Asks::Uncomplicated, Outcome::NotMet(Found::Complicated)),
                (
                    Asks::SameFormula,
                    Outcome::CannotBeTold(Lacking::FirstFormula),
                ),
            ]),
            "could not be evaluated: mean K of the eyes differs by at most 0.60 D (keratometry of one \
             or both eyes is missing); not met: the first operation was not complicated (it was); \
             could not be evaluated: the first eye was predicted by the chosen formula (formula of \
             the first prediction is missing)",
        ),
        (
            Fact::Conditions(vec![
                (
                    Asks::MeanK(diopters(60)),
                    Outcome::NotMet(Found::Apart(diopters(61))),
                ),
                (
                    Asks::SameFormula,
                    Outcome::NotMet(Found::Formulas {
                        first: Formula::T2,
                        here: Formula::SrkT,
                    }),
                ),
                (Asks::UntouchedCorneas, Outcome::NotMet(Found::ThisCornea)),
            ]),
            "not met: mean K of the eyes differs by at most 0.60 D (0.61 D apart); not met: the \
             first eye was predicted by the chosen formula (T2 there, SRK/T here); not \
             met: neither eye had corneal refractive surgery (this eye had)",
        ),
        (Fact::Undecided, "not decided"),
    ] {
        assert_eq!(it.show(Words::ENGLISH), text);
    }
}
