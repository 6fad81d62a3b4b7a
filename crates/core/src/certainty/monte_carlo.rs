//! The thorough way: eyes drawn with all their errors, each through the whole formula.
//!
//! The same seed gives the same bits on every platform, with any number of threads and with vectors of
//! any width: every block of draws has its own place in one sequence of random words, and blocks are
//! added up in their order. More draws begin with the same eyes as fewer.

use rayon::iter::{IntoParallelIterator as _, ParallelIterator as _};

use super::batch::{BATCH, Block};
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
// Blocks of whole batches follow each other in the sequence without a gap and without overlap.
const _: () = assert!((BLOCK as usize).is_multiple_of(BATCH));
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

impl Drawn {
    /// Bits of a source's standard deviation.
    pub(super) fn deviation_bits(&self, source: ErrorSource) -> Option<u64> {
        let deviation = self.deviations.get(source as usize);
        deviation.map(|deviation| deviation.to_bits())
    }
}

/// Draws eyes and tallies the refraction of each, per formula, in the order of the question.
///
/// All formulas see the same errors of measurement, label and refraction, and the same error of the
/// lens position in units of their own spread.
#[must_use]
pub fn draw(question: Question<'_>, draws: Draws) -> Vec<Tally> {
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

    let sequence = Sequence::of(draws.seed);
    let pairs = u64::from(BLOCK) * used.len().div_ceil(2) as u64;
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
                    random: sequence.after(u64::from(block) * pairs),
                    tallies: empty.clone(),
                };
                pulp::Arch::new().dispatch(block)
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
