//! How many eyes the intervals held, and how far they were stated and found to spread.

use millrace_core::certainty::{Distribution, Level};
use millrace_core::iol_power::{Formula, FormulaInputs};
use millrace_core::quantity::Diopters;

/// Axial lengths at which one band ends and the next begins, mm.
pub const BAND_EDGES: [f64; 5] = [14.0, 22.0, 24.5, 26.0, 40.0];

const BANDS: usize = BAND_EDGES.len() - 1;
/// Units of a summed square in 1 D².
const UNITS: f64 = 1e9;

/// Eyes, and how many of them the intervals held.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    pub eyes: u64,
    /// Of these inside the interval, in the order of [`Level::ALL`].
    pub inside: [u64; 3],
    /// Sums of the variance stated and of the squared error of the mean, in 1e-9 D², whole numbers
    /// so that their order does not matter.
    variance: u128,
    squared_error: u128,
}

/// One formula in the simulation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FormulaReport {
    /// The formula taken for the truth.
    pub formula: Formula,
    pub own: Counts,
    /// The same by measured axial length, between [`BAND_EDGES`].
    pub bands: [Counts; BANDS],
    /// The pooled intervals, in the same eyes.
    pub pooled: Counts,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Report {
    /// Pooled intervals over all eyes.
    pub overall: Counts,
    /// Pooled intervals by measured axial length, between [`BAND_EDGES`].
    pub bands: [Counts; BANDS],
    /// By the formula taken for the truth.
    pub formulas: Vec<FormulaReport>,
    /// Eyes drawn again since no instrument could report them.
    pub drawn_again: u64,
    /// Eyes for which no formula had an answer or the truth had no image: in no count.
    pub without_answer: u64,
}

impl Counts {
    /// Share of the eyes inside; nothing without an eye.
    pub fn coverage(&self, level: Level) -> Option<f64> {
        let inside = self.inside.get(level as usize)?;
        #[expect(clippy::cast_precision_loss, reason = "fewer than 2^52 eyes")]
        let share = *inside as f64 / self.eyes as f64;
        (0 < self.eyes).then_some(share)
    }

    /// Standard error of that share if the interval holds exactly what it promises.
    pub fn standard_error(&self, level: Level) -> Option<f64> {
        let nominal = f64::from(level.percent()) / 100.0;
        #[expect(clippy::cast_precision_loss, reason = "fewer than 2^52 eyes")]
        let eyes = self.eyes as f64;
        (0 < self.eyes).then(|| (nominal * (1.0 - nominal) / eyes).sqrt())
    }

    /// Root of the mean variance that was stated; nothing without an eye.
    pub fn stated_deviation(&self) -> Option<f64> {
        self.root_of_mean(self.variance)
    }

    /// Root of the mean squared distance of the truth from the mean that was stated.
    pub fn drawn_deviation(&self) -> Option<f64> {
        self.root_of_mean(self.squared_error)
    }

    fn root_of_mean(&self, sum: u128) -> Option<f64> {
        #[expect(clippy::cast_precision_loss, reason = "shown to three decimals")]
        let mean = sum as f64 / self.eyes as f64 / UNITS;
        (0 < self.eyes).then(|| mean.sqrt())
    }

    fn count(&mut self, distribution: &Distribution, truth: Diopters) {
        self.eyes += 1;
        let stated_d = distribution.deviation().d();
        let error_d = (truth - distribution.mean()).d();
        self.variance += units(stated_d * stated_d);
        self.squared_error += units(error_d * error_d);
        for (inside, level) in self.inside.iter_mut().zip(Level::ALL) {
            let [low, high] = distribution.interval(level);
            *inside += u64::from(low <= truth && truth <= high);
        }
    }

    fn add(&mut self, other: &Self) {
        self.eyes += other.eyes;
        self.variance += other.variance;
        self.squared_error += other.squared_error;
        for (inside, others) in self.inside.iter_mut().zip(other.inside) {
            *inside += others;
        }
    }
}

impl Report {
    pub(crate) fn empty() -> Self {
        Self {
            overall: Counts::default(),
            bands: [Counts::default(); BANDS],
            formulas: Formula::THIN_LENS
                .map(|formula| FormulaReport {
                    formula,
                    own: Counts::default(),
                    bands: [Counts::default(); BANDS],
                    pooled: Counts::default(),
                })
                .to_vec(),
            drawn_again: 0,
            without_answer: 0,
        }
    }

    /// Sums of whole numbers: in whatever order, the same.
    pub(crate) fn plus(mut self, other: &Self) -> Self {
        self.overall.add(&other.overall);
        for (band, others) in self.bands.iter_mut().zip(&other.bands) {
            band.add(others);
        }
        for (formula, others) in self.formulas.iter_mut().zip(&other.formulas) {
            formula.own.add(&others.own);
            for (band, others) in formula.bands.iter_mut().zip(&others.bands) {
                band.add(others);
            }
            formula.pooled.add(&others.pooled);
        }
        self.drawn_again += other.drawn_again;
        self.without_answer += other.without_answer;
        self
    }

    /// An eye with the pooled range, in its band.
    pub(crate) fn count(&mut self, pooled: &Distribution, truth: Diopters, band: Option<usize>) {
        self.overall.count(pooled, truth);
        // Every formula needs the length, so an eye with an answer has its band.
        if let Some(band) = band.and_then(|band| self.bands.get_mut(band)) {
            band.count(pooled, truth);
        }
    }

    /// The same with the formula taken for the truth: its own range and the pooled one.
    pub(crate) fn count_formula(
        &mut self,
        formula: Formula,
        [own, pooled]: [&Distribution; 2],
        truth: Diopters,
        band: Option<usize>,
    ) {
        let Some(line) = self
            .formulas
            .iter_mut()
            .find(|line| line.formula == formula)
        else {
            return;
        };
        line.own.count(own, truth);
        line.pooled.count(pooled, truth);
        if let Some(band) = band.and_then(|band| line.bands.get_mut(band)) {
            band.count(own, truth);
        }
    }
}

fn units(square: f64) -> u128 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a square of diopters, rounded"
    )]
    let units = (square * UNITS).round() as u128;
    units
}

pub(crate) fn band_of(measured: &FormulaInputs) -> Option<usize> {
    let length_mm = measured.axial_length.ok()?.value.mm();
    let [_, inner @ .., _] = BAND_EDGES;
    Some(inner.iter().filter(|edge| **edge <= length_mm).count())
}
