//! The second eye: what the first eye's prediction error says of it, offered under published
//! conditions, shown beside the unrefined prediction, and never put in its place.
//!
//! # Equation
//!
//! ```text
//! refined = predicted + 0.50 · PE₁        PE₁ = achieved SE − predicted SE of the first eye
//! ```
//!
//! The first eye's numbers enter a prediction only here, and only as this share of its error; its
//! lens power enters nothing.

use core::cmp::Ordering;

use crate::biometry::{CornealSurgery, EarlierOperation, EyeRecord, Fellow, Operated, Side};
use crate::case::{Draft, SecondEyeChoice};
use crate::evidence::{CLINICAL_NOTES, HOUSE, SECOND_EYE_206, Source, Standing};
use crate::iol_power::Formula;
use crate::iol_power::ladder::Ladder;
use crate::limits::Limits;
use crate::quantity::{Diopters, HundredthDiopters};
use crate::rules::Unsigned;

/// Share of the first eye's prediction error that the refinement adds, [-]. Source: [`SOURCE`].
pub const SHARE: f64 = 0.50;

/// What was published of the refinement.
pub const SOURCE: Source = Source {
    work: SECOND_EYE_206,
    locator: "mean absolute prediction error 0.44 D unrefined, 0.36 D with 50 %, 0.42 D with full correction",
    standing: Standing::Printed,
};

/// How a prediction error is counted, said wherever one is shown.
pub const ERROR_CONVENTION: &str = "prediction error: achieved less predicted spherical equivalent";

pub(crate) const MEAN_K: Source = Source {
    work: CLINICAL_NOTES,
    locator: "not when K differs by more than 0.60 D",
    standing: Standing::Secondary,
};

pub(crate) const COMPLICATED: Source = Source {
    work: CLINICAL_NOTES,
    locator: "not after a complicated first operation",
    standing: Standing::Secondary,
};

pub(crate) const SAME_FORMULA: Source = Source {
    work: HOUSE,
    locator: "an error belongs to the formula that made it",
    standing: Standing::Assumption,
};

pub(crate) const UNTOUCHED_CORNEAS: Source = Source {
    work: HOUSE,
    locator: "predictions after corneal refractive surgery err in their own way",
    standing: Standing::Assumption,
};

/// One thing that must hold before the refinement is offered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Condition {
    /// What must hold.
    pub asks: String,
    /// Whether it does.
    pub outcome: Outcome,
    /// Where the condition comes from.
    pub source: Source,
}

/// Whether a condition holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It holds.
    Met {
        /// What was found, in words.
        found: String,
    },
    /// It does not hold.
    NotMet {
        /// What was found, in words.
        found: String,
    },
    /// Nobody recorded what it asks for.
    CannotBeTold {
        /// What is missing.
        missing: &'static str,
    },
}

/// Whether the refinement is offered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Offer {
    /// Every condition is met.
    Offered,
    /// A condition is not met.
    ConditionNotMet,
    /// No condition fails, but one cannot be told.
    CannotBeTold,
}

/// The refinement for one plan.
#[derive(Clone, Debug, PartialEq)]
pub struct SecondEyeRefinement {
    /// The eye that was operated on before.
    pub first_eye: Side,
    /// Its prediction error in words, without a sign that could be copied.
    pub error: String,
    /// Every condition with its outcome.
    pub conditions: Vec<Condition>,
    /// Whether it is offered.
    pub offer: Offer,
    /// What was decided; nothing while nobody did.
    pub choice: Option<SecondEyeChoice>,
    /// The refined predictions; nothing unless the refinement is offered.
    pub refined: Option<Refined>,
}

/// Refined predictions beside the unrefined ones.
#[derive(Clone, Debug, PartialEq)]
pub struct Refined {
    /// The formula planned by, which the first eye's error is of.
    pub formula: Formula,
    /// What the refinement adds to every prediction.
    pub shift: Diopters,
    /// The chosen power, on the ladder or off it.
    pub chosen: Option<Pair>,
    /// Every power of the ladder that the formula answers for.
    pub rungs: Vec<Pair>,
    /// Power that the convention proposes: the plan's proposal, whatever was chosen here.
    pub proposed_unrefined: Option<HundredthDiopters>,
    /// Power that the convention would propose for the refined predictions.
    pub proposed_refined: Option<HundredthDiopters>,
}

/// Both predictions for one power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// The power as labeled.
    pub power: HundredthDiopters,
    /// As the ladder has it.
    pub unrefined: Diopters,
    /// With the share of the first eye's error.
    pub refined: Diopters,
}

impl Condition {
    fn new(asks: impl Into<String>, outcome: Outcome, source: Source) -> Self {
        Self {
            asks: asks.into(),
            outcome,
            source,
        }
    }
}

impl Outcome {
    fn met(found: impl Into<String>) -> Self {
        let found = found.into();
        Self::Met { found }
    }

    fn not_met(found: impl Into<String>) -> Self {
        let found = found.into();
        Self::NotMet { found }
    }

    const fn untold(missing: &'static str) -> Self {
        Self::CannotBeTold { missing }
    }
}

impl Offer {
    /// What the conditions come to.
    #[must_use]
    pub fn of(conditions: &[Condition]) -> Self {
        let any = |is: fn(&Outcome) -> bool| conditions.iter().any(|one| is(&one.outcome));
        if any(|outcome| matches!(outcome, Outcome::NotMet { .. })) {
            Self::ConditionNotMet
        } else if any(|outcome| matches!(outcome, Outcome::CannotBeTold { .. })) {
            Self::CannotBeTold
        } else {
            Self::Offered
        }
    }
}

impl SecondEyeRefinement {
    /// The refinement for the eye on `side`; nothing if no operation of the other is recorded.
    #[must_use]
    pub fn of(draft: &Draft, side: Side, ladder: Option<&Ladder>, limits: &Limits) -> Option<Self> {
        let (operated, fellow) = draft.eyes.split(side);
        let earlier = fellow.0.earlier_operation.as_ref()?;
        let planned_by = draft.lens.formula;
        let conditions = conditions(operated, fellow, planned_by, limits)?;
        let offer = Offer::of(&conditions);
        let refined = match (offer, planned_by) {
            (Offer::Offered, Some(formula)) => Some(Refined::of(draft, formula, earlier, ladder)),
            _ => None,
        };
        Some(Self {
            first_eye: side.other(),
            error: error_in_words(earlier),
            conditions,
            offer,
            choice: draft.lens.second_eye,
            refined,
        })
    }
}

impl Refined {
    fn of(
        draft: &Draft,
        formula: Formula,
        earlier: &EarlierOperation,
        ladder: Option<&Ladder>,
    ) -> Self {
        let shift = Diopters::new(SHARE * earlier.prediction_error().diopters().d());
        let pair = |power| {
            let unrefined = ladder?.predicted(formula, power)?;
            Some(Pair {
                power,
                unrefined,
                refined: unrefined + shift,
            })
        };
        let answer = ladder
            .and_then(|ladder| ladder.column(formula))
            .and_then(|column| column.answer.as_ref().ok());
        let proposed_refined = || {
            let powers = &draft.lens.record.as_ref()?.powers;
            ladder?.proposed_with_shift(formula, powers, draft.lens.convention?, shift)
        };
        Self {
            formula,
            shift,
            chosen: draft.lens.power.and_then(pair),
            rungs: ladder
                .iter()
                .flat_map(|ladder| &ladder.rungs)
                .filter_map(|rung| pair(rung.power))
                .collect(),
            proposed_unrefined: answer.and_then(|answer| answer.proposed),
            proposed_refined: proposed_refined(),
        }
    }
}

/// The conditions; nothing if no operation of the fellow eye is recorded.
#[must_use]
pub fn conditions(
    operated: Operated<&EyeRecord>,
    fellow: Fellow<&EyeRecord>,
    planned_by: Option<Formula>,
    limits: &Limits,
) -> Option<Vec<Condition>> {
    let earlier = fellow.0.earlier_operation.as_ref()?;
    let eyes = [operated.0, fellow.0];
    Some(vec![
        mean_k(eyes, limits),
        uncomplicated(earlier),
        same_formula(earlier, planned_by),
        untouched_corneas(eyes),
    ])
}

/// The first eye's prediction error in words: size and direction, no sign.
#[must_use]
pub fn error_in_words(earlier: &EarlierOperation) -> String {
    let error = earlier.prediction_error();
    let size = Unsigned(HundredthDiopters::new(error.hundredths().abs()));
    match error.hundredths().cmp(&0) {
        Ordering::Less => format!("{size} more myopic than predicted"),
        Ordering::Equal => "as predicted".to_owned(),
        Ordering::Greater => format!("{size} more hyperopic than predicted"),
    }
}

fn mean_k(eyes: [&EyeRecord; 2], limits: &Limits) -> Condition {
    let limit = Unsigned(limits.second_eye_k_difference);
    let powers = eyes.map(|eye| Some(eye.keratometry.as_ref()?.value.mean_power()));
    let apart = match powers {
        [Some(this), Some(first)] => Unsigned::apart(this, first),
        _ => None,
    };
    let outcome = match apart {
        Some(apart) if apart <= limit => Outcome::met(format!("{apart} apart")),
        Some(apart) => Outcome::not_met(format!("{apart} apart")),
        None => Outcome::untold("keratometry of both eyes"),
    };
    let asks = format!("mean K of the eyes differs by at most {limit}");
    Condition::new(asks, outcome, MEAN_K)
}

fn uncomplicated(earlier: &EarlierOperation) -> Condition {
    let outcome = match earlier.complicated {
        Some(false) => Outcome::met("as recorded"),
        Some(true) => Outcome::not_met("it was"),
        None => Outcome::untold("whether it was complicated"),
    };
    let asks = "the first operation was not complicated";
    Condition::new(asks, outcome, COMPLICATED)
}

fn same_formula(earlier: &EarlierOperation, planned_by: Option<Formula>) -> Condition {
    let outcome = match (earlier.formula, planned_by) {
        (Some(first), Some(planned)) if first == planned => Outcome::met(planned.name()),
        (Some(first), Some(planned)) => {
            Outcome::not_met(format!("{} there, {} here", first.name(), planned.name()))
        }
        (None, _) => Outcome::untold("formula of the first prediction"),
        (_, None) => Outcome::untold("formula this plan goes by"),
    };
    let asks = "the first eye was predicted by the formula this plan goes by";
    Condition::new(asks, outcome, SAME_FORMULA)
}

fn untouched_corneas(eyes: [&EyeRecord; 2]) -> Condition {
    let was_done = eyes.map(|eye| match eye.state.corneal_surgery {
        None => None,
        Some(CornealSurgery::Absent) => Some(false),
        Some(CornealSurgery::Done { .. }) => Some(true),
    });
    let outcome = match was_done {
        [Some(true), Some(true)] => Outcome::not_met("both eyes had"),
        [Some(true), _] => Outcome::not_met("this eye had"),
        [_, Some(true)] => Outcome::not_met("the first eye had"),
        [Some(false), Some(false)] => Outcome::met("neither had"),
        _ => Outcome::untold("corneal surgery of both eyes"),
    };
    let asks = "neither eye had corneal refractive surgery";
    Condition::new(asks, outcome, UNTOUCHED_CORNEAS)
}

#[cfg(test)]
mod tests;
