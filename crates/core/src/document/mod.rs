//! The plan as a document: the case as it was entered, the limits in use, and every result. It is
//! what `plan --format json` prints, what a signature freezes, and what the sheet is laid out from.
//!
//! Results are numbers with their unit in the name, and codes; no sentence is among them. What
//! follows from a code alone (a title, a citation, a published constant) stands in the reference
//! under that code. A later program shows these numbers, whatever it would compute itself.

mod certainty;
mod chamber;
mod header;
mod ladder;
mod tendency;
mod toric;
mod toric_certainty;

pub use certainty::{
    CertaintyResult, CloselyResult, FormulaCertainty, OwnScatter, Pooling, RungSpread,
    ScatterResult, SourceResult, SpokenResult, Spread, SpreadOrigin, SpreadUnit,
};
pub use chamber::{ChamberResult, PieceRoom};
pub use header::VERSION;
pub use ladder::{
    BackupResult, FormulaAnswer, FormulaResult, LadderResult, SulcusResult, SulcusResults,
};
pub use tendency::TendencyResult;
pub use toric::{
    Basis, CorneaResult, IncisionResult, PosteriorResult, ResidualResult, ToricAnswer,
    ToricFormula, ToricResult, ToricStep, VectorResult,
};
pub use toric_certainty::{
    ChanceResult, RotationResult, SpreadsResult, SteepIncision, StepCertaintyResult,
};

use serde::{Deserialize, Serialize};

use crate::biometry::{EyeRecord, Keratometry, PerEye, Side};
use crate::case::{Draft, RecordedReason};
use crate::certainty::Withheld;
use crate::finding::HardNucleus;
use crate::iol_power::Formula;
use crate::lens::Place;
use crate::limits::Limits;
use crate::optics::CardinalPoints;
use crate::plan::{Evaluated, LadderMissing, Plan, ReasonState};
use crate::quantity::{Diopters, Meridian, Micrometers, Millimeters};
use crate::rules::risk::{BorderlineDepth, OddsFactor, OddsRatio, RiskItem, RiskPoints};
use crate::rules::{Severity, Verdict};
use crate::second_eye::SecondEyeRefinement;

/// A whole plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanDocument {
    format: header::Format,
    version: header::Version,
    /// Program and version it was computed with.
    pub program: String,
    /// The case as it was entered.
    #[serde(with = "crate::case_file::inside")]
    pub case: Draft,
    /// Every limit it was planned by.
    pub limits: Vec<LimitInUse>,
    /// What was computed.
    pub results: Results,
}

/// A limit as it was in use.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LimitInUse {
    /// Its name.
    pub name: String,
    /// The value in use.
    pub in_use: String,
    /// The value the program shipped with, if another.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shipped: Option<String>,
}

/// An answer, or why there is none.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome<T, R> {
    /// The answer.
    Answer(T),
    /// Why there is none.
    Refusal(R),
}

/// What was computed. Within a version results may be added; none is renamed or removed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Results {
    /// The eye that is operated on.
    pub eye: Side,
    /// Age on the planned day.
    pub age_years: Option<i32>,
    /// Whether a finding stands that forbids signing.
    pub stopped: bool,
    /// What follows from the measurements of each eye.
    pub derived: PerEye<Derived>,
    /// The formula planned by.
    pub planned_by: Option<Formula>,
    /// What that formula predicts for the chosen power, at the spectacle plane.
    pub predicted_d: Option<Diopters>,
    /// Every formula shown, and every power around the target.
    pub ladder: Outcome<LadderResult, LadderMissing>,
    /// How sure that is.
    pub certainty: Option<CertaintyResult>,
    /// What the first eye's prediction error says.
    pub second_eye: Option<SecondEyeRefinement>,
    /// Cardinal points of the thick-lens eye with the chosen power.
    pub thick_eye: Option<CardinalPoints>,
    /// Astigmatism.
    pub toric: ToricResult,
    /// The backup lenses.
    pub backups: Vec<BackupResult>,
    /// Every rule, in the order of the registry.
    pub rules: Vec<RuleResult>,
    /// The chamber to scale, and how near things come in it.
    pub chamber: ChamberResult,
    /// Whether the nucleus counts as hard; nothing in a plan from before that was judged.
    #[serde(default)]
    pub nucleus: Option<HardNucleus>,
    /// Published risk points.
    pub risk: RiskResult,
    /// Printed odds ratios of capsule rupture.
    pub odds_ratios: Vec<OddsResult>,
}

/// What follows from the measurements of an eye.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Derived {
    /// Mean corneal power at index 1.3375.
    pub mean_k_d: Option<Diopters>,
    /// Difference of the two corneal powers at that index.
    pub corneal_astigmatism_d: Option<Diopters>,
    /// The steep meridian as measured.
    pub steep_degrees: Option<Meridian>,
    /// Endothelium to lens front.
    pub aqueous_depth_mm: Option<Millimeters>,
}

/// One rule.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RuleResult {
    /// Its permanent id.
    pub id: String,
    /// The backup lens it is about; nothing for the planned one, and for all else.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub backup: Option<Place>,
    /// What a finding asks for.
    pub severity: Severity,
    /// What it says.
    pub verdict: Verdict,
    /// Whether a reason was recorded for it, among those of the case.
    pub reason: ReasonResult,
}

/// Whether a reason stands for a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ReasonResult {
    /// None was recorded.
    None,
    /// One was recorded for the finding as it is.
    Standing,
    /// One was recorded for another one: it does not count.
    Outdated,
}

/// Risk points.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RiskResult {
    /// Sum.
    pub total: i32,
    /// Sum if everything that was not recorded were present.
    pub at_most: i32,
    /// Items present with their points.
    pub given: Vec<(RiskItem, i32)>,
    /// Items nobody recorded.
    pub not_recorded: Vec<RiskItem>,
    /// A chamber depth too near to its limit to tell; its point stays as measured.
    pub borderline_depth: Option<BorderlineDepth>,
}

/// A printed odds ratio.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OddsResult {
    /// What raises the odds.
    pub factor: OddsFactor,
    /// By how much.
    pub ratio: f64,
    /// Whether it applies; nothing if that cannot be told.
    pub applies: Option<bool>,
    /// Whether it may concern the patient and is not applied since its own limit is not printed.
    pub limit_not_printed: bool,
}

impl PlanDocument {
    /// The document of a plan computed with `program`, a name and a version.
    pub fn of(plan: &Plan, program: &str) -> Self {
        Self {
            format: header::Format::Plan,
            version: header::Version::One,
            program: program.to_owned(),
            case: plan.draft.without_list_number(),
            limits: limits_in_use(&plan.limits),
            results: Results::of(plan),
        }
    }

    /// The limits that differed from those the program shipped with.
    pub fn changed_limits(&self) -> impl Iterator<Item = &LimitInUse> {
        self.limits.iter().filter(|limit| limit.shipped.is_some())
    }

    /// The reason recorded for a rule, whether it stands or not.
    pub fn reason(&self, rule: &RuleResult) -> Option<&RecordedReason> {
        let mut reasons = self.case.reasons.iter();
        reasons.find(|reason| reason.is_for(&rule.id, rule.backup))
    }
}

fn limits_in_use(limits: &Limits) -> Vec<LimitInUse> {
    let shipped = Limits::shipped().entries();
    let pairs = limits.entries().into_iter().zip(shipped);
    pairs
        .map(|((name, in_use), (_, shipped))| LimitInUse {
            name: name.to_owned(),
            shipped: (shipped != in_use).then_some(shipped),
            in_use,
        })
        .collect()
}

impl<T, R> Outcome<T, R> {
    /// The answer.
    pub const fn answer(&self) -> Option<&T> {
        match self {
            Self::Answer(answer) => Some(answer),
            Self::Refusal(_) => None,
        }
    }

    /// Why there is none.
    pub const fn refusal(&self) -> Option<&R> {
        match self {
            Self::Answer(_) => None,
            Self::Refusal(refusal) => Some(refusal),
        }
    }

    /// Of a result, as the document has its answer.
    fn of<U>(result: &Result<U, R>, answer: impl FnOnce(&U) -> T) -> Self
    where
        R: Clone,
    {
        match result {
            Ok(found) => Self::Answer(answer(found)),
            Err(refusal) => Self::Refusal(refusal.clone()),
        }
    }
}

impl Results {
    fn of(plan: &Plan) -> Self {
        let lens = &plan.draft.lens;
        let eyes = &plan.draft.eyes;
        Self {
            eye: plan.side,
            age_years: plan.age,
            stopped: plan.is_stopped(),
            derived: PerEye {
                right: Derived::of(&eyes.right),
                left: Derived::of(&eyes.left),
            },
            planned_by: lens.formula,
            predicted_d: plan.predicted_for_chosen(),
            ladder: Outcome::of(&plan.ladder, |ladder| {
                LadderResult::of(ladder, lens.power())
            }),
            certainty: plan
                .ladder
                .as_ref()
                .ok()
                .and_then(|ladder| Some(CertaintyResult::of(ladder, plan.certainty.as_ref()?))),
            second_eye: plan.second_eye.clone(),
            thick_eye: plan.thick_eye,
            toric: ToricResult::of(plan),
            backups: BackupResult::all(plan),
            rules: plan.rules.iter().map(RuleResult::of).collect(),
            chamber: ChamberResult::of(plan),
            nucleus: Some(plan.nucleus),
            risk: RiskResult::of(&plan.risk),
            odds_ratios: plan
                .odds_ratios
                .iter()
                .copied()
                .map(OddsResult::of)
                .collect(),
        }
    }

    /// The distribution of the chosen power by the formula planned by; nothing where a spread is
    /// missing.
    pub fn planned_spread(&self) -> Option<&Spread> {
        let closely = self.certainty.as_ref()?.closely.as_ref()?;
        closely.of_chosen(self.planned_by?)
    }

    /// Why no range is stated of this eye, if none is: the first reason.
    pub fn withheld(&self) -> Option<Withheld> {
        self.certainty.as_ref()?.withheld.first().copied()
    }

    /// What the formula planned by is known to tend to in this eye.
    pub fn planned_tendencies(&self) -> &[TendencyResult] {
        let formulas = self.certainty.iter().flat_map(|it| &it.formulas);
        let mut planned = formulas.filter(|one| Some(one.formula) == self.planned_by);
        planned.next().map_or(&[], |one| one.tendencies.as_slice())
    }
}

impl Derived {
    /// What follows from these measurements.
    pub fn of(eye: &EyeRecord) -> Self {
        let k = eye.keratometry.as_ref().map(|measured| &measured.value);
        Self {
            mean_k_d: k.map(Keratometry::mean_power),
            corneal_astigmatism_d: k.map(|k| k.radii().astigmatism()),
            steep_degrees: k.map(|k| k.steep.meridian),
            aqueous_depth_mm: eye.aqueous_depth().map(Micrometers::millimeters),
        }
    }
}

impl RuleResult {
    fn of(evaluated: &Evaluated) -> Self {
        Self {
            id: evaluated.rule.id.to_owned(),
            backup: evaluated.backup,
            severity: evaluated.rule.severity,
            verdict: evaluated.verdict.clone(),
            reason: match evaluated.reason {
                ReasonState::None => ReasonResult::None,
                ReasonState::Standing(_) => ReasonResult::Standing,
                ReasonState::Outdated(_) => ReasonResult::Outdated,
            },
        }
    }
}

impl RiskResult {
    fn of(risk: &RiskPoints) -> Self {
        let given = risk.given.iter();
        Self {
            total: risk.total(),
            at_most: risk.at_most(),
            given: given.map(|item| (*item, item.points())).collect(),
            not_recorded: risk.unknown.clone(),
            borderline_depth: risk.borderline_depth,
        }
    }
}

impl OddsResult {
    fn of(odds: OddsRatio) -> Self {
        Self {
            factor: odds.factor,
            ratio: odds.factor.ratio(),
            applies: odds.applies,
            limit_not_printed: odds.limit_not_printed,
        }
    }
}
