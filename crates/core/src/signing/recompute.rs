//! What today's program would compute otherwise than the one a plan was signed with.

use serde_json::Value;

use super::SignedPlan;
use crate::document::{PlanDocument, Results};
use crate::limits::{LimitError, Limits};
use crate::plan::{Plan, PlanRefused};

/// One number or word that differs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// Where it stands in the results, as in `ladder.formulas.srk_t.predicted_d`.
    pub place: String,
    /// As signed; nothing if it was not there.
    pub signed: Option<String>,
    /// As computed now; nothing if it is no longer there.
    pub now: Option<String>,
}

/// Why a signed plan cannot be computed again.
#[derive(Debug, thiserror::Error)]
#[error("{self:?}")]
pub enum CannotRecompute {
    /// This program knows limits the signed plan has not, or the other way round.
    OtherLimits {
        /// The names that are on one side only.
        names: String,
    },
    /// A limit this program cannot read.
    Limit(#[from] LimitError),
    Plan(#[from] PlanRefused),
}

/// Computes a signed plan with this program, by its own limits, and names every result that differs;
/// nothing if none does.
pub fn recompute(signed: &SignedPlan) -> Result<Vec<Difference>, CannotRecompute> {
    let plan = Plan::of(signed.draft(), &limits_of(signed)?)?;
    let now = PlanDocument::of(&plan, signed.program());
    Ok(differences(&signed.plan().results, &now.results))
}

fn limits_of(signed: &SignedPlan) -> Result<Limits, CannotRecompute> {
    let mut limits = Limits::shipped().clone();
    let known: Vec<_> = limits.entries().into_iter().map(|(name, _)| name).collect();
    let frozen: Vec<_> = signed
        .plan()
        .limits
        .iter()
        .map(|limit| &*limit.name)
        .collect();
    let only_here = known.iter().filter(|name| !frozen.contains(name));
    let only_there = frozen.iter().filter(|name| !known.contains(name));
    let names: Vec<_> = only_here.chain(only_there).copied().collect();
    if !names.is_empty() {
        let names = names.join(", ");
        return Err(CannotRecompute::OtherLimits { names });
    }
    // Pairs may stand the wrong way round until both are set: setting again mends that.
    let mut left: Vec<_> = signed.plan().limits.iter().collect();
    while !left.is_empty() {
        let before = left.len();
        let mut failed = None;
        left.retain(|limit| match limits.with(&limit.name, &limit.in_use) {
            Ok(next) => {
                limits = next;
                false
            }
            Err(error) => {
                failed = Some(error);
                true
            }
        });
        if let Some(error) = failed.filter(|_| left.len() == before) {
            return Err(error.into());
        }
    }
    Ok(limits)
}

fn differences(signed: &Results, now: &Results) -> Vec<Difference> {
    // Only strings, numbers and lists of them: there is nothing that could fail.
    let value = |results| serde_json::to_value(results).unwrap_or_default();
    let mut found = Vec::new();
    compare("", Some(&value(signed)), Some(&value(now)), &mut found);
    found
}

fn compare(place: &str, signed: Option<&Value>, now: Option<&Value>, found: &mut Vec<Difference>) {
    if signed == now {
        return;
    }
    let parts = [signed, now].map(|value| value.map(children).unwrap_or_default());
    let [signed_parts, now_parts] = &parts;
    if signed_parts.is_empty() && now_parts.is_empty() {
        found.push(Difference {
            place: place.to_owned(),
            signed: signed.map(shown),
            now: now.map(shown),
        });
        return;
    }
    let under = |name: &str| {
        if name == "outcome" || name == "answer" {
            // What every answer stands in says nothing of where it stands.
            place.to_owned()
        } else if place.is_empty() {
            name.to_owned()
        } else {
            format!("{place}.{name}")
        }
    };
    for (name, value) in signed_parts {
        compare(&under(name), Some(value), part(now_parts, name), found);
    }
    for (name, value) in now_parts {
        if part(signed_parts, name).is_none() {
            compare(&under(name), None, Some(value), found);
        }
    }
}

fn part<'a>(parts: &[(String, &'a Value)], name: &str) -> Option<&'a Value> {
    let found = parts.iter().find(|(known, _)| known == name);
    found.map(|(_, value)| *value)
}

/// The parts of a list or an object. What has a name of its own in a list is called by it, so that a
/// rule or a formula that came later does not move the others.
fn children(value: &Value) -> Vec<(String, &Value)> {
    const NAMES: [&str; 8] = [
        "id",
        "formula",
        "power_d",
        "factor",
        "source",
        "cylinder_d",
        "cylinder_at_most_d",
        "turn_degrees",
    ];
    match value {
        Value::Object(object) => object
            .iter()
            .map(|(key, value)| (key.clone(), value))
            .collect(),
        Value::Array(list) => {
            let named = |(index, value): (usize, _)| {
                let name = NAMES.iter().find_map(|name| Value::get(value, *name));
                // A rule of every lens has an entry for each backup lens.
                let backup = Value::get(value, "backup").filter(|place| place.is_string());
                let name = match (name, backup) {
                    (Some(name), Some(place)) => format!("{}.{}", shown(name), shown(place)),
                    (Some(name), None) => shown(name),
                    (None, _) => index.to_string(),
                };
                (name, value)
            };
            list.iter().enumerate().map(named).collect()
        }
        _ => Vec::new(),
    }
}

fn shown(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests;
