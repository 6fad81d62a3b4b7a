//! What was computed, as it stood when the plan was signed: plain numbers and words, with the unit
//! in each name. A later program shows these, whatever it would compute itself.

mod freeze;
mod freeze_toric;

use serde::{Deserialize, Serialize};

use crate::rules::risk::{OddsFactor, RiskItem};
use crate::rules::{Severity, Verdict};

/// Frozen results. Names are permanent; later versions may add some, which older plans lack.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Results {
    /// Age on the planned day.
    pub age_years: Option<i32>,
    /// Key of the formula planned by.
    pub planned_by: Option<String>,
    /// What that formula predicts for the chosen power, at the spectacle plane.
    pub predicted_d: Option<f64>,
    /// The same with its spread; nothing where a spread is missing.
    pub planned: Option<Spread>,
    /// All formulas that answer, together.
    pub pooled: Option<Spread>,
    /// Every formula shown.
    pub formulas: Vec<FormulaResult>,
    /// The ladder, rising.
    pub rungs: Vec<RungResult>,
    /// Prediction refined by the first eye's error, where it is offered.
    pub refined_d: Option<f64>,
    /// Whether the refined one was `refined` chosen or `unrefined`.
    pub second_eye: Option<String>,
    /// Astigmatism, by the formula planned by.
    pub toric: ToricResult,
    /// The spare lens in the bag.
    pub spare: Vec<ReserveResult>,
    /// The spare lens in the sulcus.
    pub sulcus: Vec<SulcusResult>,
    /// How far forward of the bag a lens in the sulcus is taken to sit.
    pub sulcus_shift_mm: Option<f64>,
    /// The lens for the anterior chamber.
    pub chamber_lens: Vec<ReserveResult>,
    /// Every rule, in the order of the registry.
    pub rules: Vec<RuleResult>,
    /// The chamber section.
    pub section: Option<SectionResult>,
    /// Room over the pieces.
    pub room: Vec<RoomResult>,
    /// Risk points.
    pub risk: RiskResult,
    /// Printed odds ratios of capsule rupture.
    pub odds_ratios: Vec<OddsResult>,
}

/// A prediction with its spread.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spread {
    /// Mean.
    pub mean_d: f64,
    /// Standard deviation.
    pub deviation_d: f64,
    /// 50 % interval.
    pub interval_50_d: [f64; 2],
    /// 80 % interval.
    pub interval_80_d: [f64; 2],
    /// 95 % interval.
    pub interval_95_d: [f64; 2],
    /// Chances to end within 0.25, 0.50 and 1.00 D of the target.
    pub chance_within: [f64; 3],
    /// Chance to end over +0.50 D.
    pub chance_hyperopic: f64,
}

/// One formula.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FormulaResult {
    /// Its key.
    pub formula: String,
    /// Its name.
    pub name: String,
    /// Where it comes from, with its standing.
    pub source: String,
    /// What is dubious about its answer.
    pub cautions: Vec<String>,
    /// Why it has none.
    pub refusal: Option<String>,
    /// Lens position.
    pub lens_position_mm: Option<f64>,
    /// Power that would meet the target exactly.
    pub exact_power_d: Option<f64>,
    /// Power the convention proposes.
    pub proposed_power_d: Option<f64>,
    /// Predicted for the chosen power.
    pub predicted_d: Option<f64>,
    /// Standard deviation of that.
    pub deviation_d: Option<f64>,
}

/// One rung of the ladder.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RungResult {
    /// The power.
    pub power_d: f64,
    /// Predicted refraction, in the order of the formulas.
    pub predicted_d: Vec<Option<f64>>,
}

/// One formula's answer for a lens that lies ready.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReserveResult {
    /// Key of the formula.
    pub formula: String,
    /// Why it has none.
    pub refusal: Option<String>,
    /// Power that would meet the target exactly.
    pub exact_power_d: Option<f64>,
    /// Power the convention proposes.
    pub proposed_power_d: Option<f64>,
    /// Predicted for the power chosen for that lens.
    pub predicted_d: Option<f64>,
}

/// One formula's power for the sulcus.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SulcusResult {
    /// Key of the formula.
    pub formula: String,
    /// Exact power in the bag.
    pub bag_power_d: f64,
    /// By the stepwise rule: from, to.
    pub stepwise_d: Option<[f64; 2]>,
    /// By the rule of five percent.
    pub five_percent_d: Option<f64>,
    /// By vergence.
    pub vergence_d: Option<f64>,
    /// Why vergence has none.
    pub vergence_refusal: Option<String>,
}

/// Astigmatism by the formula planned by.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ToricResult {
    /// Why it has no answer.
    pub refusal: Option<String>,
    /// What is dubious about it.
    pub cautions: Vec<String>,
    /// Astigmatism of the cornea after the operation.
    pub cornea_d: Option<f64>,
    /// Its steep meridian.
    pub steep_degrees: Option<f64>,
    /// Suggested axis of the marks.
    pub suggested_axis_degrees: Option<u16>,
    /// Cylinder at the lens plane that would leave none.
    pub exact_cylinder_d: Option<f64>,
    /// No cylinder first, then every cylinder the lens is made in.
    pub steps: Vec<ToricStep>,
    /// The chosen cylinder at the chosen axis.
    pub chosen: Option<ToricStep>,
    /// What the chosen one leaves when it turns.
    pub rotations: Vec<RotationResult>,
}

/// One cylinder.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ToricStep {
    /// At the lens plane; nothing for the same power without one.
    pub cylinder_d: Option<f64>,
    /// Where its marks stand.
    pub axis_degrees: Option<u16>,
    /// What it leaves.
    pub residual: Option<ResidualResult>,
    /// Why that is not known.
    pub refusal: Option<String>,
    /// Chances to leave at most 0.25, 0.50, 0.75 and 1.00 D.
    pub chances: Option<[f64; 4]>,
}

/// A refraction that is left, at the spectacle plane, with a cylinder that is zero or negative.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ResidualResult {
    /// Sphere.
    pub sphere_d: f64,
    /// Cylinder.
    pub cylinder_d: f64,
    /// Axis; nothing where there is no cylinder.
    pub axis_degrees: Option<f64>,
}

/// What a turn leaves.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RotationResult {
    /// The turn.
    pub turn_degrees: u16,
    /// After a turn counter-clockwise.
    pub counter_clockwise: ResidualResult,
    /// After a turn clockwise.
    pub clockwise: ResidualResult,
}

/// One rule.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RuleResult {
    /// Its permanent id.
    pub id: String,
    /// What a finding asks for.
    pub severity: Severity,
    /// What it says.
    pub verdict: Verdict,
    /// The reason that stands for a finding.
    pub reason: Option<String>,
    /// Who recorded that.
    pub by: Option<String>,
}

/// The chamber section.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SectionResult {
    /// Front radius of the cornea.
    pub front_radius_mm: f64,
    /// Back radius of the cornea.
    pub back_radius_mm: f64,
    /// Whether that was measured.
    pub back_radius_measured: bool,
    /// Corneal thickness.
    pub endothelium_mm: f64,
    /// Lens front.
    pub pupil_plane_mm: f64,
    /// Endothelium to lens front.
    pub aqueous_depth_mm: f64,
    /// Corneal diameter.
    pub corneal_diameter_mm: Option<f64>,
    /// Pupil.
    pub pupil_diameter_mm: Option<f64>,
    /// Back of the lens.
    pub lens_back_mm: Option<f64>,
}

/// Room over the pieces of one division.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoomResult {
    /// Number of pieces.
    pub pieces: u8,
    /// Largest dimension of the longest.
    pub largest_dimension_mm: f64,
    /// Room over one that turns, on the axis.
    pub turning_mm: f64,
    /// The same 2 mm off the axis.
    pub turning_off_axis_mm: Option<f64>,
    /// Room over one that stands.
    pub standing_mm: f64,
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
}

/// A printed odds ratio.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OddsResult {
    /// What raises the odds.
    pub factor: OddsFactor,
    /// By how much.
    pub ratio: f64,
    /// Whether it applies; nothing if that cannot be told.
    pub applies: Option<bool>,
}
