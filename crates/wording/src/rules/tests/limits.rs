//! What a finding stands against.

use millrace_core::biometry::CornealSurgeryKind::{HyperopicLaser, MyopicLaser};
use millrace_core::calendar::Day;
use millrace_core::case::SecondEyeChoice;
use millrace_core::iol_power::Formula;
use millrace_core::lens::BiometryKind;
use millrace_core::quantity::KeratometricIndex;
use millrace_core::rules::{Contradiction, Limit, NamedFor, PowerSpan};

use super::{date, diopters, micrometers};
use crate::{Show as _, Words};

#[test]
#[expect(clippy::too_many_lines, reason = "a row for each")]
fn limits_with_numbers() {
    let length = micrometers;
    let [from, to, step] = [1_000, 1_500, 50].map(diopters);
    let changes = |surgery| {
        let [before, now] = [4_374, 4_375].map(diopters);
        let [change, correction] = [1, 300].map(diopters);
        let found = vec![
            Contradiction::Direction { before, now },
            Contradiction::Correction { change, correction },
        ];
        Limit::Changes(found, surgery)
    };
    for (it, text) in [
        (
            Limit::ConsentedTarget(diopters(300)),
            "consented target +3.00 D",
        ),
        (
            Limit::Repeats {
                readings: Some(3),
                apart: Some(diopters(30)),
            },
            "at least 3 readings, at most 0.30 D apart",
        ),
        (Limit::Index(KeratometricIndex::STANDARD), "index 1.3375"),
        (Limit::AtLeastApart(80), "at least 80° apart"),
        (Limit::AtMostApart(5), "at most 5° apart"),
        (
            Limit::MonthsBefore {
                months: 24,
                day: Day(date("2026-12-03")),
            },
            "at most 24 months before 3 Dec 2026",
        ),
        (
            Limit::NamedFormulas {
                formulas: vec![Formula::Haigis, Formula::HofferQ],
                lengths: NamedFor::Under(length(22_000)),
            },
            "Haigis or Hoffer Q under 22.00 mm",
        ),
        (
            Limit::NamedFormulas {
                formulas: vec![Formula::SrkT],
                lengths: NamedFor::Between(length(22_000), length(26_000)),
            },
            "SRK/T from 22.00 mm to 26.00 mm",
        ),
        (
            Limit::NamedFormulas {
                formulas: vec![Formula::Haigis, Formula::SrkT],
                lengths: NamedFor::Over(length(26_000)),
            },
            "Haigis or SRK/T over 26.00 mm",
        ),
        (
            changes(MyopicLaser),
            "more than 43.75 D before laser for myopia; K lower by the correction, within 2.00 D",
        ),
        (
            changes(HyperopicLaser),
            "less than 43.75 D before laser for hyperopia; K lower by the correction, within 2.00 D",
        ),
        (
            Limit::ConstantsFor(BiometryKind::Optical),
            "constants for optical biometry",
        ),
        (
            Limit::AtMostVector {
                vector: diopters(50),
                degrees: 10,
            },
            "at most 0.50 D as a vector, 10° apart",
        ),
        (
            Limit::FartherFrom {
                tolerance: 7,
                grade: 50,
            },
            "more than 0.7 from 5.0",
        ),
        (Limit::MadeIn(Vec::new()), "no power is recorded"),
        (
            Limit::MadeIn(vec![PowerSpan { from, to, step }; 2]),
            "+10.00 D to +15.00 D by 0.50 D, +10.00 D to +15.00 D by 0.50 D",
        ),
        (
            Limit::CylindersMade([150, 225].map(diopters).to_vec()),
            "+1.50 D, +2.25 D",
        ),
        (
            Limit::ProposedPower {
                power: diopters(2_150),
                refraction: Some(diopters(-32)),
            },
            "+21.50 D, predicted \u{2212}0.32 D",
        ),
        (
            Limit::ProposedCylinder {
                cylinder: Some(diopters(300)),
                left: Some(diopters(15)),
            },
            "+3.00 D, leaves 0.15 D",
        ),
        (
            Limit::ExactCylinder(diopters(277)),
            "at most +2.77 D at the lens plane",
        ),
        (
            Limit::OnLadder(diopters(2)),
            "+0.02 D in the lens power table",
        ),
    ] {
        assert_eq!(it.show(Words::ENGLISH), text);
    }
}

#[test]
fn what_became_of_the_refinement() {
    use SecondEyeChoice::{Refined, Unrefined};
    for (offered, choice, text) in [
        (
            true,
            None,
            "refinement offered, nothing applied until it is decided",
        ),
        (false, None, "refinement not offered, nothing applied"),
        (
            true,
            Some(Unrefined),
            "refinement declined, nothing applied",
        ),
        (
            false,
            Some(Unrefined),
            "refinement declined, nothing applied",
        ),
        (
            true,
            Some(Refined),
            "refinement chosen, shown beside the unrefined prediction",
        ),
        (
            false,
            Some(Refined),
            "refinement chosen but not offered, nothing applied",
        ),
    ] {
        assert_eq!(
            Limit::Refinement { offered, choice }.show(Words::ENGLISH),
            text
        );
    }
}
