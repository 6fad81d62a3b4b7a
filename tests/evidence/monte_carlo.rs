//! The two ways of following errors, beside each other: exact derivatives and drawn eyes.

use millrace_core::certainty::monte_carlo::{Draws, Question, draw};
use millrace_core::certainty::{
    Basis, ErrorSource, Level, Prediction, Spreads, Tally, average_eye,
};
use millrace_core::iol_power::{
    AConstant, CornealRadii, Formula, FormulaConstants, FormulaInputs, HaigisConstants,
    PersonalizedAcd, SurgeonFactor,
};
use millrace_core::limits::Limits;
use millrace_core::quantity::{Diopters, HundredthDiopters, Millimeters};

fn constants() -> FormulaConstants {
    FormulaConstants {
        a_constant: AConstant::new(118.7).ok(),
        personalized_acd: PersonalizedAcd::new(5.37).ok(),
        surgeon_factor: SurgeonFactor::new(1.62).ok(),
        haigis: HaigisConstants::new(1.3, 0.4, 0.1).ok(),
    }
}

/// The average eye with another length, and every formula's prediction for its emmetropic power by
/// SRK/T in half diopters.
fn planned(length_mm: f64) -> (FormulaInputs, HundredthDiopters, Vec<(Formula, Prediction)>) {
    let limits = Limits::shipped();
    let inputs = average_eye(constants(), limits).with_length(Millimeters::new(length_mm));
    let eye = Formula::SrkT.eye(&inputs).unwrap().value;
    let exact_d = eye.power_for(Diopters::new(0.0)).unwrap().d();
    let power = Diopters::new((exact_d * 2.0).round() / 2.0);
    let power = power.nearest_hundredth().unwrap();
    let predictions = Formula::THIN_LENS.map(|formula| {
        let basis = Basis::of(formula, &inputs, &Spreads::usual(limits), None, limits).unwrap();
        (formula, basis.predict(power, limits).unwrap())
    });
    (inputs, power, predictions.to_vec())
}

fn drawn(length_mm: f64, count: u32) -> Vec<(Formula, Prediction, Tally)> {
    let (inputs, power, predictions) = planned(length_mm);
    let question = Question {
        inputs: &inputs,
        power,
        predictions: &predictions,
    };
    let tallies = draw(
        question,
        Draws {
            count,
            seed: 20_261_125,
        },
    );
    let pairs = predictions.into_iter().zip(tallies);
    pairs
        .map(|((formula, prediction), tally)| (formula, prediction, tally))
        .collect()
}

/// Shift of the mean in SDs, excess of the SD as a share of it, and how far the ends of the 95 %
/// range lie above those of the quick way, in SDs.
fn difference(prediction: &Prediction, tally: &Tally) -> [f64; 4] {
    let normal = prediction.normal();
    let deviation_d = normal.deviation.d();
    let [low, high] = prediction.distribution().interval(Level::NinetyFive);
    let quantile = |share| tally.quantile(share).unwrap();
    [
        (tally.mean().unwrap() - normal.mean).d() / deviation_d,
        tally.deviation().unwrap().d() / deviation_d - 1.0,
        (quantile(0.025) - low).d() / deviation_d,
        (quantile(0.975) - high).d() / deviation_d,
    ]
}

/// Draws per comparison: one standard error is 0.001 SD of the mean, 0.0007 of the SD and 0.003 of the
/// ends of the 95 % range.
const MANY: u32 = 1_000_000;

/// From 22 mm on the two ways agree to a hundredth of an SD in mean and SD and to three hundredths
/// at the ends: no decimal that is shown.
#[test]
fn ordinary_and_long_eyes_agree() {
    for length_mm in [22.0, 23.5, 24.0, 26.0, 30.0] {
        for (formula, prediction, tally) in drawn(length_mm, MANY) {
            let [mean, deviation, low, high] = difference(&prediction, &tally);
            let text = format!("{formula:?} {length_mm}: {mean} {deviation} {low} {high}");
            assert_eq!((tally.counted(), tally.refused()), (u64::from(MANY), 0));
            assert!(mean.abs() < 0.015 && deviation.abs() < 0.01, "{text}");
            assert!(low.abs() < 0.04 && high.abs() < 0.04, "{text}");
        }
    }
}

/// In short eyes the power of the lens makes refraction a curved function of its position: the mean
/// is more myopic than the quick way says, and both ends of the 95 % range lie lower.
#[test]
fn short_eyes_are_skewed_to_the_myopic_side() {
    for (formula, prediction, tally) in drawn(19.0, MANY) {
        let [mean, deviation, low, high] = difference(&prediction, &tally);
        let text = format!("{formula:?}: {mean} {deviation} {low} {high}");
        assert!(-0.05 < mean && mean < -0.005, "{text}");
        assert!(deviation.abs() < 0.01, "{text}");
        assert!(
            -0.12 < low && low < 0.0 && -0.12 < high && high < 0.0,
            "{text}"
        );
    }
}

/// Which number of the sequence moves what in which eye, over the end of a block and of a batch.
///
/// Mean and SD from `tests/oracle/drawn_eyes.py`, which draws the same words and computes with numpy;
/// its spread of the lens position is another computation, the same to 1e-9.
#[test]
fn the_first_eyes_of_a_seed() {
    let expected_d = [
        (-0.3338191751722, 0.4984757713861),
        (-0.3497768161204, 0.4982271204306),
        (-0.3644008986370, 0.4879463525806),
        (-0.4319317702772, 0.5134022711610),
        (-0.2225212516453, 0.4634795241914),
    ];
    let limits = Limits::shipped();
    // The invented eye and lens of the script.
    let inputs = FormulaInputs {
        cornea: Some(CornealRadii(Millimeters::new(7.75), Millimeters::new(7.63))),
        acd: Some(Millimeters::new(3.2)),
        constants: constants(),
        ..FormulaInputs::absent()
    }
    .with_length(Millimeters::new(23.5));
    let power = HundredthDiopters::new(2_100);
    let predictions = Formula::THIN_LENS.map(|formula| {
        let basis = Basis::of(formula, &inputs, &Spreads::usual(limits), None, limits).unwrap();
        (formula, basis.predict(power, limits).unwrap())
    });
    let question = Question {
        inputs: &inputs,
        power,
        predictions: &predictions,
    };
    let count = 16_384 + 128 + 5;
    let seed = 20_261_125;
    let tallies = draw(question, Draws { count, seed });
    for ((formula, _), (tally, (mean_d, deviation_d))) in
        predictions.iter().zip(tallies.iter().zip(expected_d))
    {
        let off_d = [
            tally.mean().unwrap().d() - mean_d,
            tally.deviation().unwrap().d() - deviation_d,
        ];
        let text = format!("{formula:?}: {off_d:?}");
        assert_eq!((tally.counted(), tally.refused()), (u64::from(count), 0));
        assert!(off_d.iter().all(|off_d| off_d.abs() < 1e-9), "{text}");
    }
}

/// Whatever the threads, and whatever block a draw falls into.
#[test]
fn the_same_seed_draws_the_same_bits() {
    let bits = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads);
        pool.build().unwrap().install(|| {
            let tallies = drawn(23.5, 100_003);
            tallies
                .iter()
                .map(|(_, _, tally)| {
                    let moments = [tally.mean(), tally.deviation()];
                    (moments.map(|d| d.unwrap().d().to_bits()), tally.clone())
                })
                .collect::<Vec<_>>()
        })
    };
    let alone = bits(1);
    assert_eq!(alone, bits(1));
    assert_eq!(alone, bits(2));
    assert_eq!(alone, bits(5));
}

/// Errors of length and depth from one scan are taken as independent. Were they wholly correlated,
/// in either sense, the SD of Haigis would change by less than 0.004 D (`docs/uncertainty.md`).
#[test]
fn correlated_errors_of_one_scan_would_hardly_matter() {
    let (_, _, predictions) = planned(23.87);
    let (formula, haigis) = predictions.last().unwrap();
    assert_eq!(*formula, Formula::Haigis);
    let part_d = |source: ErrorSource| {
        let spread = haigis.spreads.get(source).unwrap().deviation;
        haigis.linear.slope(source) * spread
    };
    let [length_d, depth_d] = [ErrorSource::AxialLength, ErrorSource::ChamberDepth].map(part_d);
    assert!(length_d != 0.0 && depth_d != 0.0);
    let deviation_d = haigis.deviation().d();
    for correlation in [-1.0, 1.0] {
        let variance = deviation_d * deviation_d + 2.0 * correlation * length_d * depth_d;
        let change_d = (variance.sqrt() - deviation_d).abs();
        assert!(change_d < 0.004, "{change_d}");
    }
}
