//! What rules say of the state of the eye and of its nucleus.

use millrace_core::biometry::Sign;
use millrace_core::finding::{HardNucleus, WhyHard, WhyNotHard, WhyUnclear};
use millrace_core::rules::{Because, Detail, Fact, Limit, Missing, Place, Quantity, Which};

use super::{diopters, micrometers};
use crate::{Show, Words};

#[track_caller]
fn assert_said(it: &impl Show, text: &str) {
    assert_eq!(it.show(Words::ENGLISH), text);
}

#[test]
fn facts_of_the_state() {
    let loose = |trembles, off: Option<i32>| Fact::LooseLens {
        trembles,
        off: off.map(micrometers),
    };
    for (it, text) in [
        (Fact::PolarOpacity(micrometers(4_200)), "opacity of 4.20 mm"),
        (loose(true, None), "phacodonesis"),
        (loose(false, Some(900)), "lens center 0.90 mm off the axis"),
        (
            loose(true, Some(900)),
            "phacodonesis, lens center 0.90 mm off the axis",
        ),
        (
            Fact::Signs(vec![Sign::Glaucoma, Sign::Uveitis]),
            "glaucoma, uveitis now or before",
        ),
        (Fact::LocsColor(52), "LOCS III color (NC) 5.2"),
        (
            Fact::SharpNeedleBlock,
            "a block by a sharp needle, and anticoagulants or antiplatelet drugs taken",
        ),
        (
            Fact::WideSpreads(vec![Which::AxialLength, Which::Keratometry]),
            "wide spread of readings: axial length, keratometry",
        ),
    ] {
        assert_said(&it, text);
    }
    for (it, text) in [
        (
            Limit::FirmLens(micrometers(260)),
            "no phacodonesis, at most 0.26 mm off the axis",
        ),
        (Limit::GradeAsItLooks, "a grade that fits the appearance"),
        (Limit::NoSharpNeedle, "no sharp needle"),
        (
            Limit::TimesTheMethods(3),
            "at most 3 times the spread of the method",
        ),
        (Limit::AtLeast(Quantity::Days(28)), "at least 28 days"),
    ] {
        assert_said(&it, text);
    }
    assert_said(
        &Missing::Sign(Sign::UnstableSurface),
        "dry or unstable surface (yes or no)",
    );
    assert_said(
        &Because::Pseudoexfoliation,
        "there is pseudoexfoliation, for which PX-01 to PX-04 speak",
    );
}

#[test]
fn whether_the_nucleus_is_hard() {
    use HardNucleus::{No, Unclear, Yes};
    for (it, text) in [
        (Yes(WhyHard::Grade), "hard, by its grade"),
        (Yes(WhyHard::Color), "hard, by its color"),
        (Yes(WhyHard::Brunescent), "hard, since it is brunescent"),
        (Yes(WhyHard::Judged), "hard, as somebody judged it"),
        (No(WhyNotHard::Grade), "not hard, by its grade"),
        (No(WhyNotHard::Judged), "not hard, as somebody judged it"),
        (Unclear(WhyUnclear::NotGraded), "unclear: it was not graded"),
        (
            Unclear(WhyUnclear::White),
            "unclear: the cataract is white and the nucleus not graded",
        ),
        (
            Unclear(WhyUnclear::Dense),
            "unclear: the cataract is dense and the nucleus not graded",
        ),
        (
            Unclear(WhyUnclear::BrunescentGradedSoft),
            "unclear: it is brunescent, and its grade is not a hard one",
        ),
        (
            Unclear(WhyUnclear::WhiteGradedSoft),
            "unclear: the cataract is white, which hides it, and its grade is not a hard one",
        ),
        (
            Unclear(WhyUnclear::DenseGradedSoft),
            "unclear: the cataract is dense, and its grade is not a hard one",
        ),
    ] {
        assert_said(&it, text);
        assert_said(&Fact::Nucleus(it), text);
    }
}

#[test]
fn details_of_the_state() {
    let interval = |place| Detail::Interval {
        percent: 90,
        low: micrometers(2_773),
        high: micrometers(2_927),
        place,
    };
    for (it, text) in [
        (
            interval(Place::Under),
            "90 % interval 2.773 mm to 2.927 mm: under the limit",
        ),
        (
            interval(Place::Undecided),
            "90 % interval 2.773 mm to 2.927 mm: undecided, the limit lies inside",
        ),
        (
            interval(Place::Over),
            "90 % interval 2.773 mm to 2.927 mm: over the limit",
        ),
        (
            Detail::TakenAsHard(WhyUnclear::White),
            "the nucleus is taken as hard: the cataract is white and the nucleus not graded",
        ),
        (
            Detail::PolarRupture { wide: Some(true) },
            "the capsule ruptured in 30.4 % of such eyes with an opacity of 4 mm or more",
        ),
        (
            Detail::PolarRupture { wide: Some(false) },
            "the capsule ruptured in 5.7 % of such eyes with an opacity under 4 mm",
        ),
        (
            Detail::PolarRupture { wide: None },
            "the capsule ruptured in 15.5 % of such eyes: in 30.4 % with an opacity of 4 mm or more, in 5.7 % with a smaller one; its diameter is not recorded",
        ),
        (
            Detail::RefractionsApart {
                found: diopters(-50),
                expected: diopters(-270),
            },
            "this eye's refraction less the other's is \u{2212}0.50 D, biometry expects \u{2212}2.70 D",
        ),
        (
            Detail::RatiosLeftOut,
            "ratios that the abstract does not print are left out: whatever else raises the odds is not counted",
        ),
    ] {
        assert_said(&it, text);
    }
}
