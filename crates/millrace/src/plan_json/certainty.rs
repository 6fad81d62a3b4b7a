//! How sure: distributions, chances, the error budget, and what they rest on.

use millrace_core::certainty::{
    Budget, ColumnCertainty, Distribution, ErrorSource, Level, Origin, Prediction,
};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::plan::{
    Because, HYPEROPIC, PlanCertainty, PowerCertainty, SHOWN_BANDS, STEP_SOURCE,
};
use millrace_core::quantity::{Diopters, HundredthDiopters};
use serde::Serialize;

/// Written beside every pooled number.
const POOLING: &str = "equal mixture of the normal distributions of the formulas that answer and have a published scatter";
const INDEPENDENCE: &str = "errors of all sources are taken as independent";

#[derive(Serialize)]
pub(super) struct CertaintyPart {
    pooling: &'static str,
    approximation: &'static str,
    formulas: Vec<FormulaPart>,
    pooled: Vec<RungPart>,
    closely: Option<CloselyPart>,
}

#[derive(Serialize)]
struct FormulaPart {
    formula: &'static str,
    no_distribution: Option<String>,
    scatter: Option<ScatterPart>,
    lens_position_spread_mm: Option<f64>,
    operated_cornea_spread_d: Option<f64>,
    rungs: Vec<RungPart>,
}

#[derive(Serialize)]
struct ScatterPart {
    used_d: f64,
    published_d: f64,
    source: String,
    own: Option<OwnPart>,
}

#[derive(Serialize)]
struct OwnPart {
    eyes: u32,
    deviation_d: f64,
    on: String,
}

#[derive(Serialize)]
struct RungPart {
    power_d: f64,
    #[serde(flatten)]
    distribution: DistributionPart,
}

#[derive(Serialize)]
#[expect(
    clippy::struct_field_names,
    reason = "every number has its unit in its name"
)]
struct DistributionPart {
    mean_d: f64,
    deviation_d: f64,
    interval_50_d: [f64; 2],
    interval_80_d: [f64; 2],
    interval_95_d: [f64; 2],
    chance_within_0_25_d: f64,
    chance_within_0_50_d: f64,
    chance_within_1_00_d: f64,
    chance_over_plus_0_50_d: f64,
}

#[derive(Serialize)]
struct CloselyPart {
    power_d: f64,
    because: &'static str,
    pooled: DistributionPart,
    disagreement_variance_d2: f64,
    disagreement_share: f64,
    budget: Vec<ItemPart>,
    step_alone_d: Option<f64>,
    step_source: String,
    formulas: Vec<SpokenPart>,
}

#[derive(Serialize)]
struct ItemPart {
    source: &'static str,
    variance_d2: f64,
    share: f64,
    deviation_if_measured_once_more_d: Option<f64>,
}

#[derive(Serialize)]
struct SpokenPart {
    formula: &'static str,
    #[serde(flatten)]
    distribution: DistributionPart,
    sources: Vec<SourcePart>,
}

#[derive(Serialize)]
struct SourcePart {
    source: &'static str,
    unit: &'static str,
    spread: f64,
    slope_d_per_unit: f64,
    variance_d2: f64,
    origin: String,
    limit: Option<&'static str>,
}

impl CertaintyPart {
    pub(super) fn of(ladder: &Ladder, certainty: &PlanCertainty) -> Self {
        let target = ladder.target;
        let pooled = ladder.rungs.iter().zip(&certainty.ladder.pooled);
        Self {
            pooling: POOLING,
            approximation: INDEPENDENCE,
            formulas: certainty
                .ladder
                .columns
                .iter()
                .map(|column| formula(column, ladder))
                .collect(),
            pooled: pooled
                .filter_map(|(rung, pooled)| Some(rung_part(rung.power, pooled.as_ref()?, target)))
                .collect(),
            closely: certainty
                .closely
                .as_ref()
                .map(|closely| closely_part(closely, target)),
        }
    }
}

fn formula(column: &ColumnCertainty, ladder: &Ladder) -> FormulaPart {
    let basis = column.basis.as_ref();
    let rungs = ladder.rungs.iter().zip(&column.rungs);
    FormulaPart {
        formula: column.formula.key(),
        no_distribution: basis.err().map(ToString::to_string),
        scatter: basis.ok().map(|basis| ScatterPart {
            used_d: basis.scatter.deviation.d(),
            published_d: basis.scatter.published.d(),
            source: basis.scatter.source.to_string(),
            own: basis.scatter.own.map(|own| OwnPart {
                eyes: own.eyes,
                deviation_d: own.deviation.d(),
                on: own.on.to_string(),
            }),
        }),
        lens_position_spread_mm: basis.ok().map(|basis| basis.calibration.lens_position.mm()),
        operated_cornea_spread_d: basis
            .ok()
            .filter(|_| column.formula.is_for_operated_corneas())
            .map(|basis| basis.calibration.operated_cornea.d()),
        rungs: rungs
            .filter_map(|(rung, prediction)| {
                let distribution = prediction.as_ref()?.distribution();
                Some(rung_part(rung.power, &distribution, ladder.target))
            })
            .collect(),
    }
}

fn rung_part(
    power: HundredthDiopters,
    distribution: &Distribution,
    target: HundredthDiopters,
) -> RungPart {
    RungPart {
        power_d: power.diopters().d(),
        distribution: distribution_part(distribution, target),
    }
}

fn distribution_part(distribution: &Distribution, target: HundredthDiopters) -> DistributionPart {
    let interval = |level| distribution.interval(level).map(Diopters::d);
    let [quarter, half, whole] =
        SHOWN_BANDS.map(|band| distribution.chance_within(target.diopters(), band.diopters()));
    DistributionPart {
        mean_d: distribution.mean().d(),
        deviation_d: distribution.deviation().d(),
        interval_50_d: interval(Level::Half),
        interval_80_d: interval(Level::Eighty),
        interval_95_d: interval(Level::NinetyFive),
        chance_within_0_25_d: quarter,
        chance_within_0_50_d: half,
        chance_within_1_00_d: whole,
        chance_over_plus_0_50_d: distribution.chance_over(HYPEROPIC.diopters()),
    }
}

fn closely_part(closely: &PowerCertainty, target: HundredthDiopters) -> CloselyPart {
    let Budget {
        distribution,
        items,
        disagreement,
    } = &closely.budget;
    CloselyPart {
        power_d: closely.power.diopters().d(),
        because: match closely.because {
            Because::Chosen => "chosen",
            Because::Proposed => "proposed",
        },
        pooled: distribution_part(distribution, target),
        disagreement_variance_d2: *disagreement,
        disagreement_share: closely.budget.disagreement_share(),
        budget: items
            .iter()
            .map(|item| ItemPart {
                source: item.source.key(),
                variance_d2: item.variance,
                share: item.share,
                deviation_if_measured_once_more_d: item.repeated.map(Diopters::d),
            })
            .collect(),
        step_alone_d: closely.step_alone.map(Diopters::d),
        step_source: STEP_SOURCE.to_string(),
        formulas: closely
            .predictions
            .iter()
            .map(|(formula, prediction)| spoken(*formula, prediction, target))
            .collect(),
    }
}

fn spoken(formula: Formula, prediction: &Prediction, target: HundredthDiopters) -> SpokenPart {
    let sources = ErrorSource::ALL.into_iter().zip(prediction.variances);
    SpokenPart {
        formula: formula.key(),
        distribution: distribution_part(&prediction.distribution(), target),
        sources: sources
            .filter(|(_, variance)| 0.0 < *variance)
            .filter_map(|(source, variance)| {
                let spread = prediction.spreads.get(source).ok()?;
                Some(SourcePart {
                    source: source.key(),
                    unit: if source.is_length() { "mm" } else { "D" },
                    spread: spread.deviation,
                    slope_d_per_unit: prediction.linear.slope(source),
                    variance_d2: variance,
                    origin: spread.origin.to_string(),
                    limit: match spread.origin {
                        Origin::Table { limit, .. }
                        | Origin::InsteadOfZero { limit, .. }
                        | Origin::Tolerance { limit, .. } => Some(limit),
                        _ => None,
                    },
                })
            })
            .collect(),
    }
}
