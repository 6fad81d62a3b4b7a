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

use crate::biometry::{CornealSurgery, EarlierOperation, EyeRecord, Fellow, Operated, Side};
use crate::case::{Draft, LensPlan};
use crate::choice::SecondEyeChoice;
use crate::evidence::{CLINICAL_NOTES, HOUSE, SECOND_EYE_206, Source, Standing};
use crate::finding::{Asks, Found, Lacking, Outcome};
use crate::iol_power::Formula;
use crate::iol_power::ladder::Ladder;
use crate::limits::Limits;
use crate::quantity::{Diopters, HundredthDiopters, ThousandthDiopters};

/// Share of the first eye's prediction error that the refinement adds, [-]. Source: [`SOURCE`].
pub const SHARE: f64 = 0.50;

/// What was published of the refinement.
pub const SOURCE: Source = Standing::Printed.of(SECOND_EYE_206, "mean absolute prediction error 0.44 D unrefined, 0.36 D with 50 %, 0.42 D with full correction");

pub(crate) const MEAN_K: Source =
    Standing::Secondary.of(CLINICAL_NOTES, "not when K differs by more than 0.60 D");

pub(crate) const COMPLICATED: Source =
    Standing::Secondary.of(CLINICAL_NOTES, "not after a complicated first operation");

pub(crate) const SAME_FORMULA: Source =
    Standing::Assumption.of(HOUSE, "an error belongs to the formula that made it");

pub(crate) const UNTOUCHED_CORNEAS: Source = Standing::Assumption.of(
    HOUSE,
    "predictions after corneal refractive surgery err in their own way",
);

pub(crate) const SMALL_ERROR: Source = Standing::Assumption.of(
    HOUSE,
    "over 1.50 D there is a cause to be found, which may not be the eye",
);

pub(crate) const LENGTHS: Source =
    Standing::Assumption.of(HOUSE, "eyes that differ by more than 0.30 mm are not alike");

pub(crate) const SAME_MODEL: Source =
    Standing::Assumption.of(HOUSE, "an error belongs to the lens that made it");

/// Where the conditions come from, all of them.
pub(crate) const SOURCES: &[Source] = &[
    SOURCE,
    MEAN_K,
    COMPLICATED,
    SAME_FORMULA,
    UNTOUCHED_CORNEAS,
    SMALL_ERROR,
    LENGTHS,
    SAME_MODEL,
];

/// Names of the limits that the conditions read.
pub(crate) const LIMITS: &[&str] = &[
    "second_eye_k_difference",
    "second_eye_error",
    "second_eye_length_difference",
];

/// One thing that must hold before the refinement is offered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Condition {
    pub asks: Asks,
    pub outcome: Outcome,
}

impl Asks {
    /// Where the condition comes from.
    pub const fn source(self) -> Source {
        match self {
            Self::MeanK(_) => MEAN_K,
            Self::Uncomplicated => COMPLICATED,
            Self::SameFormula => SAME_FORMULA,
            Self::UntouchedCorneas => UNTOUCHED_CORNEAS,
            Self::SmallError(_) => SMALL_ERROR,
            Self::Lengths(_) => LENGTHS,
            Self::SameModel => SAME_MODEL,
        }
    }
}

/// Whether the refinement is offered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Offer {
    Offered,
    /// A condition is not met.
    ConditionNotMet,
    /// No condition fails, but one cannot be told.
    CannotBeTold,
}

/// The refinement for one plan.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SecondEyeRefinement {
    /// The eye that was operated on before.
    pub first_eye: Side,
    /// Its prediction error, achieved less predicted: shown in words, without a sign that could be
    /// copied.
    #[serde(rename = "first_eye_error_thousandths_d")]
    pub error: ThousandthDiopters,
    /// Every condition with its outcome.
    pub conditions: Vec<Condition>,
    pub offer: Offer,
    /// What was decided; nothing while nobody did.
    pub choice: Option<SecondEyeChoice>,
    /// The refined predictions; nothing unless the refinement is offered.
    pub refined: Option<Refined>,
}

/// Refined predictions beside the unrefined ones.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Refined {
    /// The formula planned by, which the first eye's error is of.
    pub formula: Formula,
    /// What the refinement adds to every prediction.
    #[serde(rename = "shift_d")]
    pub shift: Diopters,
    /// The chosen power, on the ladder or off it.
    pub chosen: Option<Pair>,
    /// Every power of the ladder that the formula answers for.
    pub rungs: Vec<Pair>,
    /// Power that the convention proposes: the plan's proposal, whatever was chosen here.
    #[serde(
        rename = "proposed_unrefined_power_d",
        with = "crate::quantity::as_diopters::option"
    )]
    pub proposed_unrefined: Option<HundredthDiopters>,
    /// Power that the convention would propose for the refined predictions.
    #[serde(
        rename = "proposed_refined_power_d",
        with = "crate::quantity::as_diopters::option"
    )]
    pub proposed_refined: Option<HundredthDiopters>,
}

/// Both predictions for one power.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pair {
    #[serde(rename = "power_d", with = "crate::quantity::as_diopters")]
    pub power: HundredthDiopters,
    /// As the ladder has it.
    #[serde(rename = "unrefined_refraction_d")]
    pub unrefined: Diopters,
    /// With the share of the first eye's error.
    #[serde(rename = "refined_refraction_d")]
    pub refined: Diopters,
}

impl Offer {
    pub fn of(conditions: &[Condition]) -> Self {
        let any = |is: fn(&Outcome) -> bool| conditions.iter().any(|one| is(&one.outcome));
        if any(|outcome| matches!(outcome, Outcome::NotMet(_))) {
            Self::ConditionNotMet
        } else if any(|outcome| matches!(outcome, Outcome::CannotBeTold(_))) {
            Self::CannotBeTold
        } else {
            Self::Offered
        }
    }
}

impl SecondEyeRefinement {
    /// The refinement for the eye on `side`; nothing if no operation of the other is recorded.
    pub fn of(draft: &Draft, side: Side, ladder: Option<&Ladder>, limits: &Limits) -> Option<Self> {
        let (operated, fellow) = draft.eyes.split(side);
        let earlier = fellow.0.earlier_operation.as_ref()?;
        let planned_by = draft.lens.formula;
        let conditions = conditions(operated, fellow, &draft.lens, limits)?;
        let offer = Offer::of(&conditions);
        let refined = match (offer, planned_by) {
            (Offer::Offered, Some(formula)) => Some(Refined::of(draft, formula, earlier, ladder)),
            _ => None,
        };
        Some(Self {
            first_eye: side.other(),
            error: earlier.prediction_error(),
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
            let powers = &draft.lens.record()?.powers;
            ladder?.proposed_with_shift(formula, powers, draft.lens.convention?, shift)
        };
        Self {
            formula,
            shift,
            chosen: draft.lens.power().and_then(pair),
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
pub fn conditions(
    operated: Operated<&EyeRecord>,
    fellow: Fellow<&EyeRecord>,
    lens: &LensPlan,
    limits: &Limits,
) -> Option<Vec<Condition>> {
    let earlier = fellow.0.earlier_operation.as_ref()?;
    let eyes = [operated.0, fellow.0];
    Some(vec![
        mean_k(eyes, limits),
        uncomplicated(earlier),
        same_formula(earlier, lens.formula),
        untouched_corneas(eyes),
        small_error(earlier, limits),
        lengths(eyes, limits),
        same_model(earlier, lens),
    ])
}

fn mean_k(eyes: [&EyeRecord; 2], limits: &Limits) -> Condition {
    let limit = limits.second_eye_k_difference;
    let powers = eyes.map(|eye| Some(eye.keratometry.as_ref()?.value.mean_power()));
    let apart = match powers {
        [Some(this), Some(first)] => this.apart(first),
        _ => None,
    };
    Condition {
        asks: Asks::MeanK(limit),
        outcome: match apart.map(Found::Apart) {
            Some(found) if apart <= Some(limit) => Outcome::Met(found),
            Some(found) => Outcome::NotMet(found),
            None => Outcome::CannotBeTold(Lacking::Keratometry),
        },
    }
}

const fn uncomplicated(earlier: &EarlierOperation) -> Condition {
    Condition {
        asks: Asks::Uncomplicated,
        outcome: match earlier.complicated {
            Some(false) => Outcome::Met(Found::Uncomplicated),
            Some(true) => Outcome::NotMet(Found::Complicated),
            None => Outcome::CannotBeTold(Lacking::Course),
        },
    }
}

fn same_formula(earlier: &EarlierOperation, planned_by: Option<Formula>) -> Condition {
    Condition {
        asks: Asks::SameFormula,
        outcome: match (earlier.formula, planned_by) {
            (Some(first), Some(here)) if first == here => Outcome::Met(Found::Formula(here)),
            (Some(first), Some(here)) => Outcome::NotMet(Found::Formulas { first, here }),
            (None, _) => Outcome::CannotBeTold(Lacking::FirstFormula),
            (_, None) => Outcome::CannotBeTold(Lacking::Formula),
        },
    }
}

/// An error so large has a cause of its own, which a share of it would hide.
fn small_error(earlier: &EarlierOperation, limits: &Limits) -> Condition {
    let (limit, error) = (limits.second_eye_error, earlier.prediction_error());
    let found = Found::Error(error);
    Condition {
        asks: Asks::SmallError(limit),
        outcome: if error.abs() <= limit.into() {
            Outcome::Met(found)
        } else {
            Outcome::NotMet(found)
        },
    }
}

fn lengths(eyes: [&EyeRecord; 2], limits: &Limits) -> Condition {
    let limit = limits.second_eye_length_difference;
    let lengths = eyes.map(|eye| Some(eye.axial_length.as_ref()?.value.get()));
    let apart = match lengths {
        [Some(this), Some(first)] => Some(this.abs_diff(first)),
        _ => None,
    };
    Condition {
        asks: Asks::Lengths(limit),
        outcome: match apart {
            Some(apart) if apart <= limit => Outcome::Met(Found::LengthsApart(apart)),
            Some(apart) => Outcome::NotMet(Found::LengthsApart(apart)),
            None => Outcome::CannotBeTold(Lacking::AxialLength),
        },
    }
}

fn same_model(earlier: &EarlierOperation, lens: &LensPlan) -> Condition {
    Condition {
        asks: Asks::SameModel,
        outcome: match (earlier.lens_model.as_deref(), lens.record()) {
            (None, _) => Outcome::CannotBeTold(Lacking::FirstModel),
            (_, None) => Outcome::CannotBeTold(Lacking::Lens),
            (Some(first), Some(here)) if first.trim() == here.model.trim() => {
                Outcome::Met(Found::SameModel)
            }
            (Some(_), Some(_)) => Outcome::NotMet(Found::OtherModel),
        },
    }
}

fn untouched_corneas(eyes: [&EyeRecord; 2]) -> Condition {
    let was_done = eyes.map(|eye| match eye.state.corneal_surgery {
        None => None,
        Some(CornealSurgery::Absent) => Some(false),
        Some(CornealSurgery::Done { .. }) => Some(true),
    });
    Condition {
        asks: Asks::UntouchedCorneas,
        outcome: match was_done {
            [Some(true), Some(true)] => Outcome::NotMet(Found::BothCorneas),
            [Some(true), _] => Outcome::NotMet(Found::ThisCornea),
            [_, Some(true)] => Outcome::NotMet(Found::FirstCornea),
            [Some(false), Some(false)] => Outcome::Met(Found::NeitherCornea),
            _ => Outcome::CannotBeTold(Lacking::CornealSurgery),
        },
    }
}

#[cfg(test)]
mod tests;
