//! Exact derivatives against central differences of the whole formula with its errors, over the
//! whole physical range, away from the joins of the formulas.

use millrace_core::certainty::{ErrorSource, Errors, Linear, SOURCES};
use millrace_core::iol_power::{Formula, FormulaInputs, Refusal};
use millrace_core::quantity::{Diopters, HundredthDiopters};
use proptest::prelude::*;

use crate::properties::{any_eye, inputs};

/// Half width of the wider difference, mm or D. The narrower is a tenth of it.
const STEP: f64 = 1e-3;

/// The prediction with one error, and the lens position it was made with.
fn off(
    formula: Formula,
    inputs: &FormulaInputs,
    power: HundredthDiopters,
    (index, error): (usize, f64),
) -> Result<[f64; 2], Refusal> {
    let mut errors = Errors([0.0; SOURCES]);
    errors.0[index] = error;
    let eye = errors.eye(formula, &errors.inputs(inputs))?;
    let refraction = errors.refraction(&eye, power.diopters())?;
    Ok([refraction.d(), eye.lens_position().mm()])
}

/// Where a formula changes its branch or one of its limits acts, with room for the steps: axial
/// length and mean corneal power (formula sheet, sections 2, 4, 5).
fn at_a_join(formula: Formula, inputs: &FormulaInputs, positions: &[f64]) -> bool {
    let length_mm = inputs
        .axial_length
        .map_or(f64::NAN, |length| length.value.mm());
    let mean_k_d = inputs.cornea.map_or(f64::NAN, |cornea| {
        168.75 / cornea.0.mm() + 168.75 / cornea.1.mm()
    });
    let near = |value: f64, join: f64| (value - join).abs() <= 2.0 * STEP;
    match formula {
        Formula::SrkT | Formula::DoubleKNoHistory | Formula::DoubleKKnownCorrection => {
            near(length_mm, 24.2)
        }
        // Radius 7.0 mm, and the length at which 12.5·AL/23.45 is 13.5.
        Formula::Holladay1 => near(337.5 / mean_k_d, 7.0) || near(length_mm, 13.5 * 23.45 / 12.5),
        Formula::HofferQ => {
            let limited = |d: &&f64| (**d - 2.55).abs() < 1e-9 || (**d - 6.55).abs() < 1e-9;
            let acting = positions.iter().filter(limited).count();
            [18.5, 23.0, 31.0].iter().any(|join| near(length_mm, *join))
                || (0 < acting && acting < positions.len())
        }
        _ => false,
    }
}

/// What became of one derivative.
enum Outcome {
    Agrees,
    /// Refused, at a join, or so curved that no difference of this step tells the slope.
    Skipped,
    Differs(String),
}

fn compare(
    formula: Formula,
    inputs: &FormulaInputs,
    power: HundredthDiopters,
    source: ErrorSource,
) -> Outcome {
    let Ok(linear) = Linear::at(formula, inputs, power.diopters()) else {
        return Outcome::Skipped;
    };
    let index = ErrorSource::ALL.iter().position(|one| *one == source);
    let index = index.expect("listed");
    let steps = [STEP, -STEP, STEP / 10.0, -STEP / 10.0];
    let found: Result<Vec<_>, _> = steps
        .iter()
        .map(|step| off(formula, inputs, power, (index, *step)))
        .collect();
    let Ok(found) = found else {
        return Outcome::Skipped;
    };
    let mut positions: Vec<_> = found.iter().map(|[_, position]| *position).collect();
    // A moved lens is no longer at a limit that acts; the limit stays where it was.
    if source == ErrorSource::LensPosition {
        positions.clear();
    }
    if at_a_join(formula, inputs, &positions) {
        return Outcome::Skipped;
    }
    let wide = (found[0][0] - found[1][0]) / (2.0 * STEP);
    let narrow = (found[2][0] - found[3][0]) / (0.2 * STEP);
    // The error of a central difference goes with the square of the step: this takes away 99 % of it.
    let expected = narrow + (narrow - wide) / 99.0;
    let slope = linear.slope(source);
    let size = slope.abs().max(1.0);
    if 1e-3 * size < (narrow - wide).abs() {
        return Outcome::Skipped;
    }
    // Rounding: a few 1e-14 D over a step of 1e-4.
    let tolerance = 1e-7 * size + 0.05 * (narrow - wide).abs();
    if (slope - expected).abs() <= tolerance {
        return Outcome::Agrees;
    }
    Outcome::Differs(format!(
        "{formula:?} {source:?} {power}: exact {slope}, difference {expected}"
    ))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn exact_derivatives_agree_with_differences(
        inputs in any_eye(),
        halves in -40..=100,
    ) {
        let power = HundredthDiopters::new(50 * halves);
        for formula in Formula::ALL {
            for source in ErrorSource::ALL {
                if let Outcome::Differs(how) = compare(formula, &inputs, power, source) {
                    prop_assert!(false, "{how}");
                }
            }
        }
    }

    /// The prediction that the derivatives start from is the formula's own, to the bit.
    #[test]
    fn the_linear_prediction_is_the_formulas(
        inputs in any_eye(),
        halves in -40..=100,
    ) {
        let power: Diopters = HundredthDiopters::new(50 * halves).diopters();
        for formula in Formula::ALL {
            let plain = formula.eye(&inputs).and_then(|eye| eye.value.refraction_with(power));
            let linear = Linear::at(formula, &inputs, power);
            match (plain, linear) {
                (Ok(plain), Ok(linear)) => {
                    prop_assert_eq!(plain.d().to_bits(), linear.refraction.d().to_bits());
                }
                (plain, linear) => prop_assert_eq!(plain.is_err(), linear.is_err()),
            }
        }
    }
}

/// The comparison above skips what is refused, at a join or too curved; this one counts that over
/// ordinary eyes nothing is skipped but the joins.
#[test]
fn nothing_is_skipped_in_ordinary_eyes() {
    let [mut agreed, mut skipped] = [0, 0];
    let formulas = Formula::THIN_LENS.into_iter().chain([Formula::ThickLens]);
    for formula in formulas {
        // Beside the joins at 23.0, 24.2 and 25.326 mm.
        for length_um in (20_050..=28_050).step_by(500) {
            for k_d in 40..=44 {
                let k_d = f64::from(k_d);
                let eye = inputs(f64::from(length_um) / 1_000.0, [k_d, k_d + 1.0], 3.2);
                for source in ErrorSource::ALL {
                    match compare(formula, &eye, HundredthDiopters::new(2_050), source) {
                        Outcome::Agrees => agreed += 1,
                        Outcome::Skipped => skipped += 1,
                        Outcome::Differs(how) => panic!("{how}"),
                    }
                }
            }
        }
    }
    // 6 formulas, 17 lengths, 5 corneas, every source.
    assert_eq!([agreed, skipped], [6 * 17 * 5 * SOURCES, 0]);
}
