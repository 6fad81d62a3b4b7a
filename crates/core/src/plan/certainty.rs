//! How sure the ladder is, and what the refraction after the chosen power rests on.

use crate::biometry::EyeRecord;
use crate::case::LensPlan;
use crate::certainty::{Budget, ErrorSource, Item, LadderCertainty, Prediction};
use crate::evidence::{DISCRETE_POWERS_2024, HOUSE, Source, Standing};
use crate::iol_power::{Formula, FormulaInputs};
use crate::iol_power::{Powers, ladder::Ladder};
use crate::lens::LensRecord;
use crate::limits::Limits;
use crate::quantity::{Diopters, HundredthDiopters, Micrometers};

/// What the steps of labeled powers do alone.
pub const STEP_SOURCE: Source = Standing::Printed.of(
    DISCRETE_POWERS_2024,
    "steps alone 0.11-0.12 D of refraction",
);

/// Chance bands on either side of the target that are shown.
pub const SHOWN_BANDS: [HundredthDiopters; 3] = [
    HundredthDiopters::new(25),
    HundredthDiopters::new(50),
    HundredthDiopters::new(100),
];

/// Where these bands come from.
pub const BANDS_SOURCE: Source = Standing::Assumption.of(
    HOUSE,
    "bands of ±0.25, ±0.50 and ±1.00 D, and over +0.50 D as hyperopic",
);

/// Apart by more, the formula planned by and the mean of all are said to differ (house value).
pub const DIFFERENCE_SAID: HundredthDiopters = HundredthDiopters::new(10);

/// Refraction over which an eye has ended hyperopic.
pub const HYPEROPIC: HundredthDiopters = HundredthDiopters::new(50);

/// How sure the plan is.
#[derive(Clone, Debug)]
pub struct PlanCertainty {
    /// Distributions of every rung.
    pub ladder: LadderCertainty,
    /// One power looked at closely; nothing if no power is chosen or proposed, or no formula has a
    /// distribution there.
    pub closely: Option<PowerCertainty>,
    /// The eye in which the published scatter is taken to hold.
    pub average: AverageEye,
}

/// The eye in which the published scatter is taken to hold. Source: [`crate::certainty::AVERAGE`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AverageEye {
    pub length: Micrometers,
    pub mean_k: HundredthDiopters,
    pub depth: Micrometers,
}

/// One power, looked at closely.
#[derive(Clone, Debug)]
pub struct PowerCertainty {
    pub power: HundredthDiopters,
    pub because: Because,
    pub predictions: Vec<(Formula, Prediction)>,
    /// All formulas together, and what makes the result uncertain.
    pub budget: Budget,
    /// Spread that the step between labeled powers makes by itself, were the target anywhere within
    /// a step: `step/√12·|dR/dP|`. It is no part of the budget, since the prediction of each rung
    /// says exactly how far it lies from the target.
    pub step_alone: Option<Diopters>,
}

impl PowerCertainty {
    /// The least and the largest spread of a source over the formulas that it moves, in its own unit;
    /// nothing if it moves none.
    pub fn spread(&self, source: ErrorSource) -> Option<[f64; 2]> {
        let spreads = self.predictions.iter().filter_map(|(_, prediction)| {
            let spread = prediction.spreads.get(source).ok()?;
            (prediction.linear.slope(source) != 0.0).then_some(spread.deviation)
        });
        spreads.fold(None, |found, spread| {
            let [least, most] = found.unwrap_or([spread, spread]);
            Some([least.min(spread), most.max(spread)])
        })
    }

    /// The standard deviation as it is and with this source measured once more; nothing where that
    /// would not show: less than half a hundredth of a diopter is no gain to work for.
    pub fn gain(&self, item: &Item) -> Option<[Diopters; 2]> {
        let whole = self.budget.distribution.deviation();
        let repeated = item.repeated?;
        let shown = |deviation: Diopters| format!("{:.2}", deviation.d());
        let shows = 0.005 <= (whole - repeated).d() && shown(whole) != shown(repeated);
        shows.then_some([whole, repeated])
    }
}

/// Why a power is looked at closely.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Because {
    Chosen,
    /// None was chosen, and the formula planned by proposes it.
    Proposed,
}

/// Distributions of a ladder, and the power of interest looked at closely.
pub fn plan_certainty(
    ladder: &Ladder,
    inputs: &FormulaInputs,
    eye: &EyeRecord,
    lens: &LensPlan,
    limits: &Limits,
) -> Option<PlanCertainty> {
    let record = lens.record()?;
    let certainty = LadderCertainty::of(ladder, inputs, eye, record, limits);
    let closely = power_of_interest(ladder, lens)
        .and_then(|(power, because)| closely(&certainty, power, because, record, limits));
    Some(PlanCertainty {
        ladder: certainty,
        closely,
        average: AverageEye {
            length: limits.average_length,
            mean_k: limits.average_k,
            depth: limits.average_depth,
        },
    })
}

fn power_of_interest(ladder: &Ladder, lens: &LensPlan) -> Option<(HundredthDiopters, Because)> {
    if let Some(power) = lens.power() {
        return Some((power, Because::Chosen));
    }
    let answer = ladder.column(lens.formula?)?.answer.as_ref().ok()?;
    Some((answer.proposed?, Because::Proposed))
}

fn closely(
    certainty: &LadderCertainty,
    power: HundredthDiopters,
    because: Because,
    record: &LensRecord,
    limits: &Limits,
) -> Option<PowerCertainty> {
    let predictions = certainty.predictions(power, limits);
    let budget = Budget::of(&predictions)?;
    Some(PowerCertainty {
        power,
        because,
        step_alone: step_alone(&predictions, power, &record.powers),
        predictions,
        budget,
    })
}

fn step_alone(
    predictions: &[(Formula, Prediction)],
    power: HundredthDiopters,
    powers: &Powers,
) -> Option<Diopters> {
    let step = powers
        .ranges()
        .iter()
        .find(|range| range.from() <= power && power <= range.to())?
        .step();
    #[expect(clippy::cast_precision_loss, reason = "a handful of formulas")]
    let count = predictions.len() as f64;
    let slopes: f64 = predictions
        .iter()
        .map(|(_, prediction)| prediction.linear.slope(ErrorSource::LabeledPower).abs())
        .sum();
    Some(step.diopters() * (slopes / count / 12.0_f64.sqrt()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Plan;

    /// What a refraction is measured with moves every formula alike; the operated cornea moves none in
    /// an eye whose cornea was never operated on.
    #[test]
    fn the_spread_of_a_source_is_that_of_the_formulas_it_moves() {
        let text = include_str!("../../../../demo-data/cases/hard-and-shallow.ron");
        let limits = Limits::shipped();
        let plan = Plan::of(&crate::case_file::read(text).unwrap(), limits).unwrap();
        let closely = plan.certainty.unwrap().closely.unwrap();
        let table = limits.spread_refraction.d();
        assert_eq!(closely.spread(ErrorSource::Refraction), Some([table; 2]));
        assert_eq!(closely.spread(ErrorSource::OperatedCornea), None);
    }
}
