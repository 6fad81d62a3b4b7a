//! What else there is to know.

use millrace_core::biometry::Side;
use millrace_core::chamber::WorkingPlane;
use millrace_core::iol_power::Formula;
use millrace_core::quantity::Direction;
use millrace_core::rules::risk::{Band, BorderlineDepth, OddsFactor, RiskItem};
use millrace_core::rules::{Astigmatism, Detail, SpreadOf, Which};

use super::{diopters, meridian, micrometers};
use crate::{Show as _, Words};

fn one(detail: &Detail) -> String {
    detail.show(Words::ENGLISH).into_owned()
}

#[test]
#[expect(clippy::too_many_lines, reason = "a row for each")]
fn details_of_measurements() {
    let [thickness, depth] = [540, 3_200].map(micrometers);
    let spread = |of, instead_of_zero| Detail::Spread {
        of,
        deviation: micrometers(47),
        instead_of_zero,
    };
    let astigmatism = |cylinder, steep| Astigmatism {
        cylinder: diopters(cylinder),
        steep,
    };
    for (it, text) in [
        (Detail::BirthDateMissing, "the birth date is missing too"),
        (
            Detail::ReasonsGiven(vec!["patient's wish".to_owned(), "consent".to_owned()]),
            "reason given: patient's wish; consent",
        ),
        (
            Detail::DepthFromEpithelium { thickness, depth },
            "with a cornea of 540 µm the depth from the epithelium is 3.20 mm",
        ),
        (
            Detail::EmmetropicPower {
                power: diopters(2_401),
                average: diopters(2_100),
            },
            "power for emmetropia +24.01 D, average of the lens +21.00 D",
        ),
        (
            Detail::EmmetropicPowers {
                operated: diopters(2_150),
                fellow: diopters(2_049),
            },
            "power for emmetropia +21.50 D in the operative eye, +20.49 D in the fellow eye",
        ),
        (
            Detail::AtStandardIndex([4_480, 4_500].map(diopters).to_vec()),
            "the same cornea at 1.3375 is 44.80 D, 45.00 D",
        ),
        (
            Detail::DatedAfter(vec![Which::AxialLength, Which::Keratometry]),
            "dated after the planned day: axial length, keratometry",
        ),
        (
            Detail::ScatterAfterSurgery,
            "published predictions scatter by about 0.70 D (1 SD)",
        ),
        (
            Detail::FilledEye,
            "a filled eye needs +3 to +5 D; only a third came within ±1 D",
        ),
        (
            Detail::ByTwoMethods {
                first: astigmatism(200, Some(meridian(90))),
                second: astigmatism(0, None),
            },
            "2.00 D steep at 90°; by the other method 0.00 D",
        ),
        (Detail::Repeat, "consider repeating the measurement"),
        (
            Detail::SpreadUnknown,
            "the spread of this measurement is not known, so whether it is borderline cannot be judged",
        ),
        (
            spread(SpreadOf::Depth, true),
            "1 SD of the depth 0.047 mm, the table's, since the measurement gives zero",
        ),
        (
            spread(SpreadOf::DepthAndThickness, false),
            "1 SD of depth and corneal thickness together 0.047 mm",
        ),
        (Detail::AqueousDepth(depth), "aqueous depth 3.20 mm"),
        (
            Detail::RoomToDivide,
            "a deeper chamber leaves more margin over small pieces, at every working plane",
        ),
    ] {
        assert_eq!(one(&it), text);
    }
    let means = one(&Detail::UltrasoundMeans);
    assert!(means.contains("0.20 mm shorter") && means.ends_with("0.47 mm longer than contact"));
}

#[test]
fn details_of_how_near_things_come() {
    let [low, high, worst] = [-310, 250, -890].map(micrometers);
    for (it, text) in [
        (
            Detail::Margin {
                plane: WorkingPlane::Pupil,
                pieces: 8,
                low,
                high,
                worst,
                touch_percent: 41,
            },
            "estimate at rest for 8 pieces in the pupil plane: 80 % range \u{2212}0.31 mm to 0.25 mm, \
             worst \u{2212}0.89 mm, touching in 41 % of directions",
        ),
        (
            Detail::OnPupil(micrometers(7_000)),
            "the whole nucleus lying on a pupil of 7.00 mm; an estimate at rest",
        ),
        (
            Detail::Passage {
                half_perimeter: micrometers(10_140),
                lips: micrometers(6_500),
            },
            "half the way around what passes is 10.14 mm, the lips are 6.50 mm",
        ),
        (
            Detail::StretchFlat(80),
            "passing flat it would stretch by 80 %",
        ),
        (
            Detail::OpticalDepth(micrometers(2_930)),
            "optically perhaps 2.93 mm, deeper than the limit",
        ),
    ] {
        assert_eq!(one(&it), text);
    }
}

#[test]
#[expect(clippy::too_many_lines, reason = "a row for each")]
fn details_of_operation_and_lens() {
    let [five_and_a_half, six] = [5_500, 6_000].map(micrometers);
    let estimate = |off_axis, rounded_up| Detail::Estimate {
        pieces: 4,
        longest: micrometers(5_000),
        off_axis,
        rounded_up,
    };
    for (it, text) in [
        (
            Detail::CapsulorhexisAndOptic {
                capsulorhexis: five_and_a_half,
                optic: six,
            },
            "capsulorhexis 5.50 mm, optic 6.00 mm",
        ),
        (
            estimate(None, false),
            "estimate for 4 pieces, the longest 5.00 mm",
        ),
        (
            estimate(Some(micrometers(210)), true),
            "estimate for 4 pieces, the longest 5.00 mm; room 2 mm off the axis 0.21 mm; just under \
             the clearance, rounded up to it here",
        ),
        (
            Detail::RiskPoints {
                band: Band::SixOrMore,
                given: vec![RiskItem::Pseudoexfoliation, RiskItem::Phacodonesis],
                unknown: vec![RiskItem::HighAmetropia, RiskItem::PosteriorPolar],
            },
            "band 6 or more: pseudoexfoliation 3, phacodonesis 3; not recorded: high ametropia, \
             posterior polar cataract",
        ),
        (
            Detail::RiskPoints {
                band: Band::ThreeToFive,
                given: vec![RiskItem::CornealScarring, RiskItem::DenseCataract],
                unknown: Vec::new(),
            },
            "band 3 to 5: corneal scarring 1, dense, total, white or brunescent cataract 3",
        ),
        (
            Detail::BorderlineDepth(BorderlineDepth {
                depth: micrometers(2_453),
                limit: micrometers(2_500),
                chance: 0.8413,
            }),
            "borderline: anterior chamber depth 2.453 mm, its point given as measured, chance that \
             the true depth lies under 2.50 mm 84 %",
        ),
        (
            Detail::BorderlineDepth(BorderlineDepth {
                depth: micrometers(2_500),
                limit: micrometers(2_500),
                chance: 0.5,
            }),
            "borderline: anterior chamber depth 2.50 mm, its point not given as measured, chance \
             that the true depth lies under 2.50 mm 50 %",
        ),
        (
            Detail::NotMultiplied,
            "not multiplied, and no percentage is given for this eye, since no intercept is printed; \
             1.01 % of all operations",
        ),
        (
            Detail::FactorNotRecorded(OddsFactor::WeakZonules),
            "not recorded: pseudoexfoliation or phacodonesis",
        ),
        (
            Detail::FactorNotApplied(OddsFactor::YoungerMale),
            "younger male 3.05 not applied: the age limit is not printed",
        ),
        (
            Detail::FirstOperation {
                complicated: Some(true),
            },
            "it was complicated, so its error is no guide",
        ),
        (
            Detail::FirstOperation {
                complicated: Some(false),
            },
            "it was not complicated",
        ),
        (
            Detail::FirstOperation { complicated: None },
            "whether it was complicated is not recorded",
        ),
        (
            Detail::ErrorConvention,
            "prediction error: achieved less predicted spherical equivalent",
        ),
        (
            Detail::NoneProposed,
            "the convention proposes none of these powers",
        ),
        (
            Detail::Extremes {
                lowest: (Formula::HofferQ, diopters(2_101)),
                highest: (Formula::Haigis, diopters(2_202)),
            },
            "Hoffer Q +21.01 D to Haigis +22.02 D",
        ),
        (
            Detail::NothingForSulcus,
            "nothing lies ready for the sulcus",
        ),
        (
            Detail::SuggestedLength {
                diameter: micrometers(11_499),
                suggested: micrometers(12_499),
            },
            "corneal diameter 11.499 mm suggests a length of 12.499 mm",
        ),
        (
            Detail::ExpectedToLeave {
                cylinder: Some(diopters(150)),
                axis: Some(meridian(90)),
                left: diopters(13),
                without: Some(diopters(88)),
            },
            "+1.50 D at 90° is expected to leave a cylinder of 0.13 D, instead of 0.88 D",
        ),
        (
            Detail::SteepIncision {
                eye: Side::Right,
                at: Direction::new(90).unwrap(),
            },
            "an incision on the steep meridian would lie at 90°, superior",
        ),
    ] {
        assert_eq!(one(&it), text);
    }
}
