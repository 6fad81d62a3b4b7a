//! The thorough way: eyes drawn with all their errors, each through the whole formula.
//!
//! The same seed gives the same bits on every platform and with any number of threads: every block
//! of draws has its own generator, seeded from the seed and the number of the block, and blocks are
//! added up in their order.

use rand_distr::{Distribution as _, StandardNormal};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;
use rayon::iter::{IntoParallelIterator as _, ParallelIterator as _};

use super::tally::Tally;
use super::{ErrorSource, Errors, Lanes, Prediction, SOURCES, WIDTH};
use crate::iol_power::{Formula, FormulaInputs, Refusal};
use crate::quantity::{Diopters, HundredthDiopters, Number};

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Draws {
    /// How many eyes; rounded up to whole groups of [`WIDTH`].
    pub count: u32,
    /// What the draws follow from.
    pub seed: u64,
}

/// Draws of one block.
const BLOCK: u32 = 8_192;
/// Blocks that are computed before they are added up, so that memory does not grow with the draws.
const BLOCKS_AT_ONCE: u32 = 64;

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
struct Drawn {
    formula: Formula,
    deviations: [f64; SOURCES],
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
    let used = core::array::from_fn(|index| {
        question
            .predictions
            .iter()
            .any(|(_, prediction)| prediction.variances.get(index).is_some_and(|v| 0.0 < *v))
    });
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
                let count = BLOCK.min(draws.count - block * BLOCK);
                let groups = Groups {
                    question: &question,
                    formulas: &formulas,
                    used: &used,
                    count: count.div_ceil(width()),
                    random: generator(draws.seed, block),
                    tallies: empty.clone(),
                };
                pulp::Arch::new().dispatch(groups)
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

/// The work of one block, compiled for the widest vectors of the machine it runs on; without fused
/// operations these give the bits of any other machine.
struct Groups<'a> {
    question: &'a Question<'a>,
    formulas: &'a [Drawn],
    used: &'a [bool; SOURCES],
    count: u32,
    random: Xoshiro256PlusPlus,
    tallies: Vec<Tally>,
}

impl pulp::NullaryFnOnce for Groups<'_> {
    type Output = Vec<Tally>;

    #[inline(always)]
    fn call(mut self) -> Vec<Tally> {
        for _ in 0..self.count {
            let standard = standard_errors(&mut self.random, self.used);
            tally(self.question, self.formulas, &standard, &mut self.tallies);
        }
        self.tallies
    }
}

fn width() -> u32 {
    u32::try_from(WIDTH).unwrap_or(1)
}

/// The generator of one block: seed and block mixed by the constants of `SplitMix64`.
pub(crate) fn generator(seed: u64, block: u32) -> Xoshiro256PlusPlus {
    let mixed = u64::from(block)
        .wrapping_add(1)
        .wrapping_mul(0x9e37_79b9_7f4a_7c15);
    Xoshiro256PlusPlus::seed_from_u64(seed ^ mixed)
}

/// Standard normal errors of every source in use, for a group of eyes.
#[inline(always)]
fn standard_errors(random: &mut Xoshiro256PlusPlus, used: &[bool; SOURCES]) -> Errors<Lanes> {
    let mut errors = Errors::<Lanes>::none();
    for (error, used) in errors.0.iter_mut().zip(used) {
        if *used {
            for lane in &mut error.0 {
                *lane = StandardNormal.sample(random);
            }
        }
    }
    errors
}

#[inline(always)]
fn tally(
    question: &Question<'_>,
    formulas: &[Drawn],
    standard: &Errors<Lanes>,
    tallies: &mut [Tally],
) {
    // Measurements are off by the same amount for every formula.
    let Some(first) = formulas.first() else {
        return;
    };
    let measured = scaled(standard, &first.deviations).inputs(question.inputs);
    for (drawn, tally) in formulas.iter().zip(tallies) {
        let errors = scaled(standard, &drawn.deviations);
        match refraction(&errors, drawn.formula, &measured, question.power.diopters()) {
            Ok(refraction) => tally.count_all(refraction),
            // One of the group has no image, so each is looked at alone.
            Err(_) => one_by_one(question, drawn, &errors, tally),
        }
    }
}

#[inline(always)]
fn refraction<N: Number>(
    errors: &Errors<N>,
    formula: Formula,
    measured: &FormulaInputs<N>,
    power: Diopters,
) -> Result<N, Refusal> {
    let eye = errors.eye(formula, measured)?;
    Ok(errors.refraction(&eye, power)?.d())
}

#[inline(always)]
fn scaled(standard: &Errors<Lanes>, deviations: &[f64; SOURCES]) -> Errors<Lanes> {
    let mut errors = standard.0;
    for (error, deviation) in errors.iter_mut().zip(deviations) {
        *error = *error * *deviation;
    }
    Errors(errors)
}

fn one_by_one(question: &Question<'_>, drawn: &Drawn, errors: &Errors<Lanes>, tally: &mut Tally) {
    for lane in 0..WIDTH {
        let alone = Errors(
            errors
                .0
                .map(|lanes| lanes.0.get(lane).copied().unwrap_or(f64::NAN)),
        );
        let measured = alone.inputs(question.inputs);
        match refraction(&alone, drawn.formula, &measured, question.power.diopters()) {
            Ok(refraction_d) => tally.count(refraction_d),
            Err(_) => tally.count_refused(),
        }
    }
}
