//! How often the stated intervals hold the simulated truth.
//!
//! Each eye is drawn from a [`Population`], as measured, and planned by the same code as a case. Its
//! true refraction is then drawn: one of the formulas that answer, each as likely as another, is
//! taken for the truth of this eye, off by what published series say of it ([`crate::published`]):
//! its bias in such a cornea and its scatter. So this holds what the program states, by propagation,
//! calibration, widening and pooling, against published errors.

use millrace_core::certainty::{
    Basis, Calibration, NoDistribution, Pool, Prediction, Scatter, Spreads, average_eye, calibrate,
    scatter,
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

use crate::counts::{CountedEye, Counts, Place, Report};
use crate::population::{Population, PopulationError, TrueEye};
use crate::published::Published;

/// Constants of the lens that every simulated eye gets, in powers of 0.5 D from −10 to +40 D: A,
/// pACD, surgeon factor, a0, a1, a2. Invented.
pub const SIMULATED_LENS: [f64; 6] = [118.7, 5.37, 1.62, 1.3, 0.4, 0.1];

/// Most eyes simulated at once.
pub const MOST_EYES: u32 = 100_000_000;

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

/// Everything that is the same for all eyes.
struct Setting<'a> {
    population: Population,
    constants: FormulaConstants,
    spreads: Spreads,
    /// Scatter and calibration of each formula: the same for every eye.
    calibrated: Vec<(Formula, Scatter, Calibration)>,
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
    let constants = constants()?;
    let setting = Setting {
        population: Population::printed()?,
        constants,
        spreads: Spreads::usual(limits),
        calibrated: calibrations(constants, limits)?,
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

fn calibrations(
    constants: FormulaConstants,
    limits: &Limits,
) -> Result<Vec<(Formula, Scatter, Calibration)>, SimulationError> {
    let of = |formula: Formula| -> Result<_, NoDistribution> {
        let scatter = scatter(formula, CornealHistory::Untouched, None, limits)
            .ok_or(NoDistribution::NoScatter)?;
        let calibration = calibrate(formula, &scatter, constants, limits)?;
        Ok((formula, scatter, calibration))
    };
    let found = Formula::THIN_LENS.into_iter().map(|formula| {
        of(formula).map_err(|reason| SimulationError::Certainty { formula, reason })
    });
    found.collect()
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
        let found = self.calibrated.iter().find(|(one, ..)| *one == formula);
        let (_, scatter, calibration) = *found.ok_or(NoDistribution::NoScatter)?;
        Basis::calibrated(formula, inputs, &self.spreads, scatter, calibration)
    }

    fn one_eye(&self, random: &mut Xoshiro256PlusPlus, report: &mut Report) {
        let eye = loop {
            match self.population.draw(random) {
                Some(eye) => break eye,
                None => report.drawn_again += 1,
            }
        };
        let measured = self.inputs(&eye);
        // Every eye takes as many random numbers as any other, so that one without an answer does not
        // shift those after it.
        let drawn = DrawnTruth::draw(random);
        let Some(plan) = self.plan(&measured) else {
            report.without_answer += 1;
            return;
        };
        let Some((formula, prediction, refraction)) = plan.truth(&measured, &drawn) else {
            report.without_answer += 1;
            return;
        };
        let Some(pool) = Pool::of(plan.predictions.iter().map(|(_, prediction)| prediction)) else {
            report.without_answer += 1;
            return;
        };
        let eye = CountedEye {
            place: Place::of(&measured),
            own: Counts::of_one(&prediction.distribution(), refraction),
            pooled: Counts::of_one(pool.distribution(), refraction),
        };
        report.count(formula, &eye);
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
        Some(PlannedEye { predictions })
    }
}

/// What every formula says of the power.
struct PlannedEye {
    predictions: Vec<(Formula, Prediction)>,
}

impl PlannedEye {
    /// Which formula is the truth of this eye, and the refraction it leaves.
    fn truth(
        &self,
        measured: &FormulaInputs,
        drawn: &DrawnTruth,
    ) -> Option<(Formula, &Prediction, Diopters)> {
        #[expect(
            clippy::cast_precision_loss,
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share of a handful of formulas"
        )]
        let index = (drawn.which * self.predictions.len() as f64) as usize;
        let (formula, prediction) = self.predictions.get(index)?;
        let published = Published::of(*formula)?;
        let mean_k_d = measured.cornea?.mean_power().d();
        let error_d = published.bias(mean_k_d) + published.about_the_bias() * drawn.standard;
        let refraction = prediction.linear.refraction + Diopters::new(error_d);
        Some((*formula, prediction, refraction))
    }
}

/// The random numbers behind one true refraction.
struct DrawnTruth {
    which: f64,
    standard: f64,
}

impl DrawnTruth {
    fn draw(random: &mut Xoshiro256PlusPlus) -> Self {
        Self {
            which: StandardUniform.sample(random),
            standard: StandardNormal.sample(random),
        }
    }
}
