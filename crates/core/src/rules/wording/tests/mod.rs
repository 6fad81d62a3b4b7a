//! Every kind of fact, limit and detail as a sentence, each expected text written by hand.

mod details;
mod facts;
mod lens;
mod limits;

use super::*;
use crate::rules::testing::{diopters, micrometers};
use crate::rules::testing::{limit as read_limit, quantity as read};
use crate::rules::{Detail, Eyes, Fact, Missing, Quantity, Which};

/// What the tests of the rules write is what is shown.
#[test]
fn numbers_with_their_units() {
    for text in [
        "23.50 mm",
        "23.501 mm",
        "\u{2212}0.04 mm",
        "2.80 mm from the epithelium",
        "2.799 mm from the endothelium",
        "540 µm",
        "+21.50 D",
        "\u{2212}0.25 D",
        "2.51 D",
        "44.00 D at 1.3315",
        "44.00 D at 1.336",
        "999 cells/mm²",
        "1 reading",
        "2 readings",
        "120 years",
        "3 points",
        "80 %",
        "76.5 %",
        "60.0 %",
    ] {
        assert_eq!(quantity(read(text)), text);
    }
    for text in [
        "at least 2.80 mm from the epithelium",
        "at most 2.50 D",
        "under 3 points",
        "2.80 mm from the epithelium or more",
        "21.20 mm to 26.60 mm",
    ] {
        assert_eq!(limit(&read_limit(text)), text);
    }
    assert_eq!(limit(&read_limit("0 years to 120 years")), "0 to 120 years");
}

#[test]
fn a_chance_is_never_none_or_certain() {
    for (chance, text) in [
        (0.0, "under 1 %"),
        (0.0049, "under 1 %"),
        (0.005, "0 %"),
        (0.0051, "1 %"),
        (0.8413, "84 %"),
        (0.9949, "99 %"),
        (0.995, "over 99 %"),
        (1.0, "over 99 %"),
    ] {
        assert_eq!(percent(chance), text, "{chance}");
    }
}

#[test]
fn a_sentence_says_what_a_finding_stands_against() {
    let sentence = |measured, limit| finding(&Finding::new(measured, limit));
    assert_eq!(
        sentence(read("27.00 mm").into(), read_limit("at most 26.60 mm")),
        "27.00 mm (limit: at most 26.60 mm)"
    );
    let (power, refraction) = (diopters(2_200), None);
    assert_eq!(
        sentence(
            Fact::Predicted { power, refraction },
            Limit::ProposedPower { power, refraction }
        ),
        "+22.00 D, no prediction (proposed: +22.00 D, no prediction)"
    );
    let found = Fact::MeasuredBySame(vec![Which::AxialLength]);
    assert_eq!(
        sentence(found, Limit::AnotherPerson),
        "measured by the same person: axial length; another person is to look"
    );
}

#[test]
fn how_sure_a_finding_is() {
    let it = |certainty| Finding {
        certainty,
        ..Finding::new(read("2.75 mm"), read_limit("at least 2.80 mm"))
    };
    let (plain, clear, borderline) = (
        Certainty::AsMeasured,
        Certainty::Clear { chance: 0.96 },
        Certainty::Borderline { chance: 0.5 },
    );
    assert_eq!(certainty(plain), None);
    assert_eq!(
        certainty(clear).unwrap(),
        "96 % chance that the true depth is under the limit"
    );
    assert_eq!(
        certainty(borderline).unwrap(),
        "borderline; 50 % chance that the true depth is under the limit"
    );
    assert_eq!(
        finding_and_certainty(&it(plain)),
        "2.75 mm (limit: at least 2.80 mm)"
    );
    assert_eq!(
        finding_and_certainty(&it(clear)),
        "2.75 mm (limit: at least 2.80 mm); 96 % chance that the true depth is under the limit"
    );
    assert_eq!(
        finding_and_certainty(&it(borderline)),
        "2.75 mm (limit: at least 2.80 mm); BORDERLINE, 50 % chance that the true depth is under the limit"
    );
}

#[test]
fn details_are_one_sentence() {
    let plain = Finding::new(Fact::Present, Limit::Absent);
    assert_eq!(details(&plain), None);
    let depth = Detail::AqueousDepth(micrometers(2_210));
    let more = plain.with([Detail::Repeat, depth]);
    assert_eq!(
        details(&more).unwrap(),
        "consider repeating the measurement; aqueous depth 2.21 mm"
    );
}

#[test]
fn what_is_missing_with_parts() {
    for (it, text) in [
        (
            Missing::of_this_eye(Which::AxialLength),
            "axial length of the operated eye",
        ),
        (
            Missing::of_both_eyes(Which::Keratometry),
            "keratometry of both eyes",
        ),
        (
            Missing::of_this_eye(Which::DepthFromEpithelium),
            "anterior chamber depth of the operated eye from the epithelium",
        ),
        (
            Missing::UsableSpread {
                which: Which::ChamberDepth,
            },
            "usable spread of the anterior chamber depth",
        ),
        (
            Missing::ThicknessForDepth {
                from: crate::biometry::DepthStart::Endothelium,
            },
            "corneal thickness, without which the depth from the endothelium is not known",
        ),
        (
            Missing::EmmetropicPower { of: Eyes::Both },
            "power for emmetropia of both eyes by the formula planned by",
        ),
        (Missing::NucleusGrade, "grade of the nucleus"),
    ] {
        assert_eq!(missing(it), text);
    }
    assert_eq!(quantity(Quantity::Readings(1)), "1 reading");
}
