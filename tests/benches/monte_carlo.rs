//! Draws per second of the Monte Carlo, with everything that `tests/oracle/monte_carlo_numpy.py`
//! computes, for the same eye and lens: `tests/oracle/time_monte_carlo.py` runs both and compares.
//!
//! Usage: `monte_carlo [--draws N] [--seed S] [--runs R]`; prints JSON. The number of threads is
//! rayon's (`RAYON_NUM_THREADS`).

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a bench: it fails loudly, prints its result and reads a clock"
)]

use std::hint::black_box;
use std::time::Instant;

use millrace_core::certainty::monte_carlo::{Draws, Question, draw};
use millrace_core::certainty::{Basis, Prediction, Spreads, Tally};
use millrace_core::iol_power::{
    AConstant, CornealHistory, CornealRadii, Formula, FormulaConstants, FormulaInputs,
    HaigisConstants, PersonalizedAcd, SurgeonFactor,
};
use millrace_core::limits::Limits;
use millrace_core::quantity::{Diopters, HundredthDiopters, Millimeters};

// The invented eye and lens of the numpy script.
const POWER: HundredthDiopters = HundredthDiopters::new(2_100);
const TARGET_D: f64 = -0.5;
const BANDS: [f64; 3] = [0.25, 0.5, 1.0];
const SHARES: [f64; 7] = [0.025, 0.1, 0.25, 0.5, 0.75, 0.9, 0.975];

fn inputs() -> FormulaInputs {
    FormulaInputs {
        cornea: Some(CornealRadii(Millimeters::new(7.75), Millimeters::new(7.63))),
        acd: Some(Millimeters::new(3.2)),
        history: CornealHistory::Untouched,
        constants: FormulaConstants {
            a_constant: AConstant::new(118.7).ok(),
            personalized_acd: PersonalizedAcd::new(5.37).ok(),
            surgeon_factor: SurgeonFactor::new(1.62).ok(),
            haigis: HaigisConstants::new(1.3, 0.4, 0.1).ok(),
        },
        ..FormulaInputs::absent()
    }
    .with_length(Millimeters::new(23.5))
}

fn predictions(inputs: &FormulaInputs) -> Vec<(Formula, Prediction)> {
    let limits = Limits::shipped();
    let spreads = Spreads::usual(limits);
    let predicted = Formula::THIN_LENS.map(|formula| {
        let basis = Basis::of(formula, inputs, &spreads, None, limits).expect("a basis");
        (formula, basis.predict(POWER, limits).expect("a prediction"))
    });
    predicted.to_vec()
}

/// What is reported of one formula, or of all in equal parts.
#[derive(Debug)]
struct Summary {
    mean_d: f64,
    deviation_d: f64,
    quantiles_d: [Option<f64>; 7],
    /// Within each band of the target, and more than half a diopter beyond plano.
    chances: [f64; 4],
}

fn chances(share_up_to: impl Fn(f64) -> f64) -> [f64; 4] {
    let [narrow, half, wide] =
        BANDS.map(|band| share_up_to(TARGET_D + band) - share_up_to(TARGET_D - band));
    [narrow, half, wide, 1.0 - share_up_to(0.5)]
}

fn summary(tally: &Tally) -> Summary {
    Summary {
        mean_d: tally.mean().expect("draws").d(),
        deviation_d: tally.deviation().expect("draws").d(),
        quantiles_d: SHARES.map(|share| tally.quantile(share).map(Diopters::d)),
        chances: chances(|limit_d| share_up_to(tally, limit_d)),
    }
}

fn share_up_to(tally: &Tally, limit_d: f64) -> f64 {
    tally
        .share_up_to(Diopters::new(limit_d))
        .expect("within the bins")
}

fn pooled(tallies: &[Tally], each: &[Summary]) -> Summary {
    let count = f64::from(u32::try_from(tallies.len()).expect("few formulas"));
    let average = |value: &dyn Fn(&Summary) -> f64| each.iter().map(value).sum::<f64>() / count;
    let mean_d = average(&|one| one.mean_d);
    let square = |one: &Summary| {
        let apart = one.mean_d - mean_d;
        one.deviation_d * one.deviation_d + apart * apart
    };
    let all_up_to = |limit_d: f64| {
        let shares = tallies.iter().map(|tally| share_up_to(tally, limit_d));
        shares.sum::<f64>() / count
    };
    Summary {
        mean_d,
        deviation_d: average(&square).sqrt(),
        quantiles_d: SHARES.map(|share| Some(pooled_quantile(share, mean_d, &all_up_to))),
        chances: chances(all_up_to),
    }
}

/// To the bin, 0.005 D: the first edge up to which at least `share` lie.
fn pooled_quantile(share: f64, middle_d: f64, all_up_to: &dyn Fn(f64) -> f64) -> f64 {
    let edge_d = |edge: i32| (middle_d * 200.0).round() / 200.0 + f64::from(edge) / 200.0;
    let [mut low, mut high] = [-800, 800];
    while 1 < high - low {
        let half = i32::midpoint(low, high);
        if all_up_to(edge_d(half)) < share {
            low = half;
        } else {
            high = half;
        }
    }
    edge_d(high)
}

fn everything(question: Question<'_>, draws: Draws) -> (Vec<Tally>, Vec<Summary>) {
    let tallies = draw(question, draws);
    let mut all: Vec<Summary> = tallies.iter().map(summary).collect();
    let pool = pooled(&tallies, &all);
    all.push(pool);
    (tallies, all)
}

fn argument(name: &str, usual: u32) -> u32 {
    let mut arguments = std::env::args().skip_while(|argument| argument != name);
    arguments
        .nth(1)
        .map_or(usual, |value| value.parse().expect("a whole number"))
}

fn main() {
    let count = argument("--draws", 10_000_000);
    let seed = u64::from(argument("--seed", 1));
    let inputs = inputs();
    let predictions = predictions(&inputs);
    let question = Question {
        inputs: &inputs,
        power: POWER,
        predictions: &predictions,
    };
    let draws = Draws { count, seed };
    let (tallies, summaries) = everything(question, draws);
    let mut best = f64::INFINITY;
    for _ in 0..argument("--runs", 5) {
        let start = Instant::now();
        black_box(everything(black_box(question), draws));
        best = best.min(start.elapsed().as_secs_f64());
    }
    let names = Formula::THIN_LENS
        .map(Formula::key)
        .into_iter()
        .chain(["pooled"]);
    let results: Vec<String> = names
        .zip(&summaries)
        .map(|(name, one)| {
            let quantiles = one.quantiles_d.map(|quantile| quantile.expect("within the bins"));
            format!(
                "\"{name}\": {{\"mean\": {}, \"sd\": {}, \"quantiles\": {quantiles:?}, \"chances\": {:?}}}",
                one.mean_d, one.deviation_d, one.chances
            )
        })
        .collect();
    let refused: u64 = tallies.iter().map(Tally::refused).sum();
    println!(
        "{{\"draws\": {count}, \"seed\": {seed}, \"seconds\": {best}, \"draws_per_second\": {}, \
         \"refused\": {refused}, \"results\": {{{}}}}}",
        f64::from(count) / best,
        results.join(", ")
    );
}
