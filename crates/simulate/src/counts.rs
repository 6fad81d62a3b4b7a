//! How many eyes the intervals held, and how far they were stated and found to spread.

use millrace_core::certainty::{Distribution, FLAT, Level, STEEP};
use millrace_core::iol_power::{CornealRadii, Formula, FormulaInputs};
use millrace_core::quantity::Diopters;

/// Axial lengths at which one band ends and the next begins, mm.
pub const BAND_EDGES: [f64; 5] = [14.0, 22.0, 24.5, 26.0, 40.0];

const BANDS: usize = BAND_EDGES.len() - 1;
/// Flat corneas, those between, steep ones: where a bias was published, and where none was.
const CORNEAS: usize = 3;
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
    /// The same in corneas under [`FLAT`], between, and over [`STEEP`].
    pub corneas: [Counts; CORNEAS],
    /// The pooled intervals, in the same eyes.
    pub pooled: Counts,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Report {
    /// Pooled intervals over all eyes.
    pub overall: Counts,
    /// Pooled intervals by measured axial length, between [`BAND_EDGES`].
    pub bands: [Counts; BANDS],
    /// Pooled intervals in corneas under [`FLAT`], between, and over [`STEEP`].
    pub corneas: [Counts; CORNEAS],
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

    /// One eye with what was stated of it.
    pub(crate) fn of_one(stated: &Distribution, truth: Diopters) -> Self {
        let stated_d = stated.deviation().d();
        let error_d = (truth - stated.mean()).d();
        Self {
            eyes: 1,
            inside: Level::ALL.map(|level| {
                let [low, high] = stated.interval(level);
                u64::from(low <= truth && truth <= high)
            }),
            variance: units(stated_d * stated_d),
            squared_error: units(error_d * error_d),
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
            corneas: [Counts::default(); CORNEAS],
            formulas: Formula::THIN_LENS
                .map(|formula| FormulaReport {
                    formula,
                    own: Counts::default(),
                    bands: [Counts::default(); BANDS],
                    corneas: [Counts::default(); CORNEAS],
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
        add_each(&mut self.bands, &other.bands);
        add_each(&mut self.corneas, &other.corneas);
        for (formula, others) in self.formulas.iter_mut().zip(&other.formulas) {
            formula.own.add(&others.own);
            add_each(&mut formula.bands, &others.bands);
            add_each(&mut formula.corneas, &others.corneas);
            formula.pooled.add(&others.pooled);
        }
        self.drawn_again += other.drawn_again;
        self.without_answer += other.without_answer;
        self
    }

    /// An eye where it belongs: the pooled range, and that of the formula taken for the truth.
    pub(crate) fn count(&mut self, formula: Formula, eye: &CountedEye) {
        let place = eye.place;
        self.overall.add(&eye.pooled);
        add_at(&mut self.bands, place.band, &eye.pooled);
        add_at(&mut self.corneas, place.cornea, &eye.pooled);
        let mut lines = self.formulas.iter_mut();
        if let Some(line) = lines.find(|line| line.formula == formula) {
            line.own.add(&eye.own);
            line.pooled.add(&eye.pooled);
            add_at(&mut line.bands, place.band, &eye.own);
            add_at(&mut line.corneas, place.cornea, &eye.own);
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

fn add_each(counts: &mut [Counts], others: &[Counts]) {
    for (one, other) in counts.iter_mut().zip(others) {
        one.add(other);
    }
}

/// Every formula needs length and cornea, so an eye with an answer has its place.
fn add_at(counts: &mut [Counts], at: Option<usize>, eye: &Counts) {
    if let Some(counts) = at.and_then(|at| counts.get_mut(at)) {
        counts.add(eye);
    }
}

/// One eye to be counted.
#[derive(Clone, Copy, Debug)]
pub(crate) struct CountedEye {
    pub(crate) place: Place,
    pub(crate) own: Counts,
    pub(crate) pooled: Counts,
}

/// Where in the report an eye belongs, by what was measured.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Place {
    band: Option<usize>,
    cornea: Option<usize>,
}

impl Place {
    pub(crate) fn of(measured: &FormulaInputs) -> Self {
        Self {
            band: band_of(measured),
            cornea: measured.cornea.map(CornealRadii::mean_power).map(cornea_of),
        }
    }
}

fn band_of(measured: &FormulaInputs) -> Option<usize> {
    let length_mm = measured.axial_length.ok()?.value.mm();
    let [_, inner @ .., _] = BAND_EDGES;
    Some(inner.iter().filter(|edge| **edge <= length_mm).count())
}

fn cornea_of(mean_k: Diopters) -> usize {
    if mean_k < FLAT.diopters() {
        0
    } else if STEEP.diopters() < mean_k {
        2
    } else {
        1
    }
}
