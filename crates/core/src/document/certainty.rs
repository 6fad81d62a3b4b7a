//! How sure the predictions are: distributions, chances, and what they rest on.

use serde::{Deserialize, Serialize};

use super::{Outcome, TendencyResult};
use crate::calendar::Day;
use crate::certainty::{
    Basis, ColumnCertainty, Distribution, ErrorSource, Item, Level, NoDistribution, Origin,
    Prediction, Withheld,
};
use crate::iol_power::Formula;
use crate::iol_power::ladder::Ladder;
use crate::plan::{Because, HYPEROPIC, PlanCertainty, PowerCertainty, Repeat, SHOWN_BANDS};
use crate::quantity::{Diopters, HundredthDiopters, Millimeters};

/// How sure the ladder is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CertaintyResult {
    /// What every pooled number rests on.
    pub pooling: Pooling,
    /// Why no range and no chance is stated of this eye; empty where they are.
    #[serde(default)]
    pub withheld: Vec<Withheld>,
    /// Every formula shown.
    pub formulas: Vec<FormulaCertainty>,
    /// Every power of the ladder, over all formulas that have a distribution there.
    pub pooled: Vec<RungSpread>,
    /// The power of interest.
    pub closely: Option<CloselyResult>,
}

/// How formulas are pooled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Pooling {
    /// An equal mixture of the normal distributions of the formulas that answer and have a
    /// published scatter, errors of all sources being taken as independent.
    EqualMixtureOfIndependentErrors,
}

/// One formula.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FormulaCertainty {
    /// The formula.
    pub formula: Formula,
    /// What its distributions rest on, or why it has none.
    pub basis: Outcome<ScatterResult, NoDistribution>,
    /// What it is known to tend to in such an eye; no part of any prediction, but of its range.
    #[serde(default)]
    pub tendencies: Vec<TendencyResult>,
    /// Its distribution for every power where it has one.
    pub rungs: Vec<RungSpread>,
}

/// Scatter of a formula's prediction error, and what it leaves to other sources.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ScatterResult {
    /// As used.
    pub used_d: Diopters,
    /// As published, or as the clinic's table has it.
    pub published_d: Diopters,
    /// The clinic's own results with this lens.
    pub own: Option<OwnScatter>,
    /// What nothing known explains, as an error of the lens position in the average eye.
    pub lens_position_spread_mm: Millimeters,
    /// What nothing known explains, the same in every eye; nothing in a document of before.
    #[serde(default)]
    pub unexplained_spread_d: Option<Diopters>,
    /// What is left to an operated cornea; nothing for a formula for untouched ones.
    pub operated_cornea_spread_d: Option<Diopters>,
}

/// A clinic's own results with one formula and one lens.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnScatter {
    /// Number of eyes.
    pub eyes: u32,
    /// Standard deviation of the prediction error.
    pub deviation_d: Diopters,
    /// Day of the analysis.
    pub on: Day,
}

/// The distribution for one power.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RungSpread {
    /// The power.
    #[serde(with = "crate::quantity::as_diopters")]
    pub power_d: HundredthDiopters,
    /// Its distribution.
    pub spread: Spread,
}

/// A prediction with its spread.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spread {
    /// Mean.
    pub mean_d: Diopters,
    /// Standard deviation.
    pub deviation_d: Diopters,
    /// 50 % interval.
    pub interval_50_d: [Diopters; 2],
    /// 80 % interval.
    pub interval_80_d: [Diopters; 2],
    /// 95 % interval.
    pub interval_95_d: [Diopters; 2],
    /// Chance to end within 0.25 D of the target.
    pub chance_within_0_25_d: f64,
    /// Chance to end within 0.50 D of the target.
    pub chance_within_0_50_d: f64,
    /// Chance to end within 1.00 D of the target.
    pub chance_within_1_00_d: f64,
    /// Chance to end over +0.50 D.
    pub chance_over_plus_0_50_d: f64,
}

/// One power, looked at closely.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CloselyResult {
    /// The power.
    #[serde(with = "crate::quantity::as_diopters")]
    pub power_d: HundredthDiopters,
    /// Why this one.
    pub because: Because,
    /// All formulas together.
    pub pooled: Spread,
    /// Variance of the disagreement between the formulas.
    pub disagreement_variance_d2: f64,
    /// Its share of the whole variance.
    pub disagreement_share: f64,
    /// Every source with a share, largest first.
    pub budget: Vec<Item>,
    /// What measuring once more would gain in the chance of ending within 0.50 D of the target, the
    /// most first.
    #[serde(default)]
    pub repeats: Vec<Repeat>,
    /// Spread that the step between labeled powers makes by itself.
    pub step_alone_d: Option<Diopters>,
    /// Every formula that speaks.
    pub formulas: Vec<SpokenResult>,
}

/// What one formula says of a power.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpokenResult {
    /// The formula.
    pub formula: Formula,
    /// Its distribution.
    pub spread: Spread,
    /// Every source that moves it.
    pub sources: Vec<SourceResult>,
}

/// One source of error.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SourceResult {
    /// The source.
    pub source: ErrorSource,
    /// Unit of its spread.
    pub unit: SpreadUnit,
    /// Its spread, one standard deviation.
    pub spread: f64,
    /// What one unit makes of the refraction.
    pub slope_d_per_unit: f64,
    /// Variance that it makes.
    pub variance_d2: f64,
    /// Where the spread comes from.
    pub origin: SpreadOrigin,
}

/// Unit of a spread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SpreadUnit {
    /// Millimeters.
    Mm,
    /// Diopters.
    D,
}

/// Where a spread comes from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum SpreadOrigin {
    /// Reported with the measurement.
    Measured,
    /// The table's, by this limit.
    Table {
        /// Name of the limit.
        limit: String,
    },
    /// The table's, since the measurement came with a spread of zero.
    InsteadOfZero {
        /// Name of the limit.
        limit: String,
    },
    /// The tolerance of a label.
    Tolerance {
        /// Name of the limit.
        limit: String,
        /// Standard deviations in it.
        deviations: i32,
    },
    /// Of a value that was not measured and taken as usual.
    OfUsualValue,
    /// What the scatter of the formula leaves after everything else.
    Calibrated,
    /// What the formula was found to be off by in such eyes.
    KnownTendency,
}

impl CertaintyResult {
    pub(super) fn of(ladder: &Ladder, certainty: &PlanCertainty) -> Self {
        let target = ladder.target;
        let columns = certainty.ladder.columns.iter();
        let pooled = ladder.rungs.iter().zip(&certainty.ladder.pooled);
        Self {
            pooling: Pooling::EqualMixtureOfIndependentErrors,
            withheld: certainty.ladder.withheld.clone(),
            formulas: columns
                .map(|column| FormulaCertainty::of(column, ladder))
                .collect(),
            pooled: pooled
                .filter_map(|(rung, pooled)| {
                    let spread = Spread::of(pooled.as_ref()?, target);
                    Some(RungSpread {
                        power_d: rung.power,
                        spread,
                    })
                })
                .collect(),
            closely: certainty
                .closely
                .as_ref()
                .map(|closely| CloselyResult::of(closely, target)),
        }
    }
}

impl FormulaCertainty {
    fn of(column: &ColumnCertainty, ladder: &Ladder) -> Self {
        let formula = column.formula;
        let rungs = ladder.rungs.iter().zip(&column.rungs);
        Self {
            formula,
            basis: Outcome::of(&column.basis, |basis| ScatterResult::of(basis, formula)),
            tendencies: column.tendencies().map(TendencyResult::of).collect(),
            rungs: rungs
                .filter_map(|(rung, prediction)| {
                    let distribution = prediction.as_ref()?.distribution();
                    Some(RungSpread {
                        power_d: rung.power,
                        spread: Spread::of(&distribution, ladder.target),
                    })
                })
                .collect(),
        }
    }
}

impl ScatterResult {
    fn of(basis: &Basis, formula: Formula) -> Self {
        let (scatter, calibration) = (&basis.scatter, &basis.calibration);
        Self {
            used_d: scatter.deviation,
            published_d: scatter.published,
            own: scatter.own.map(|own| OwnScatter {
                eyes: own.eyes,
                deviation_d: own.deviation,
                on: Day(own.on),
            }),
            lens_position_spread_mm: calibration.as_lens_position,
            unexplained_spread_d: Some(calibration.unexplained),
            operated_cornea_spread_d: formula
                .is_for_operated_corneas()
                .then_some(calibration.operated_cornea),
        }
    }
}

impl Spread {
    fn of(distribution: &Distribution, target: HundredthDiopters) -> Self {
        let [quarter, half, whole] =
            SHOWN_BANDS.map(|band| distribution.chance_within(target.diopters(), band.diopters()));
        Self {
            mean_d: distribution.mean(),
            deviation_d: distribution.deviation(),
            interval_50_d: distribution.interval(Level::Half),
            interval_80_d: distribution.interval(Level::Eighty),
            interval_95_d: distribution.interval(Level::NinetyFive),
            chance_within_0_25_d: quarter,
            chance_within_0_50_d: half,
            chance_within_1_00_d: whole,
            chance_over_plus_0_50_d: distribution.chance_over(HYPEROPIC.diopters()),
        }
    }
}

impl CloselyResult {
    fn of(closely: &PowerCertainty, target: HundredthDiopters) -> Self {
        let budget = &closely.budget;
        let predictions = closely.predictions.iter();
        Self {
            power_d: closely.power,
            because: closely.because,
            pooled: Spread::of(&budget.distribution, target),
            disagreement_variance_d2: budget.disagreement,
            disagreement_share: budget.disagreement_share(),
            budget: budget.items.clone(),
            repeats: closely.repeats.clone(),
            step_alone_d: closely.step_alone,
            formulas: predictions
                .map(|(formula, prediction)| SpokenResult {
                    formula: *formula,
                    spread: Spread::of(&prediction.distribution(), target),
                    sources: sources(prediction),
                })
                .collect(),
        }
    }

    /// What a formula says of the chosen power; nothing of a proposed one, which is no plan yet.
    pub(super) fn of_chosen(&self, formula: Formula) -> Option<&Spread> {
        let spoken = self.formulas.iter().find(|one| one.formula == formula)?;
        (self.because == Because::Chosen).then_some(&spoken.spread)
    }
}

fn sources(prediction: &Prediction) -> Vec<SourceResult> {
    let variances = ErrorSource::ALL.into_iter().zip(prediction.variances);
    variances
        .filter(|(_, variance)| *variance > 0.0)
        .filter_map(|(source, variance)| {
            let spread = prediction.spreads.get(source).ok()?;
            Some(SourceResult {
                source,
                unit: if source.is_length() {
                    SpreadUnit::Mm
                } else {
                    SpreadUnit::D
                },
                spread: spread.deviation,
                slope_d_per_unit: prediction.linear.slope(source),
                variance_d2: variance,
                origin: spread.origin.into(),
            })
        })
        .collect()
}

impl From<Origin> for SpreadOrigin {
    fn from(origin: Origin) -> Self {
        match origin {
            Origin::Measured => Self::Measured,
            Origin::Table { limit, .. } => Self::Table {
                limit: limit.to_owned(),
            },
            Origin::InsteadOfZero { limit, .. } => Self::InsteadOfZero {
                limit: limit.to_owned(),
            },
            Origin::Tolerance {
                limit, deviations, ..
            } => Self::Tolerance {
                limit: limit.to_owned(),
                deviations,
            },
            Origin::OfUsualValue { .. } => Self::OfUsualValue,
            Origin::Calibrated => Self::Calibrated,
            Origin::KnownTendency { .. } => Self::KnownTendency,
        }
    }
}

#[cfg(test)]
mod tests;
