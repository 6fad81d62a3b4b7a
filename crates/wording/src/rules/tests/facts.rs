//! Facts of patient and measurements.

use millrace_core::biometry::CornealSurgeryKind::{HyperopicLaser, MyopicLaser, Other};
use millrace_core::biometry::{DepthStart, LengthMethod, Side};
use millrace_core::calendar::Day;
use millrace_core::case::{Critical, SurgeonGrade};
use millrace_core::quantity::KeratometricIndex;
use millrace_core::rules::risk::OddsFactor;
use millrace_core::rules::{
    Contradiction, Fact, Identifier, Quantity, TwoLooks, WeakZonules, Which,
};

use super::{date, diopters, meridian, micrometers};
use crate::{Show as _, Words};

#[test]
#[expect(clippy::too_many_lines, reason = "a row for each")]
fn facts_of_patient_and_measurements() {
    let [length, added] = [23_500, 470].map(micrometers);
    let day = Day(date("2024-12-02"));
    let differs = |what, first, second| TwoLooks::Quantity {
        what,
        first,
        second,
    };
    for (it, text) in [
        (Fact::Without(vec![Identifier::Name]), "no name"),
        (
            Fact::Without(vec![Identifier::Name, Identifier::Number]),
            "no name, no hospital number",
        ),
        (Fact::Target(diopters(-26)), "target \u{2212}0.26 D"),
        (
            Fact::EyeChanges(vec![[Side::Right, Side::Left], [Side::Left, Side::Right]]),
            "right eye → left eye, left eye → right eye",
        ),
        (
            Fact::LensInEye {
                eye: Side::Right,
                power: diopters(2_150),
            },
            "right eye has a lens of +21.50 D",
        ),
        (
            Fact::SameInBothEyes {
                length,
                readings: [
                    Quantity::PowerAt {
                        power: diopters(4_350),
                        index: KeratometricIndex::STANDARD,
                    },
                    Quantity::Length(micrometers(7_800)),
                ],
            },
            "23.50 mm, 43.50 D at 1.3375, 7.80 mm in both eyes",
        ),
        (Fact::BornLater, "born after the planned day"),
        (
            Fact::TwoLooks(vec![
                TwoLooks::Number,
                TwoLooks::Eye {
                    first: None,
                    second: Side::Left,
                },
                differs(
                    Critical::ChamberDepth,
                    None,
                    Some(Quantity::Depth {
                        depth: micrometers(3_200),
                        from: DepthStart::Epithelium,
                    }),
                ),
                TwoLooks::Meridian {
                    what: Critical::FlatMeridian,
                    first: Some(meridian(5)),
                    second: meridian(180),
                },
            ]),
            "hospital number, operative eye none (second look left eye), anterior chamber depth none \
             (second look 3.20 mm from the epithelium), flat meridian 5° (second look 180°)",
        ),
        (
            Fact::TwoLooks(vec![differs(
                Critical::AxialLength,
                Some(Quantity::Length(micrometers(23_501))),
                Some(Quantity::Length(micrometers(23_500))),
            )]),
            "axial length 23.501 mm (second look 23.50 mm)",
        ),
        (
            Fact::MeasuredBySame(vec![Which::Keratometry, Which::ChamberDepth]),
            "measured by the same person: keratometry, anterior chamber depth",
        ),
        (
            Fact::Repeats {
                readings: Some(2),
                apart: Some(diopters(31)),
            },
            "2 readings, 0.31 D apart",
        ),
        (
            Fact::Quantities(
                [4_400, 4_420]
                    .map(|power| Quantity::PowerAt {
                        power: diopters(power),
                        index: KeratometricIndex::STANDARD,
                    })
                    .to_vec(),
            ),
            "44.00 D at 1.3375, 44.20 D at 1.3375",
        ),
        (
            Fact::Meridians {
                flat: meridian(180),
                steep: meridian(79),
                apart: 79,
            },
            "flat 180°, steep 79°: 79° apart",
        ),
        (
            Fact::MeasuredOn(vec![(Which::AxialLength, day), (Which::Keratometry, day)]),
            "axial length of 2 Dec 2024, keratometry of 2 Dec 2024",
        ),
        (Fact::NotRecorded, "not recorded"),
        (Fact::NotMeasured, "not measured"),
        (Fact::Surgery(MyopicLaser), "laser for myopia"),
        (Fact::Surgery(HyperopicLaser), "laser for hyperopia"),
        (Fact::Surgery(Other), "other corneal surgery"),
        (
            Fact::Contradictions(vec![
                Contradiction::Direction {
                    before: diopters(4_374),
                    now: diopters(4_375),
                },
                Contradiction::Correction {
                    change: diopters(1),
                    correction: diopters(300),
                },
            ]),
            "K before 43.74 D, now 43.75 D; change of K +0.01 D, correction +3.00 D",
        ),
        (
            Fact::UncorrectedForOil(Some(length)),
            "23.50 mm through silicone oil, uncorrected",
        ),
        (
            Fact::UncorrectedForOil(None),
            "axial length through silicone oil, uncorrected",
        ),
        (
            Fact::CorrectedForOil,
            "silicone oil, length corrected for it",
        ),
        (
            Fact::LengthBy {
                length,
                method: LengthMethod::Optical,
            },
            "23.50 mm by optical biometry",
        ),
        (
            Fact::LengthUsed {
                length,
                method: LengthMethod::Immersion,
                added: None,
            },
            "23.50 mm by immersion ultrasound, used as measured",
        ),
        // By hand: 23.50 + 0.47 = 23.97 mm.
        (
            Fact::LengthUsed {
                length,
                method: LengthMethod::Contact,
                added: Some(added),
            },
            "23.50 mm by contact ultrasound, 0.47 mm added, 23.97 mm used",
        ),
        (
            Fact::VectorApart {
                vector: diopters(51),
                degrees: Some(0),
            },
            "0.51 D as a vector, 0° apart",
        ),
        (
            Fact::VectorApart {
                vector: diopters(51),
                degrees: None,
            },
            "0.51 D as a vector",
        ),
        (Fact::Present, "present"),
        (Fact::Taken, "taken now or before"),
        (
            Fact::Surgeon(SurgeonGrade::ExperiencedTrainee),
            "experienced trainee",
        ),
        (
            Fact::Surgeon(SurgeonGrade::Trainee),
            "less experienced trainee",
        ),
        (Fact::LocsOpalescence(43), "LOCS III opalescence (NO) 4.3"),
        (Fact::LocsOpalescence(50), "LOCS III opalescence (NO) 5.0"),
        (
            Fact::WeakZonules(WeakZonules::Both),
            "pseudoexfoliation and phacodonesis",
        ),
        (Fact::WeakZonules(WeakZonules::Phacodonesis), "phacodonesis"),
        (
            Fact::Factors(vec![OddsFactor::Trainee, OddsFactor::DenseCataract]),
            "less experienced trainee 3.75, brunescent, white or mature cataract 2.41",
        ),
    ] {
        assert_eq!(it.show(Words::ENGLISH), text);
    }
}
