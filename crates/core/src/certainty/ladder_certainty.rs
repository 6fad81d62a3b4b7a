//! The distribution behind every number of the ladder.

use super::scatter::{Calibration, NoDistribution, Scatter, calibrate, scatter};
use super::spread::labeled_power;
use super::spread::{Origin, Spread};
use super::{Distribution, ErrorSource, Linear, Normal, Pool, Spreads, Tendency, Withheld, linear};
use crate::biometry::EyeRecord;
use crate::iol_power::ladder::Ladder;
use crate::iol_power::{EyeModel, Formula, FormulaInputs};
use crate::lens::LensRecord;
use crate::limits::Limits;
use crate::quantity::{Diopters, HundredthDiopters};

/// Distributions for one ladder.
#[derive(Clone, Debug)]
pub struct LadderCertainty {
    /// Why nothing is stated of this eye; empty where ranges are.
    pub withheld: Vec<Withheld>,
    /// One per column of the ladder, in its order.
    pub columns: Vec<ColumnCertainty>,
    /// Per rung of the ladder, over all formulas that have a distribution there; nothing where none
    /// has.
    pub pooled: Vec<Option<Distribution>>,
}

/// How sure one formula is.
#[derive(Clone, Debug)]
pub struct ColumnCertainty {
    pub formula: Formula,
    /// What its distributions rest on, or why it has none.
    pub basis: Result<Basis, NoDistribution>,
    /// Per rung of the ladder; nothing where the formula has no prediction or no distribution.
    pub rungs: Vec<Option<Prediction>>,
}

/// What a formula's distributions rest on.
#[derive(Clone, Debug)]
pub struct Basis {
    /// Scatter of its prediction error.
    pub scatter: Scatter,
    /// What the scatter leaves beyond what is known.
    pub calibration: Calibration,
    /// What the formula is known to tend to in such an eye: no part of the prediction.
    pub tendencies: Vec<Tendency>,
    /// The eye with its derivatives.
    eye: EyeModel<super::Dual>,
    /// Spread of every source but the label.
    spreads: Spreads,
}

/// One prediction with what it is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Prediction {
    /// Value and derivatives.
    pub linear: Linear,
    /// Spread of every source for this lens.
    pub spreads: Spreads,
    /// Variance by every source, D², in the order of [`ErrorSource::ALL`].
    pub variances: [f64; super::SOURCES],
    /// What the formula is known to be off by in such an eye, zero where that was not read: no part of
    /// the prediction. Its square is the variance by [`ErrorSource::Tendency`].
    pub bias: Diopters,
}

impl ColumnCertainty {
    /// What the formula is known to tend to in this eye.
    pub fn tendencies(&self) -> impl Iterator<Item = &Tendency> {
        self.basis.iter().flat_map(|basis| &basis.tendencies)
    }
}

impl Prediction {
    pub fn deviation(&self) -> Diopters {
        Diopters::new(self.variances.iter().sum::<f64>().sqrt())
    }

    pub fn normal(&self) -> Normal {
        Normal {
            mean: self.linear.refraction,
            deviation: self.deviation(),
        }
    }

    pub fn distribution(&self) -> Distribution {
        Distribution::single(self.normal())
    }
}

impl Basis {
    /// What the formula makes of an eye whose spreads are known.
    pub fn of(
        formula: Formula,
        inputs: &FormulaInputs,
        known: &Spreads,
        record: Option<&LensRecord>,
        limits: &Limits,
    ) -> Result<Self, NoDistribution> {
        let scatter =
            scatter(formula, inputs.history, record, limits).ok_or(NoDistribution::NoScatter)?;
        let calibration = calibrate(formula, &scatter, inputs.constants, limits);
        Self::calibrated(formula, inputs, known, scatter, calibration?)
    }

    /// The same where scatter and calibration, which are of formula, lens and table alone, are known.
    pub fn calibrated(
        formula: Formula,
        inputs: &FormulaInputs,
        known: &Spreads,
        scatter: Scatter,
        calibration: Calibration,
    ) -> Result<Self, NoDistribution> {
        let eye = linear::eye(formula, inputs)?;
        let tendencies = Tendency::of(formula, inputs);
        let mut spreads = known
            .clone()
            .with(ErrorSource::Unexplained, calibration.unexplained.d())
            .with(ErrorSource::OperatedCornea, calibration.operated_cornea.d());
        for tendency in &tendencies {
            if let Some(bias) = tendency.widening() {
                let source = tendency.source;
                let spread = Spread {
                    deviation: bias.d().abs(),
                    origin: Origin::KnownTendency { source },
                };
                spreads = spreads.with_spread(ErrorSource::Tendency, spread);
            }
        }
        Ok(Self {
            scatter,
            calibration,
            tendencies,
            eye,
            spreads,
        })
    }

    /// The published bias of the formula in such an eye.
    fn bias(&self) -> Diopters {
        let known = self.tendencies.iter().filter_map(Tendency::widening);
        Diopters::new(known.map(Diopters::d).sum())
    }

    /// The prediction for a lens labeled `power`.
    pub fn predict(
        &self,
        power: HundredthDiopters,
        limits: &Limits,
    ) -> Result<Prediction, NoDistribution> {
        let linear = Linear::in_eye(&self.eye, power.diopters())?;
        let label = labeled_power(power, limits)?;
        let spreads = self
            .spreads
            .clone()
            .with_spread(ErrorSource::LabeledPower, label);
        let mut variances = [0.0; super::SOURCES];
        for (slot, source) in variances.iter_mut().zip(ErrorSource::ALL) {
            *slot = linear.variance_by(source, &spreads)?;
        }
        Ok(Prediction {
            linear,
            spreads,
            variances,
            bias: self.bias(),
        })
    }
}

impl LadderCertainty {
    /// The distributions of a ladder that was computed from `inputs` of `eye`.
    pub fn of(
        ladder: &Ladder,
        inputs: &FormulaInputs,
        eye: &EyeRecord,
        record: &LensRecord,
        limits: &Limits,
    ) -> Self {
        let known = Spreads::of(eye, limits);
        let withheld = Withheld::of(eye, record.site, limits);
        let columns: Vec<_> = ladder
            .columns
            .iter()
            .map(|column| {
                let formula = column.formula;
                let basis = match (&column.answer, withheld.first()) {
                    (Err(refusal), _) => Err((*refusal).into()),
                    (Ok(_), Some(because)) => {
                        let because = *because;
                        Err(NoDistribution::Withheld { because })
                    }
                    (Ok(_), None) => Basis::of(formula, inputs, &known, Some(record), limits),
                };
                column_certainty(formula, basis, ladder, limits)
            })
            .collect();
        let pooled = (0..ladder.rungs.len())
            .map(|rung| {
                let speaking = columns
                    .iter()
                    .filter_map(|column| column.rungs.get(rung)?.as_ref());
                Some(Pool::of(speaking)?.distribution().clone())
            })
            .collect();
        Self {
            withheld,
            columns,
            pooled,
        }
    }

    pub fn column(&self, formula: Formula) -> Option<&ColumnCertainty> {
        self.columns.iter().find(|column| column.formula == formula)
    }

    /// Every formula's prediction for a power, on the ladder or off it.
    pub fn predictions(
        &self,
        power: HundredthDiopters,
        limits: &Limits,
    ) -> Vec<(Formula, Prediction)> {
        let answering = self.columns.iter().filter_map(|column| {
            let basis = column.basis.as_ref().ok()?;
            Some((column.formula, basis.predict(power, limits).ok()?))
        });
        answering.collect()
    }

    /// All formulas that have a distribution for a power, on the ladder or off it; nothing where none
    /// has.
    pub fn pooled_at(&self, power: HundredthDiopters, limits: &Limits) -> Option<Distribution> {
        let predictions = self.predictions(power, limits);
        let pool = Pool::of(predictions.iter().map(|(_, prediction)| prediction))?;
        Some(pool.distribution().clone())
    }
}

/// The distributions of one column; a spread that is missing is missing in every rung.
fn column_certainty(
    formula: Formula,
    basis: Result<Basis, NoDistribution>,
    ladder: &Ladder,
    limits: &Limits,
) -> ColumnCertainty {
    let mut missing = None;
    let rungs = ladder
        .rungs
        .iter()
        .map(
            |rung| match basis.as_ref().ok()?.predict(rung.power, limits) {
                Ok(prediction) => Some(prediction),
                Err(NoDistribution::Spread(spread)) => {
                    missing = Some(spread);
                    None
                }
                Err(_) => None,
            },
        )
        .collect();
    ColumnCertainty {
        formula,
        basis: match missing {
            Some(spread) => Err(spread.into()),
            None => basis,
        },
        rungs,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::certainty::testing::eye;

    /// By hand: −0.31 D (printed) adds 0.31² = 0.0961 D² for SRK/T in an eye of 46.5 D, and nothing at
    /// 45.5 D; the mean stays that of the plain formula, to the last bit.
    #[test]
    fn a_bias_widens_the_range_and_moves_no_prediction() {
        let limits = Limits::shipped();
        let power = HundredthDiopters::new(1_800);
        for (k_d, added) in [(46.5, 0.0961), (45.5, 0.0)] {
            let inputs = eye(23.5, k_d);
            let known = Spreads::usual(limits);
            let basis = Basis::of(Formula::SrkT, &inputs, &known, None, limits).unwrap();
            let found = basis.predict(power, limits).unwrap();
            let variance = found.variances[ErrorSource::Tendency as usize];
            assert!((variance - added).abs() < 1e-12, "{k_d}: {variance}");
            let plain = Formula::SrkT.eye(&inputs).unwrap().value;
            let plain = plain.refraction_with(power.diopters()).unwrap();
            assert_eq!(found.linear.refraction.d().to_bits(), plain.d().to_bits());
        }
    }
}
