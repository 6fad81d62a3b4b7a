//! The thorough way: eyes drawn with all their errors, each through the whole formula.
//!
//! The same seed gives the same bits on every platform and with any number of threads: every block
//! of draws has its own generator, seeded from the seed and the number of the block, and blocks are
//! added up in their order.

use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::{Rng as _, SeedableRng as _};
use rayon::iter::{IntoParallelIterator as _, ParallelIterator as _};

use super::batch::Block;
use super::standard_normal::Sequence;
use super::tally::Tally;
use super::{ErrorSource, Prediction, SOURCES};
use crate::iol_power::{Formula, FormulaInputs};
use crate::quantity::HundredthDiopters;

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Draws {
    /// How many eyes.
    pub count: u32,
    /// What the draws follow from.
    pub seed: u64,
}

/// Draws of one block.
const BLOCK: u32 = 16_384;
/// Blocks that are computed before they are added up, so that memory does not grow with the draws.
const BLOCKS_AT_ONCE: u32 = 32;

/// The lens, and the formulas that speak of it.
#[derive(Clone, Copy, Debug)]
pub struct Question<'a> {
    /// What the formulas are given.
    pub inputs: &'a FormulaInputs,
    /// Labeled power of the lens.
    pub power: HundredthDiopters,
    /// Every formula, with the spreads its prediction was made with.
    pub predictions: &'a [(Formula, Prediction)],
}

/// One formula, with the standard deviation of every source.
pub(super) struct Drawn {
    pub(super) formula: Formula,
    pub(super) deviations: [f64; SOURCES],
}

/// Draws eyes and tallies the refraction of each, per formula, in the order of the question.
///
/// All formulas see the same errors of measurement, label and refraction, and the same error of the
/// lens position in units of their own spread.
#[must_use]
pub fn draw(question: Question<'_>, draws: Draws) -> Vec<Tally> {
    draw_on(question, draws, pulp::Arch::new())
}

/// Draws with the vectors of `arch`: its bits are those of any other.
fn draw_on(question: Question<'_>, draws: Draws, arch: pulp::Arch) -> Vec<Tally> {
    let formulas: Vec<Drawn> = question
        .predictions
        .iter()
        .map(|(formula, prediction)| Drawn {
            formula: *formula,
            deviations: ErrorSource::ALL
                .map(|source| prediction.spreads.get(source).map_or(0.0, |s| s.deviation)),
        })
        .collect();
    // A source that moves no prediction needs no random numbers.
    let used: Vec<usize> = (0..SOURCES)
        .filter(|source| {
            question.predictions.iter().any(|(_, prediction)| {
                let variance = prediction.variances.get(*source);
                variance.is_some_and(|variance| 0.0 < *variance)
            })
        })
        .collect();
    let empty: Vec<Tally> = question
        .predictions
        .iter()
        .map(|(_, prediction)| Tally::around(prediction.linear.refraction))
        .collect();

    let blocks = draws.count.div_ceil(BLOCK);
    let mut total = empty.clone();
    let mut first = 0;
    while first < blocks {
        let last = blocks.min(first + BLOCKS_AT_ONCE);
        let tallied: Vec<Vec<Tally>> = (first..last)
            .into_par_iter()
            .map(|block| {
                let block = Block {
                    question: &question,
                    formulas: &formulas,
                    used: &used,
                    count: BLOCK.min(draws.count - block * BLOCK) as usize,
                    random: Sequence::from(generator(draws.seed, block).next_u64()),
                    tallies: empty.clone(),
                };
                arch.dispatch(block)
            })
            .collect();
        for block in tallied {
            for (total, tally) in total.iter_mut().zip(block) {
                total.add(&tally);
            }
        }
        first = last;
    }
    total
}

/// The generator of one block: seed and block mixed by the constants of `SplitMix64`.
pub(crate) fn generator(seed: u64, block: u32) -> Xoshiro256PlusPlus {
    let mixed = u64::from(block)
        .wrapping_add(1)
        .wrapping_mul(0x9e37_79b9_7f4a_7c15);
    Xoshiro256PlusPlus::seed_from_u64(seed ^ mixed)
}
