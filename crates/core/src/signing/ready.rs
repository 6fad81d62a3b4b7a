//! Whether a plan may be signed.

use super::Obstacle;
use super::obstacle::reserve_name;
use crate::case::{Draft, Reserve};
use crate::lens::LensRecord;
use crate::plan::{Evaluated, Plan, ReasonState};
use crate::quantity::HundredthDiopters;
use crate::rules::{Severity, Verdict};

/// Everything that keeps a plan from being signed, but for the signature itself; nothing if it may be.
///
/// What identifies, and what goes into the eye, is looked at here once more, beside the rules that
/// say the same: no change of a rule may let a sheet out without it.
#[must_use]
pub fn ready(draft: &Draft, plan: &Plan) -> Vec<Obstacle> {
    let mut found = Vec::new();
    identity(draft, &mut found);
    target(draft, &mut found);
    lens(draft, &mut found);
    if draft.approach.approach.is_none() {
        found.push(Obstacle::NoApproach);
    }
    // What was said above is not said again in the words of its rule.
    let said = [
        (
            "ID-01",
            found
                .iter()
                .any(|o| matches!(o, Obstacle::NoIdentifier { .. })),
        ),
        (
            "ID-02",
            found.iter().any(|o| {
                matches!(
                    o,
                    Obstacle::NoTarget | Obstacle::NoConsent | Obstacle::ConsentDiffers { .. }
                )
            }),
        ),
        ("PW-01", found.iter().any(|o| is_of_the_lens(o))),
        ("PW-04", found.iter().any(|o| is_of_the_lens(o))),
        ("TO-07", found.contains(&Obstacle::NoCylinder)),
        ("TO-10", found.contains(&Obstacle::NoCylinder)),
    ];
    let is_said = |rule: &str| said.contains(&(rule, true));
    let rules = plan
        .rules
        .iter()
        .filter(|evaluated| !is_said(evaluated.rule.id));
    found.extend(rules.filter_map(of_rule));
    found
}

fn is_of_the_lens(obstacle: &Obstacle) -> bool {
    matches!(
        obstacle,
        Obstacle::NoLens
            | Obstacle::NoPower
            | Obstacle::NoFormula
            | Obstacle::NoTarget
            | Obstacle::PowerNotMade { lens: PLANNED, .. }
    )
}

const PLANNED: &str = "the lens to implant";

fn identity(draft: &Draft, found: &mut Vec<Obstacle>) {
    if draft.operation.eye.is_none() {
        found.push(Obstacle::NoEye);
    }
    let patient = &draft.patient;
    for (what, entry) in [
        ("name", &patient.name),
        ("hospital number", &patient.number),
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
    if lens.record.is_none() {
        found.push(Obstacle::NoLens);
    }
    if lens.formula.is_none() {
        found.push(Obstacle::NoFormula);
    }
    match (&lens.record, lens.power) {
        (_, None) => found.push(Obstacle::NoPower),
        (Some(record), Some(power)) => made(PLANNED, record, power, found),
        (None, Some(_)) => {}
    }
    let is_toric = lens
        .record
        .as_ref()
        .is_some_and(|record| record.toric.is_some());
    if is_toric && lens.toric.is_none() {
        found.push(Obstacle::NoCylinder);
    }
    let in_sulcus = lens.spare.as_ref().filter(|spare| spare.may_sit_in_sulcus);
    for (which, record, power) in [
        (Reserve::Spare, lens.spare.as_ref(), lens.spare_power),
        (Reserve::Sulcus, in_sulcus, lens.sulcus_power),
        (
            Reserve::Chamber,
            lens.chamber_lens.as_ref(),
            lens.chamber_power,
        ),
    ] {
        let lens = reserve_name(which);
        match (record, power) {
            (_, None) => {}
            (Some(record), Some(power)) => made(lens, record, power, found),
            (None, Some(power)) => found.push(Obstacle::PowerWithoutLens { lens, power }),
        }
    }
}

fn made(
    lens: &'static str,
    record: &LensRecord,
    power: HundredthDiopters,
    found: &mut Vec<Obstacle>,
) {
    if !record.powers.contains(power) {
        found.push(Obstacle::PowerNotMade { lens, power });
    }
}

fn of_rule(evaluated: &Evaluated) -> Option<Obstacle> {
    let (rule, title) = (evaluated.rule.id, evaluated.rule.title);
    match (evaluated.rule.severity, &evaluated.verdict) {
        (Severity::Stop, Verdict::Finding(finding)) => {
            Some(Obstacle::stop(evaluated.rule, finding.sentence()))
        }
        (Severity::Stop, Verdict::NotEvaluated { missing }) => Some(Obstacle::StopNotEvaluated {
            rule,
            title,
            missing,
        }),
        (Severity::Review, Verdict::Finding(finding)) => {
            let finding = finding.sentence();
            match evaluated.reason {
                ReasonState::Standing(_) => None,
                ReasonState::None => Some(Obstacle::NoReason {
                    rule,
                    title,
                    finding,
                }),
                ReasonState::Outdated(_) => Some(Obstacle::ReasonOutdated {
                    rule,
                    title,
                    finding,
                }),
            }
        }
        _ => None,
    }
}
