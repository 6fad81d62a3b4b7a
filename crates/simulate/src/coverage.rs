//! How often the stated intervals hold the simulated truth.
//!
//! Each eye is drawn from a [`Population`], measured with errors of the spreads of usual optical
//! biometry, and planned from those measurements by the same code as a case. Its true refraction is
//! then drawn: one of the formulas that answer, each as likely as another, is taken for the truth of
//! this eye, computed from the true eye, and off by errors of lens position, label and refraction.
//! So this is a check of propagation and pooling over the whole population, not of the formulas.

use millrace_core::certainty::{
    Basis, Distribution, ErrorSource, Errors, Level, NoDistribution, Prediction, SOURCES, Spreads,
    average_eye, pool,
};
use millrace_core::iol_power::{
    AConstant, ConstantError, CornealHistory, Formula, FormulaConstants, FormulaInputs,
    HaigisConstants, PersonalizedAcd, SurgeonFactor,
};
use millrace_core::limits::Limits;
use millrace_core::quantity::{Diopters, HundredthDiopters};
use rand_distr::{Distribution as _, StandardNormal, StandardUniform};
use rand_xoshiro::Xoshiro256PlusPlus;
use rayon::iter::{IntoParallelIterator as _, ParallelIterator as _};

use crate::population::{Population, PopulationError, TrueEye};

/// Constants of the lens that every simulated eye gets, in powers of 0.5 D from −10 to +40 D: A,
/// pACD, surgeon factor, a0, a1, a2. Invented.
pub const SIMULATED_LENS: [f64; 6] = [118.7, 5.37, 1.62, 1.3, 0.4, 0.1];

/// Axial lengths at which one band ends and the next begins, mm.
pub const BAND_EDGES: [f64; 5] = [14.0, 22.0, 24.5, 26.0, 40.0];

/// Most eyes simulated at once.
pub const MOST_EYES: u32 = 100_000_000;

const BANDS: usize = BAND_EDGES.len() - 1;
/// Eyes per block.
const BLOCK: u32 = 1_024;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Simulation {
    pub eyes: u32,
    /// What the draws follow from.
    pub seed: u64,
}

/// Why nothing can be simulated.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SimulationError {
    /// No eyes, or more than a machine does in a day.
    #[error("{eyes} eyes are outside 1 to {MOST_EYES}")]
    Eyes { eyes: u32 },
    #[error(transparent)]
    Population(#[from] PopulationError),
    /// The simulated lens has a constant that is none.
    #[error(transparent)]
    Lens(#[from] ConstantError),
    /// The table has a spread of zero or a scatter that leaves nothing for the lens position.
    #[error("{formula:?}: {reason}")]
    Certainty {
        formula: Formula,
        reason: NoDistribution,
    },
}

/// Eyes, and how many of them the intervals held.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    pub eyes: u64,
    /// Of these inside the interval, in the order of [`Level::ALL`].
    pub inside: [u64; 3],
}

/// One formula in the simulation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FormulaReport {
    /// The formula taken for the truth.
    pub formula: Formula,
    pub own: Counts,
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

    fn count(&mut self, distribution: &Distribution, truth: Diopters) {
        self.eyes += 1;
        for (inside, level) in self.inside.iter_mut().zip(Level::ALL) {
            let [low, high] = distribution.interval(level);
            *inside += u64::from(low <= truth && truth <= high);
        }
    }

    fn add(&mut self, other: &Self) {
        self.eyes += other.eyes;
        for (inside, others) in self.inside.iter_mut().zip(other.inside) {
            *inside += others;
        }
    }
}

impl Report {
    fn empty() -> Self {
        Self {
            overall: Counts::default(),
            bands: [Counts::default(); BANDS],
            formulas: Formula::THIN_LENS
                .map(|formula| FormulaReport {
                    formula,
                    own: Counts::default(),
                    pooled: Counts::default(),
                })
                .to_vec(),
            drawn_again: 0,
            without_answer: 0,
        }
    }

    /// Sums of whole numbers: in whatever order, the same.
    fn plus(mut self, other: &Self) -> Self {
        self.overall.add(&other.overall);
        for (band, others) in self.bands.iter_mut().zip(&other.bands) {
            band.add(others);
        }
        for (formula, others) in self.formulas.iter_mut().zip(&other.formulas) {
            formula.own.add(&others.own);
            formula.pooled.add(&others.pooled);
        }
        self.drawn_again += other.drawn_again;
        self.without_answer += other.without_answer;
        self
    }
}

/// Everything that is the same for all eyes.
struct Setting<'a> {
    population: Population,
    constants: FormulaConstants,
    spreads: Spreads,
    limits: &'a Limits,
}

/// Simulates. The same seed gives the same counts on every machine and with any number of threads.
///
/// # Errors
///
/// [`SimulationError`] if there is nothing to simulate or the table of spreads allows none.
pub fn simulate(simulation: Simulation, limits: &Limits) -> Result<Report, SimulationError> {
    let Simulation { eyes, seed } = simulation;
    if !(1..=MOST_EYES).contains(&eyes) {
        return Err(SimulationError::Eyes { eyes });
    }
    let setting = Setting {
        population: Population::printed()?,
        constants: constants()?,
        spreads: Spreads::usual(limits),
        limits,
    };
    setting.check()?;
    let report = (0..eyes.div_ceil(BLOCK))
        .into_par_iter()
        .map(|block| {
            let mut random = crate::generator(seed, block);
            let mut report = Report::empty();
            for _ in 0..BLOCK.min(eyes - block * BLOCK) {
                setting.one_eye(&mut random, &mut report);
            }
            report
        })
        .reduce(Report::empty, |one, other| one.plus(&other));
    Ok(report)
}

/// The simulated lens's constants.
pub fn constants() -> Result<FormulaConstants, ConstantError> {
    let [a, depth, factor, a0, a1, a2] = SIMULATED_LENS;
    Ok(FormulaConstants {
        a_constant: Some(AConstant::new(a)?),
        personalized_acd: Some(PersonalizedAcd::new(depth)?),
        surgeon_factor: Some(SurgeonFactor::new(factor)?),
        haigis: Some(HaigisConstants::new(a0, a1, a2)?),
    })
}

impl Setting<'_> {
    /// Whether every formula has a distribution in an ordinary eye.
    fn check(&self) -> Result<(), SimulationError> {
        let inputs = average_eye(self.constants, self.limits);
        for formula in Formula::THIN_LENS {
            self.basis(formula, &inputs)
                .and_then(|basis| basis.predict(HundredthDiopters::new(2_000), self.limits))
                .map_err(|reason| SimulationError::Certainty { formula, reason })?;
        }
        Ok(())
    }

    fn basis(&self, formula: Formula, inputs: &FormulaInputs) -> Result<Basis, NoDistribution> {
        Basis::of(formula, inputs, &self.spreads, None, self.limits)
    }

    fn one_eye(&self, random: &mut Xoshiro256PlusPlus, report: &mut Report) {
        let eye = loop {
            match self.population.draw(random) {
                Some(eye) => break eye,
                None => report.drawn_again += 1,
            }
        };
        let truth = self.inputs(&eye);
        let measured = self.measured(&truth, random);
        // Every eye takes as many random numbers as any other, so that one without an answer does not
        // shift those after it.
        let drawn = DrawnTruth::draw(random);
        let Some(plan) = self.plan(&measured) else {
            report.without_answer += 1;
            return;
        };
        let Some((index, refraction)) = plan.truth(&truth, &drawn) else {
            report.without_answer += 1;
            return;
        };
        let Some(pooled) = pool(plan.predictions.iter().map(|(_, prediction)| prediction)) else {
            report.without_answer += 1;
            return;
        };
        report.overall.count(&pooled, refraction);
        // Every formula needs the length, so an eye with an answer has its band.
        if let Some(band) = band_of(&measured).and_then(|band| report.bands.get_mut(band)) {
            band.count(&pooled, refraction);
        }
        if let Some((formula, prediction)) = plan.predictions.get(index)
            && let Some(line) = report
                .formulas
                .iter_mut()
                .find(|line| line.formula == *formula)
        {
            line.own.count(&prediction.distribution(), refraction);
            line.pooled.count(&pooled, refraction);
        }
    }

    fn inputs(&self, eye: &TrueEye) -> FormulaInputs {
        FormulaInputs {
            cornea: Some(eye.cornea),
            acd: Some(eye.chamber_depth),
            lens_thickness: Some(eye.lens_thickness),
            history: CornealHistory::Untouched,
            constants: self.constants,
            ..FormulaInputs::absent()
        }
        .with_length(eye.axial_length)
    }

    /// The eye as an instrument sees it.
    fn measured(&self, truth: &FormulaInputs, random: &mut Xoshiro256PlusPlus) -> FormulaInputs {
        let mut errors = Errors::none();
        for (error, source) in errors.0.iter_mut().zip(ErrorSource::ALL) {
            let standard: f64 = StandardNormal.sample(random);
            if source.can_be_repeated() {
                *error = standard * self.spreads.get(source).map_or(0.0, |s| s.deviation);
            }
        }
        errors.inputs(truth)
    }

    /// The power nearest to emmetropia by the first formula that answers, and what all say of it.
    fn plan(&self, measured: &FormulaInputs) -> Option<PlannedEye> {
        let bases: Vec<(Formula, Basis)> = Formula::THIN_LENS
            .into_iter()
            .filter_map(|formula| Some((formula, self.basis(formula, measured).ok()?)))
            .collect();
        let (first, _) = bases.first()?;
        let eye = first.eye(measured).ok()?.value;
        let exact = eye.power_for(Diopters::new(0.0)).ok()?;
        let halves = (exact.d() * 2.0).round();
        if !(-20.0 <= halves && halves <= 80.0) {
            return None;
        }
        let power = Diopters::new(halves / 2.0).nearest_hundredth()?;
        let predictions = bases
            .iter()
            .filter_map(|(formula, basis)| {
                Some((*formula, basis.predict(power, self.limits).ok()?))
            })
            .collect();
        Some(PlannedEye { power, predictions })
    }
}

/// A power and what every formula says of it.
struct PlannedEye {
    power: HundredthDiopters,
    predictions: Vec<(Formula, Prediction)>,
}

impl PlannedEye {
    /// Which formula is the truth of this eye, and the refraction it leaves.
    fn truth(&self, truth: &FormulaInputs, drawn: &DrawnTruth) -> Option<(usize, Diopters)> {
        #[expect(
            clippy::cast_precision_loss,
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share of a handful of formulas"
        )]
        let index = (drawn.which * self.predictions.len() as f64) as usize;
        let (formula, prediction) = self.predictions.get(index)?;
        let mut errors = Errors::none();
        for (error, (source, standard)) in errors
            .0
            .iter_mut()
            .zip(ErrorSource::ALL.into_iter().zip(drawn.standard))
        {
            if !source.can_be_repeated() {
                *error = standard * prediction.spreads.get(source).map_or(0.0, |s| s.deviation);
            }
        }
        let eye = errors.eye(*formula, &errors.inputs(truth)).ok()?;
        let refraction = errors.refraction(&eye, self.power.diopters()).ok()?;
        Some((index, refraction))
    }
}

/// The random numbers behind one true refraction.
struct DrawnTruth {
    which: f64,
    standard: [f64; SOURCES],
}

impl DrawnTruth {
    fn draw(random: &mut Xoshiro256PlusPlus) -> Self {
        Self {
            which: StandardUniform.sample(random),
            standard: core::array::from_fn(|_| StandardNormal.sample(random)),
        }
    }
}

fn band_of(measured: &FormulaInputs) -> Option<usize> {
    let length_mm = measured.axial_length.ok()?.value.mm();
    let [_, inner @ .., _] = BAND_EDGES;
    Some(inner.iter().filter(|edge| **edge <= length_mm).count())
}
