//! How sure the ladder is, and what the refraction after the chosen power rests on.

use crate::biometry::EyeRecord;
use crate::case::LensPlan;
use crate::certainty::{Budget, Distribution, ErrorSource, LadderCertainty, Pool, Prediction};
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

/// The band that a repeat is judged by: where published standards count eyes.
pub const REPEAT_BAND: HundredthDiopters = HundredthDiopters::new(50);

/// A gain in the chance from which a repeat is said to be worth it (house value).
pub const WORTH: f64 = 0.02;

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
    /// Every measurement that has a share in it, by what repeating it would gain, the most first.
    pub repeats: Vec<Repeat>,
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

    /// What repeating this source would gain; nothing for one that cannot be repeated.
    pub fn repeat(&self, source: ErrorSource) -> Option<&Repeat> {
        self.repeats.iter().find(|repeat| repeat.source == source)
    }

    /// What is worth repeating, the most first; nothing where nothing gains [`WORTH`].
    pub fn worth_repeating(&self) -> impl Iterator<Item = &Repeat> {
        self.repeats.iter().filter(|repeat| repeat.is_worth_it())
    }
}

/// What measuring once more, in the same way and independently, and using the mean would gain.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Repeat {
    pub source: ErrorSource,
    /// Chance of ending within the band of the target, as it is.
    pub chance: f64,
    /// With this measured once more.
    #[serde(rename = "chance_if_measured_once_more")]
    pub repeated: f64,
}

impl Repeat {
    pub fn gain(&self) -> f64 {
        self.repeated - self.chance
    }

    pub fn is_worth_it(&self) -> bool {
        WORTH <= self.gain()
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
    let closely = power_of_interest(ladder, lens).and_then(|(power, because)| {
        let predictions = certainty.predictions(power, limits);
        closely(predictions, power, because, ladder.target, record)
    });
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
    predictions: Vec<(Formula, Prediction)>,
    power: HundredthDiopters,
    because: Because,
    target: HundredthDiopters,
    record: &LensRecord,
) -> Option<PowerCertainty> {
    let budget = Budget::of(&predictions)?;
    Some(PowerCertainty {
        power,
        because,
        repeats: repeats(&predictions, &budget, target),
        step_alone: step_alone(&predictions, power, &record.powers),
        predictions,
        budget,
    })
}

fn repeats(
    predictions: &[(Formula, Prediction)],
    budget: &Budget,
    target: HundredthDiopters,
) -> Vec<Repeat> {
    let Some(pool) = Pool::of(predictions.iter().map(|(_, prediction)| prediction)) else {
        return Vec::new();
    };
    let chance_of = |distribution: &Distribution| {
        distribution.chance_within(target.diopters(), REPEAT_BAND.diopters())
    };
    let chance = chance_of(pool.distribution());
    let sources = budget.items.iter().map(|item| item.source);
    let mut found: Vec<_> = sources
        .filter(|source| source.can_be_repeated())
        .filter_map(|source| {
            let repeated = chance_of(&pool.measured_once_more(source)?);
            Some(Repeat {
                source,
                chance,
                repeated,
            })
        })
        .collect();
    found.sort_by(|one, other| other.gain().total_cmp(&one.gain()));
    found
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

    fn closely_of(text: &str, change: impl FnOnce(&mut crate::case::Draft)) -> PowerCertainty {
        let mut draft = crate::case_file::read(text).unwrap();
        change(&mut draft);
        let plan = Plan::of(&draft, Limits::shipped()).unwrap();
        plan.certainty.unwrap().closely.unwrap()
    }

    /// One formula on target, by hand: SD 0.50 of which a measurement makes 0.30 leaves √(0.25 − 0.045)
    /// = 0.452769 when measured again. Within ±0.50 D lie 2Φ(1) − 1 = 68.2689 % before and
    /// 2Φ(1.104316) − 1 = 73.0544 % after (any table).
    #[test]
    fn a_repeat_gains_what_half_its_variance_gains() {
        let text = include_str!("../../../../demo-data/cases/hard-and-shallow.ron");
        let mut closely = closely_of(text, |_| {});
        let (formula, mut prediction) = closely.predictions.swap_remove(0);
        prediction.linear.refraction = Diopters::new(-0.5);
        prediction.variances = [0.0; crate::certainty::SOURCES];
        prediction.variances[ErrorSource::Unexplained as usize] = 0.16;
        prediction.variances[ErrorSource::CornealPower as usize] = 0.09;
        let predictions = [(formula, prediction)];
        let budget = Budget::of(&predictions).unwrap();
        let found = repeats(&predictions, &budget, HundredthDiopters::new(-50));
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].source, ErrorSource::CornealPower);
        assert!((found[0].chance - 0.682_689).abs() < 1e-6);
        assert!((found[0].repeated - 0.730_544).abs() < 1e-6, "{found:?}");
        assert!(found[0].is_worth_it());
    }

    /// Optical biometry has little to gain; a length by contact ultrasound, 0.14 mm off, is worth
    /// repeating before anything else.
    #[test]
    fn a_poor_length_is_worth_repeating_and_good_biometry_is_not() {
        let text = include_str!("../../../../demo-data/cases/ordinary-eye.ron");
        let good = closely_of(text, |_| {});
        assert!(!good.repeats.is_empty());
        assert_eq!(good.worth_repeating().count(), 0, "{:?}", good.repeats);
        let poor = closely_of(text, |draft| {
            let eye = draft.eyes.get_mut(draft.operation.eye.unwrap());
            eye.axial_length.as_mut().unwrap().spread = Some(Micrometers::new(140));
        });
        let first = poor.worth_repeating().next().unwrap();
        assert_eq!(first.source, ErrorSource::AxialLength);
    }
}
