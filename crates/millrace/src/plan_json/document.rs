//! The document, as a type: adding to it is allowed, renaming is not.

use millrace_core::case::Draft;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::{Column, Ladder};
use millrace_core::optics::CardinalPoints;
use millrace_core::plan::{Evaluated, Plan, ReasonState, SulcusPower};
use millrace_core::quantity::{Diopters, HundredthDiopters, Millimeters};
use millrace_core::rules::{Because, Certainty, Detail, Fact, Limit, Missing, Severity, Verdict};
use serde::Serialize;

use super::certainty::CertaintyPart;
use super::risk::{OddsPart, RiskPart};
use super::second_eye::SecondEyePart;
use super::theatre::TheatrePart;
use super::toric::ToricPart;

#[derive(Serialize)]
pub(super) struct Document {
    format: &'static str,
    version: u32,
    program: &'static str,
    patient: Patient,
    eye: &'static str,
    operation_date: Option<String>,
    stopped: bool,
    changed_limits: Vec<ChangedLimit>,
    target_d: Option<f64>,
    consented_target_d: Option<f64>,
    lens: Option<String>,
    chosen_power_d: Option<f64>,
    planned_by: Option<&'static str>,
    predicted_for_chosen_d: Option<f64>,
    ladder: Option<LadderPart>,
    ladder_missing: Option<String>,
    certainty: Option<CertaintyPart>,
    second_eye: Option<SecondEyePart>,
    thick_eye: Option<ThickEye>,
    toric: ToricPart,
    spare: Option<Spare>,
    chamber_lens: Option<LadderPart>,
    approach: Option<String>,
    theatre: TheatrePart,
    risk_points: RiskPart,
    odds_ratios_of_capsule_rupture: Vec<OddsPart>,
    rules: Vec<RulePart>,
    chamber: Chamber,
}

#[derive(Serialize)]
struct Patient {
    name: Option<String>,
    number: Option<String>,
    birth_date: Option<String>,
    age_years: Option<i32>,
}

#[derive(Serialize)]
struct ChangedLimit {
    name: &'static str,
    shipped: String,
    in_use: String,
}

#[derive(Serialize)]
struct LadderPart {
    target_d: f64,
    formulas: Vec<FormulaPart>,
    rungs: Vec<RungPart>,
}

#[derive(Serialize)]
struct FormulaPart {
    formula: &'static str,
    source: String,
    status: &'static str,
    cautions: Vec<String>,
    refusal: Option<String>,
    lens_position_mm: Option<f64>,
    exact_power_d: Option<f64>,
    proposed_power_d: Option<f64>,
}

#[derive(Serialize)]
struct RungPart {
    power_d: f64,
    /// In the order of `formulas`; null where a formula has no answer.
    predicted_refraction_d: Vec<Option<f64>>,
}

/// Cardinal points of the thick-lens eye with the chosen power, from the corneal vertex.
#[derive(Serialize)]
struct ThickEye {
    equivalent_power_d: f64,
    front_focus_mm: f64,
    back_focus_mm: f64,
    front_principal_mm: f64,
    back_principal_mm: f64,
    front_nodal_mm: f64,
    back_nodal_mm: f64,
}

#[derive(Serialize)]
struct Spare {
    lens: Option<String>,
    bag: LadderPart,
    sulcus_shift_mm: f64,
    sulcus: Vec<SulcusPart>,
}

#[derive(Serialize)]
struct SulcusPart {
    formula: &'static str,
    bag_power_d: f64,
    stepwise_from_d: Option<f64>,
    stepwise_to_d: Option<f64>,
    stepwise_is_at_most: Option<bool>,
    five_percent_d: Option<f64>,
    vergence_d: Option<f64>,
    vergence_refusal: Option<String>,
}

#[derive(Serialize)]
struct RulePart {
    id: &'static str,
    title: &'static str,
    severity: Severity,
    verdict: &'static str,
    measured: Option<Fact>,
    limit: Option<Limit>,
    details: Vec<Detail>,
    borderline: bool,
    chance_beyond_limit: Option<f64>,
    because: Option<Because>,
    missing: Option<Missing>,
    reason: Option<String>,
    reason_counts: bool,
    sources: Vec<String>,
}

#[derive(Serialize)]
struct Chamber {
    missing: Option<String>,
    aqueous_depth_mm: Option<f64>,
    posterior_radius_mm: Option<f64>,
    posterior_radius_measured: Option<bool>,
    pieces: Vec<Pieces>,
}

#[derive(Serialize)]
#[expect(
    clippy::struct_field_names,
    reason = "fields have the names of the document"
)]
struct Pieces {
    pieces: u8,
    sectors: u8,
    rings: u8,
    layers: u8,
    largest_dimension_mm: f64,
    room_turning_mm: f64,
    room_turning_2_mm_off_axis_mm: Option<f64>,
    room_standing_mm: f64,
}

impl Document {
    pub(super) fn of(draft: &Draft, plan: &Plan) -> Self {
        let lens = &draft.lens;
        let number = |power: Option<HundredthDiopters>| power.map(|power| power.diopters().d());
        let name = |record: &Option<millrace_core::lens::LensRecord>| {
            record
                .as_ref()
                .map(|record| format!("{}, model {}", record.name, record.model))
        };
        Self {
            format: "millrace plan",
            version: 1,
            program: concat!("millrace ", env!("CARGO_PKG_VERSION")),
            patient: Patient {
                name: draft.patient.name.clone(),
                number: draft.patient.number.clone(),
                birth_date: draft.patient.birth_date.map(|date| date.to_string()),
                age_years: plan.age,
            },
            eye: plan.side.capitals(),
            operation_date: draft.operation.date.map(|date| date.to_string()),
            stopped: plan.is_stopped(),
            changed_limits: plan
                .changed_limits
                .iter()
                .map(|change| ChangedLimit {
                    name: change.name,
                    shipped: change.shipped.clone(),
                    in_use: change.in_use.clone(),
                })
                .collect(),
            target_d: number(lens.target),
            consented_target_d: number(lens.consented_target),
            lens: name(&lens.record),
            chosen_power_d: number(lens.power),
            planned_by: lens.formula.map(Formula::key),
            predicted_for_chosen_d: plan.predicted_for_chosen(draft).map(Diopters::d),
            ladder: plan.ladder.as_ref().ok().map(LadderPart::of),
            ladder_missing: plan.ladder.as_ref().err().map(ToString::to_string),
            certainty: match (&plan.ladder, &plan.certainty) {
                (Ok(ladder), Some(certainty)) => Some(CertaintyPart::of(ladder, certainty)),
                _ => None,
            },
            second_eye: plan.second_eye.as_ref().map(SecondEyePart::of),
            thick_eye: plan.thick_eye.map(ThickEye::of),
            toric: ToricPart::of(draft, plan),
            spare: plan.spare.as_ref().map(|spare| Spare {
                lens: name(&lens.spare),
                bag: LadderPart::of(&spare.bag),
                sulcus_shift_mm: spare.sulcus_shift.millimeters().mm(),
                sulcus: spare.sulcus.iter().map(SulcusPart::of).collect(),
            }),
            chamber_lens: plan.chamber_lens.as_ref().map(LadderPart::of),
            approach: draft.approach.approach.map(|approach| approach.to_string()),
            theatre: TheatrePart::of(draft),
            risk_points: RiskPart::of(&plan.risk),
            odds_ratios_of_capsule_rupture: plan
                .odds_ratios
                .iter()
                .copied()
                .map(OddsPart::of)
                .collect(),
            rules: plan.rules.iter().map(RulePart::of).collect(),
            chamber: Chamber::of(plan),
        }
    }
}

impl ThickEye {
    fn of(points: CardinalPoints) -> Self {
        Self {
            equivalent_power_d: points.power.d(),
            front_focus_mm: points.front_focus.mm(),
            back_focus_mm: points.back_focus.mm(),
            front_principal_mm: points.front_principal.mm(),
            back_principal_mm: points.back_principal.mm(),
            front_nodal_mm: points.front_nodal.mm(),
            back_nodal_mm: points.back_nodal.mm(),
        }
    }
}

impl LadderPart {
    fn of(ladder: &Ladder) -> Self {
        Self {
            target_d: ladder.target.diopters().d(),
            formulas: ladder.columns.iter().map(FormulaPart::of).collect(),
            rungs: ladder
                .rungs
                .iter()
                .map(|rung| RungPart {
                    power_d: rung.power.diopters().d(),
                    predicted_refraction_d: rung
                        .predicted
                        .iter()
                        .map(|refraction| refraction.map(Diopters::d))
                        .collect(),
                })
                .collect(),
        }
    }
}

impl FormulaPart {
    fn of(column: &Column) -> Self {
        let answer = column.answer.as_ref().ok();
        let cautions: Vec<_> = answer
            .map(|answer| {
                answer
                    .cautions
                    .iter()
                    .map(|caution| caution.to_string())
                    .collect()
            })
            .unwrap_or_default();
        Self {
            formula: column.formula.key(),
            source: column.formula.source().to_string(),
            status: match answer {
                None => "refused",
                Some(_) if cautions.is_empty() => "ok",
                Some(_) => "caution",
            },
            cautions,
            refusal: column.answer.as_ref().err().map(ToString::to_string),
            lens_position_mm: answer.map(|answer| answer.eye.lens_position().mm()),
            exact_power_d: answer.map(|answer| answer.exact_power.d()),
            proposed_power_d: answer
                .and_then(|answer| answer.proposed)
                .map(|power| power.diopters().d()),
        }
    }
}

impl SulcusPart {
    fn of(power: &SulcusPower) -> Self {
        let after = |change: Diopters| (power.bag + change).d();
        Self {
            formula: power.formula.key(),
            bag_power_d: power.bag.d(),
            stepwise_from_d: power.stepwise.map(|change| after(change.most)),
            stepwise_to_d: power.stepwise.map(|change| after(change.least)),
            stepwise_is_at_most: power.stepwise.map(|change| change.at_least),
            five_percent_d: power.five_percent.map(Diopters::d),
            vergence_d: power.vergence.ok().map(Diopters::d),
            vergence_refusal: power.vergence.err().map(|refusal| refusal.to_string()),
        }
    }
}

impl RulePart {
    fn of(evaluated: &Evaluated) -> Self {
        let rule = evaluated.rule;
        let finding = match &evaluated.verdict {
            Verdict::Finding(finding) => Some(finding),
            _ => None,
        };
        let verdict = match evaluated.verdict {
            Verdict::Satisfied => "satisfied",
            Verdict::Finding(_) => "finding",
            Verdict::NotApplicable(_) => "not_applicable",
            Verdict::NotEvaluated(_) => "not_evaluated",
        };
        let chance = finding.and_then(|finding| match finding.certainty {
            Certainty::AsMeasured => None,
            Certainty::Clear { chance } | Certainty::Borderline { chance } => Some(chance),
        });
        let (reason, reason_counts) = match &evaluated.reason {
            ReasonState::None => (None, false),
            ReasonState::Standing(reason) => (Some(reason.reason.clone()), true),
            ReasonState::Outdated(reason) => (Some(reason.reason.clone()), false),
        };
        Self {
            id: rule.id,
            title: rule.title,
            severity: rule.severity,
            verdict,
            measured: finding.map(|finding| finding.measured.clone()),
            limit: finding.map(|finding| finding.limit.clone()),
            details: finding.map_or_else(Vec::new, |finding| finding.details.clone()),
            borderline: finding
                .is_some_and(|finding| matches!(finding.certainty, Certainty::Borderline { .. })),
            chance_beyond_limit: chance,
            because: match evaluated.verdict {
                Verdict::NotApplicable(because) => Some(because),
                _ => None,
            },
            missing: match evaluated.verdict {
                Verdict::NotEvaluated(missing) => Some(missing),
                _ => None,
            },
            reason,
            reason_counts,
            sources: rule.sources.iter().map(ToString::to_string).collect(),
        }
    }
}

impl Chamber {
    fn of(plan: &Plan) -> Self {
        let section = plan.section.as_ref().ok();
        let mut missing = plan.section.as_ref().err().map(ToString::to_string);
        if missing.is_none() && plan.room.is_empty() {
            missing = Some("needs the size of the nucleus, which was not stated".to_owned());
        }
        Self {
            missing,
            aqueous_depth_mm: section.map(|section| section.aqueous_depth.mm()),
            posterior_radius_mm: section.map(|section| section.back_radius.mm()),
            posterior_radius_measured: section.map(|section| section.back_radius_measured),
            pieces: plan
                .room
                .iter()
                .map(|row| Pieces {
                    pieces: row.division.pieces(),
                    sectors: row.division.sectors,
                    rings: row.division.rings,
                    layers: row.division.layers,
                    largest_dimension_mm: row.largest_dimension.mm(),
                    room_turning_mm: row.turning_on_axis.mm(),
                    room_turning_2_mm_off_axis_mm: row.turning_off_axis.map(Millimeters::mm),
                    room_standing_mm: row.standing_on_axis.mm(),
                })
                .collect(),
        }
    }
}
