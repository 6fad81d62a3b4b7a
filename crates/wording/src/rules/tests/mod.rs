//! Every kind of fact, limit and detail as a sentence, each expected text written by hand.

mod details;
mod every_lens;
mod facts;
mod lens;
mod limits;
mod state;

use chrono::NaiveDate;
use millrace_core::biometry::DepthStart;
use millrace_core::quantity::KeratometricIndex;
use millrace_core::quantity::{HundredthDiopters, Meridian, Micrometers};
use millrace_core::rules::{Detail, Eyes, Fact, Missing, Quantity, Which};

use super::*;

fn diopters(hundredths: i32) -> HundredthDiopters {
    HundredthDiopters::new(hundredths)
}

fn micrometers(um: i32) -> Micrometers {
    Micrometers::new(um)
}

fn meridian(degrees: u16) -> Meridian {
    Meridian::new(degrees).unwrap()
}

fn date(day: &str) -> NaiveDate {
    day.parse().unwrap()
}

fn length(um: i32) -> Quantity {
    Quantity::Length(micrometers(um))
}

fn finding(measured: impl Into<Fact>, limit: Limit) -> Finding {
    Finding {
        measured: measured.into(),
        limit,
        details: Vec::new(),
        certainty: Certainty::AsMeasured,
    }
}

#[test]
fn numbers_with_their_units() {
    let from = |depth, from| Quantity::Depth {
        depth: micrometers(depth),
        from,
    };
    let at = |power, index| Quantity::PowerAt {
        power: diopters(power),
        index: KeratometricIndex::parse(index).unwrap(),
    };
    for (it, text) in [
        (length(23_500), "23.50 mm"),
        (length(23_501), "23.501 mm"),
        (length(-40), "\u{2212}0.04 mm"),
        (
            from(2_800, DepthStart::Epithelium),
            "2.80 mm from the epithelium",
        ),
        (
            from(2_799, DepthStart::Endothelium),
            "2.799 mm from the endothelium",
        ),
        (Quantity::Thickness(micrometers(540)), "540 µm"),
        (Quantity::Power(diopters(2_150)), "+21.50 D"),
        (Quantity::Power(diopters(-25)), "\u{2212}0.25 D"),
        (Quantity::Magnitude(diopters(251)), "2.51 D"),
        (at(4_400, "1.3315"), "44.00 D at 1.3315"),
        (at(4_400, "1.336"), "44.00 D at 1.336"),
        (Quantity::Density(999), "999 cells/mm²"),
        (Quantity::Readings(1), "1 reading"),
        (Quantity::Readings(2), "2 readings"),
        (Quantity::Years(120), "120 years"),
        (Quantity::Points(3), "3 points"),
        (Quantity::Percent(80), "80 %"),
        (Quantity::Chance(765), "76.5 %"),
        (Quantity::Chance(600), "60.0 %"),
    ] {
        assert_eq!(it.show(Words::ENGLISH), text);
    }
    let [zero, most] = [0, 120].map(Quantity::Years);
    for (it, text) in [
        (
            Limit::AtLeast(from(2_800, DepthStart::Epithelium)),
            "at least 2.80 mm from the epithelium",
        ),
        (
            Limit::AtMost(Quantity::Magnitude(diopters(250))),
            "at most 2.50 D",
        ),
        (Limit::Under(Quantity::Points(3)), "under 3 points"),
        (
            Limit::OrMore(from(2_800, DepthStart::Epithelium)),
            "2.80 mm from the epithelium or more",
        ),
        (
            Limit::Within(length(21_200), length(26_600)),
            "21.20 mm to 26.60 mm",
        ),
        (Limit::Within(zero, most), "0 to 120 years"),
    ] {
        assert_eq!(it.show(Words::ENGLISH), text);
    }
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
        assert_eq!(percent(Words::ENGLISH, chance), text, "{chance}");
    }
}

#[test]
fn a_sentence_says_what_a_finding_stands_against() {
    let sentence = |measured: Fact, limit| {
        let finding = finding(measured, limit);
        finding.show(Words::ENGLISH).into_owned()
    };
    assert_eq!(
        sentence(length(27_000).into(), Limit::AtMost(length(26_600))),
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
        ..finding(length(2_750), Limit::AtLeast(length(2_800)))
    };
    let (plain, clear, borderline) = (
        Certainty::AsMeasured,
        Certainty::Clear { chance: 0.96 },
        Certainty::Borderline { chance: 0.5 },
    );
    assert_eq!(certainty(Words::ENGLISH, plain), None);
    assert_eq!(
        certainty(Words::ENGLISH, clear).unwrap(),
        "96 % chance that the true depth is under the limit"
    );
    assert_eq!(
        certainty(Words::ENGLISH, borderline).unwrap(),
        "borderline; 50 % chance that the true depth is under the limit"
    );
    assert_eq!(
        finding_and_certainty(Words::ENGLISH, &it(plain)),
        "2.75 mm (limit: at least 2.80 mm)"
    );
    assert_eq!(
        finding_and_certainty(Words::ENGLISH, &it(clear)),
        "2.75 mm (limit: at least 2.80 mm); 96 % chance that the true depth is under the limit"
    );
    assert_eq!(
        finding_and_certainty(Words::ENGLISH, &it(borderline)),
        "2.75 mm (limit: at least 2.80 mm); BORDERLINE, 50 % chance that the true depth is under the limit"
    );
}

#[test]
fn details_are_one_sentence() {
    let plain = finding(Fact::Present, Limit::Absent);
    assert_eq!(details(Words::ENGLISH, &plain), None);
    let depth = Detail::AqueousDepth(micrometers(2_210));
    let more = Finding {
        details: vec![Detail::Repeat, depth],
        ..plain
    };
    assert_eq!(
        details(Words::ENGLISH, &more).unwrap(),
        "consider repeating the measurement; aqueous depth 2.21 mm"
    );
}

#[test]
fn what_is_missing_with_parts() {
    for (it, text) in [
        (
            Missing::of_this_eye(Which::AxialLength),
            "axial length of the operative eye",
        ),
        (
            Missing::of_both_eyes(Which::Keratometry),
            "keratometry of one or both eyes",
        ),
        (
            Missing::of_this_eye(Which::DepthFromEpithelium),
            "anterior chamber depth of the operative eye from the epithelium",
        ),
        (
            Missing::UsableSpread {
                which: Which::ChamberDepth,
            },
            "a usable spread of the anterior chamber depth",
        ),
        (
            Missing::ThicknessForDepth {
                from: DepthStart::Endothelium,
            },
            "corneal thickness to convert the depth from the endothelium",
        ),
        (
            Missing::EmmetropicPower { of: Eyes::Both },
            "power for emmetropia of one or both eyes by the chosen formula",
        ),
        (Missing::NucleusGrade, "grade of the nucleus"),
    ] {
        assert_eq!(it.show(Words::ENGLISH), text);
    }
}
