//! Whether a plan may be signed.

use super::Obstacle;
use crate::case::{Draft, Slot};
use crate::plan::{Evaluated, Plan, ReasonState};
use crate::rules::{Identifier, Severity, Verdict};

/// Everything that keeps a plan from being signed, but for the signature itself; nothing if it may be.
///
/// What identifies, and what goes into the eye, is looked at here once more, beside the rules that
/// say the same: no change of a rule may let a sheet out without it.
pub fn ready(plan: &Plan) -> Vec<Obstacle> {
    let draft = &plan.draft;
    let mut found = Vec::new();
    identity(draft, &mut found);
    target(draft, &mut found);
    lens(draft, &mut found);
    if draft.approach.approach.is_none() {
        found.push(Obstacle::NoApproach);
    }
    let rules = plan
        .rules
        .iter()
        .filter(|evaluated| !is_said(evaluated, &found));
    let of_rules: Vec<_> = rules.filter_map(of_rule).collect();
    found.extend(of_rules);
    found
}

/// Whether an obstacle says the same as this rule already, or names the choice that the rule waits for.
fn is_said(evaluated: &Evaluated, found: &[Obstacle]) -> bool {
    let rule = evaluated.rule.id;
    found.iter().any(|obstacle| match evaluated.verdict {
        Verdict::Finding(_) => match obstacle {
            Obstacle::NoIdentifier { .. } => rule == "ID-01",
            Obstacle::NoConsent | Obstacle::ConsentDiffers { .. } => rule == "ID-02",
            Obstacle::PowerNotMade {
                lens: Slot::Planned,
                ..
            } => rule == "PW-01",
            _ => false,
        },
        Verdict::NotEvaluated(_) => match obstacle {
            Obstacle::NoLens if ["CT-03", "CT-04", "CT-06"].contains(&rule) => true,
            Obstacle::NoTarget | Obstacle::NoLens | Obstacle::NoFormula | Obstacle::NoPower => [
                "ID-02", "PW-01", "PW-04", "PW-06", "PW-07", "TO-07", "TO-10",
            ]
            .contains(&rule),
            Obstacle::NoCylinder {
                lens: Slot::Planned,
            } => ["TO-07", "TO-10"].contains(&rule),
            _ => false,
        },
        Verdict::Satisfied | Verdict::NotApplicable(_) => false,
    })
}

fn identity(draft: &Draft, found: &mut Vec<Obstacle>) {
    if draft.operation.eye.is_none() {
        found.push(Obstacle::NoEye);
    }
    let patient = &draft.patient;
    for (what, entry) in [
        (Identifier::Name, &patient.name),
        (Identifier::Number, &patient.number),
    ] {
        if entry.as_ref().is_none_or(|entry| entry.trim().is_empty()) {
            found.push(Obstacle::NoIdentifier { what });
        }
    }
    if let Err(hidden) = patient.check_text() {
        found.push(hidden.into());
    }
}

fn target(draft: &Draft, found: &mut Vec<Obstacle>) {
    match (draft.lens.target, draft.lens.consented_target) {
        (None, _) => found.push(Obstacle::NoTarget),
        (Some(_), None) => found.push(Obstacle::NoConsent),
        (Some(target), Some(consented)) if target != consented => {
            found.push(Obstacle::ConsentDiffers { target, consented });
        }
        (Some(_), Some(_)) => {}
    }
}

fn lens(draft: &Draft, found: &mut Vec<Obstacle>) {
    let lens = &draft.lens;
    if lens.record().is_none() {
        found.push(Obstacle::NoLens);
    }
    if lens.formula.is_none() {
        found.push(Obstacle::NoFormula);
    }
    if lens.power().is_none() {
        found.push(Obstacle::NoPower);
    }
    for (slot, chosen) in lens.lenses.iter() {
        let (lens, record) = (slot, &chosen.record);
        if let Some(power) = chosen.power
            && !record.powers.contains(power)
        {
            found.push(Obstacle::PowerNotMade { lens, power });
        }
        // A lens that lies ready without a power is not asked for its cylinder either.
        let is_used = lens == Slot::Planned || chosen.power.is_some();
        if is_used && record.toric.is_some() && chosen.toric.is_none() {
            found.push(Obstacle::NoCylinder { lens });
        }
    }
}

fn of_rule(evaluated: &Evaluated) -> Option<Obstacle> {
    let (rule, backup) = (evaluated.rule.id, evaluated.backup);
    match (evaluated.rule.severity, &evaluated.verdict) {
        (Severity::Stop, Verdict::Finding(finding)) => Some(Obstacle::Stop {
            rule,
            backup,
            finding: finding.clone(),
        }),
        (Severity::Stop, Verdict::NotEvaluated(missing)) => Some(Obstacle::StopNotEvaluated {
            rule,
            backup,
            missing: *missing,
        }),
        (Severity::Review, Verdict::Finding(finding)) => {
            let finding = finding.clone();
            match evaluated.reason {
                ReasonState::Standing(_) => None,
                ReasonState::None => Some(Obstacle::NoReason {
                    rule,
                    backup,
                    finding,
                }),
                ReasonState::Outdated(_) => Some(Obstacle::ReasonOutdated {
                    rule,
                    backup,
                    finding,
                }),
            }
        }
        _ => None,
    }
}
