//! From a plan to its frozen results.

use super::{
    FormulaResult, OddsResult, ReserveResult, Results, RiskResult, RoomResult, RuleResult,
    RungResult, SectionResult, Spread, SulcusResult, ToricResult,
};
use crate::case::{Draft, SecondEyeChoice};
use crate::certainty::{Distribution, Level};
use crate::chamber::{ChamberSection, PieceRoom};
use crate::iol_power::Formula;
use crate::iol_power::ladder::{Column, Ladder};
use crate::plan::{
    Evaluated, HYPEROPIC, Plan, PowerCertainty, ReasonState, SHOWN_BANDS, SulcusPower,
};
use crate::quantity::{Diopters, HundredthDiopters, Millimeters};

impl Results {
    /// What the plan of a draft says.
    #[must_use]
    pub fn of(draft: &Draft, plan: &Plan) -> Self {
        let lens = &draft.lens;
        let ladder = plan.ladder.as_ref().ok();
        // Looked at closely is the chosen power; a proposed one is no result of a signed plan.
        let closely = plan.certainty.as_ref().and_then(|certainty| {
            let closely = certainty.closely.as_ref()?;
            (Some(closely.power) == lens.power).then_some(closely)
        });
        let reserve = |ladder: Option<&Ladder>, power| {
            ladder.map_or_else(Vec::new, |ladder| reserve_results(ladder, power))
        };
        let spare = plan.spare.as_ref();
        Self {
            age_years: plan.age,
            planned_by: lens.formula.map(|formula| formula.key().to_owned()),
            predicted_d: plan.predicted_for_chosen(draft).map(Diopters::d),
            planned: closely.and_then(|closely| {
                let (_, prediction) = prediction_of(closely, lens.formula?)?;
                Some(Spread::of(&prediction.distribution(), lens.target?))
            }),
            pooled: closely
                .and_then(|closely| Some(Spread::of(&closely.budget.distribution, lens.target?))),
            formulas: ladder.map_or_else(Vec::new, |ladder| {
                let columns = ladder.columns.iter();
                columns
                    .map(|column| FormulaResult::of(column, ladder, lens.power, closely))
                    .collect()
            }),
            rungs: ladder.map_or_else(Vec::new, rung_results),
            refined_d: plan.second_eye.as_ref().and_then(|second| {
                let chosen = second.refined.as_ref()?.chosen.as_ref()?;
                Some(chosen.refined.d())
            }),
            second_eye: lens.second_eye.map(|choice| {
                let word = match choice {
                    SecondEyeChoice::Refined => "refined",
                    SecondEyeChoice::Unrefined => "unrefined",
                };
                word.to_owned()
            }),
            toric: ToricResult::of(draft, &plan.toric),
            spare: reserve(spare.map(|spare| &spare.bag), lens.spare_power),
            sulcus: spare.map_or_else(Vec::new, |spare| {
                spare.sulcus.iter().map(SulcusResult::of).collect()
            }),
            sulcus_shift_mm: spare.map(|spare| spare.sulcus_shift.millimeters().mm()),
            chamber_lens: reserve(plan.chamber_lens.as_ref(), lens.chamber_power),
            rules: plan.rules.iter().map(RuleResult::of).collect(),
            section: plan.section.as_ref().ok().map(SectionResult::of),
            room: plan.room.iter().map(RoomResult::of).collect(),
            risk: RiskResult {
                total: plan.risk.total(),
                at_most: plan.risk.at_most(),
                given: plan
                    .risk
                    .given
                    .iter()
                    .map(|item| (*item, item.points()))
                    .collect(),
                not_recorded: plan.risk.unknown.clone(),
            },
            odds_ratios: plan
                .odds_ratios
                .iter()
                .map(|odds| OddsResult {
                    factor: odds.factor,
                    ratio: odds.factor.ratio(),
                    applies: odds.applies,
                })
                .collect(),
        }
    }
}

fn prediction_of(
    closely: &PowerCertainty,
    formula: Formula,
) -> Option<&(Formula, crate::certainty::Prediction)> {
    closely
        .predictions
        .iter()
        .find(|(spoken, _)| *spoken == formula)
}

impl Spread {
    fn of(distribution: &Distribution, target: HundredthDiopters) -> Self {
        let interval = |level| distribution.interval(level).map(Diopters::d);
        Self {
            mean_d: distribution.mean().d(),
            deviation_d: distribution.deviation().d(),
            interval_50_d: interval(Level::Half),
            interval_80_d: interval(Level::Eighty),
            interval_95_d: interval(Level::NinetyFive),
            chance_within: SHOWN_BANDS
                .map(|band| distribution.chance_within(target.diopters(), band.diopters())),
            chance_hyperopic: distribution.chance_over(HYPEROPIC.diopters()),
        }
    }
}

impl FormulaResult {
    fn of(
        column: &Column,
        ladder: &Ladder,
        power: Option<HundredthDiopters>,
        closely: Option<&PowerCertainty>,
    ) -> Self {
        let formula = column.formula;
        let answer = column.answer.as_ref().ok();
        let cautions = answer.map_or_else(Vec::new, |answer| {
            let cautions = answer.cautions.iter();
            cautions.map(|caution| caution.to_string()).collect()
        });
        let prediction = closely.and_then(|closely| prediction_of(closely, formula));
        Self {
            formula: formula.key().to_owned(),
            name: formula.name().to_owned(),
            source: formula.source().to_string(),
            cautions,
            refusal: column.answer.as_ref().err().map(ToString::to_string),
            lens_position_mm: answer.map(|answer| answer.eye.lens_position().mm()),
            exact_power_d: answer.map(|answer| answer.exact_power.d()),
            proposed_power_d: answer
                .and_then(|answer| answer.proposed)
                .map(|power| power.diopters().d()),
            predicted_d: power
                .and_then(|power| ladder.predicted(formula, power))
                .map(Diopters::d),
            deviation_d: prediction.map(|(_, prediction)| prediction.deviation().d()),
        }
    }
}

fn rung_results(ladder: &Ladder) -> Vec<RungResult> {
    let rungs = ladder.rungs.iter();
    rungs
        .map(|rung| RungResult {
            power_d: rung.power.diopters().d(),
            predicted_d: rung
                .predicted
                .iter()
                .map(|refraction| refraction.map(Diopters::d))
                .collect(),
        })
        .collect()
}

fn reserve_results(ladder: &Ladder, power: Option<HundredthDiopters>) -> Vec<ReserveResult> {
    let columns = ladder.columns.iter();
    columns
        .map(|column| {
            let answer = column.answer.as_ref().ok();
            ReserveResult {
                formula: column.formula.key().to_owned(),
                refusal: column.answer.as_ref().err().map(ToString::to_string),
                exact_power_d: answer.map(|answer| answer.exact_power.d()),
                proposed_power_d: answer
                    .and_then(|answer| answer.proposed)
                    .map(|power| power.diopters().d()),
                predicted_d: power
                    .and_then(|power| ladder.predicted(column.formula, power))
                    .map(Diopters::d),
            }
        })
        .collect()
}

impl SulcusResult {
    fn of(power: &SulcusPower) -> Self {
        let after = |change: Diopters| (power.bag + change).d();
        Self {
            formula: power.formula.key().to_owned(),
            bag_power_d: power.bag.d(),
            stepwise_d: power
                .stepwise
                .map(|change| [after(change.most), after(change.least)]),
            five_percent_d: power.five_percent.map(Diopters::d),
            vergence_d: power.vergence.ok().map(Diopters::d),
            vergence_refusal: power.vergence.err().map(|refusal| refusal.to_string()),
        }
    }
}

impl RuleResult {
    fn of(evaluated: &Evaluated) -> Self {
        let standing = match &evaluated.reason {
            ReasonState::Standing(reason) => Some(reason),
            ReasonState::None | ReasonState::Outdated(_) => None,
        };
        Self {
            id: evaluated.rule.id.to_owned(),
            severity: evaluated.rule.severity,
            verdict: evaluated.verdict.clone(),
            reason: standing.map(|reason| reason.reason.clone()),
            by: standing.map(|reason| reason.by.clone()),
        }
    }
}

impl SectionResult {
    fn of(section: &ChamberSection) -> Self {
        Self {
            front_radius_mm: section.front_radius.mm(),
            back_radius_mm: section.back_radius.mm(),
            back_radius_measured: section.back_radius_measured,
            endothelium_mm: section.endothelium.mm(),
            pupil_plane_mm: section.pupil_plane.mm(),
            aqueous_depth_mm: section.aqueous_depth.mm(),
            corneal_diameter_mm: section.corneal_diameter.map(Millimeters::mm),
            pupil_diameter_mm: section.pupil_diameter.map(Millimeters::mm),
            lens_back_mm: section.lens_back.map(Millimeters::mm),
        }
    }
}

impl RoomResult {
    fn of(room: &PieceRoom) -> Self {
        Self {
            pieces: room.division.pieces(),
            largest_dimension_mm: room.largest_dimension.mm(),
            turning_mm: room.turning_on_axis.mm(),
            turning_off_axis_mm: room.turning_off_axis.map(Millimeters::mm),
            standing_mm: room.standing_on_axis.mm(),
        }
    }
}
