//! The English of what rules say: every sentence that is made from their facts, once, for the text,
//! the desk and the sheet.

mod detail;
mod fact;
mod limit;
mod obstacle;
mod quantity;
mod reasons;
mod risk;
mod second_eye;
#[cfg(test)]
mod tests;
mod trial;

pub use fact::fact;
pub use limit::limit;
pub use obstacle::obstacle;
pub use quantity::{percent, quantity};
pub use reasons::{because, missing, which};
pub use risk::{applies, borderline_depth, odds_factor, risk_item, risk_item_names, risk_items};
pub use second_eye::{ERROR_CONVENTION, asks, found, lacking, prediction_error};
pub use trial::trial;

use super::{Certainty, Finding, Limit};

/// What was found and what it stands against, in one sentence without a full stop.
#[must_use]
pub fn finding(finding: &Finding) -> String {
    let (measured, against) = (fact(&finding.measured), limit(&finding.limit));
    match finding.limit {
        Limit::ProposedPower { .. } | Limit::ProposedCylinder { .. } => {
            format!("{measured} (proposed: {against})")
        }
        Limit::TwoLooksAgree
        | Limit::AnotherPerson
        | Limit::NoDrift
        | Limit::Refinement { .. }
        | Limit::MayDecide => format!("{measured}; {against}"),
        _ => format!("{measured} (limit: {against})"),
    }
}

/// What else there is to know of it, in one sentence without a full stop; nothing if there is no more.
#[must_use]
pub fn details(finding: &Finding) -> Option<String> {
    let details: Vec<_> = finding.details.iter().map(detail::detail).collect();
    (!details.is_empty()).then(|| details.join("; "))
}

/// How sure it is, as a sentence without a full stop; nothing for one that is as measured.
#[must_use]
pub fn certainty(certainty: Certainty) -> Option<String> {
    let (word, chance) = match certainty {
        Certainty::AsMeasured => return None,
        Certainty::Clear { chance } => ("", chance),
        Certainty::Borderline { chance } => ("borderline; ", chance),
    };
    Some(format!("{word}{}", under_the_limit(chance)))
}

/// A finding with how sure it is, in one sentence without a full stop.
#[must_use]
pub fn finding_and_certainty(it: &Finding) -> String {
    let sentence = finding(it);
    match it.certainty {
        Certainty::AsMeasured => sentence,
        Certainty::Clear { chance } => format!("{sentence}; {}", under_the_limit(chance)),
        Certainty::Borderline { chance } => {
            format!("{sentence}; BORDERLINE, {}", under_the_limit(chance))
        }
    }
}

fn under_the_limit(chance: f64) -> String {
    format!(
        "{} chance that the true depth is under the limit",
        percent(chance)
    )
}

/// Several things in one list.
fn list<T>(items: &[T], name: impl Fn(&T) -> String, between: &str) -> String {
    let names: Vec<_> = items.iter().map(name).collect();
    names.join(between)
}

/// One thing, the other, or both.
fn both(one: Option<String>, other: Option<String>) -> String {
    let parts: Vec<_> = one.into_iter().chain(other).collect();
    parts.join(", ")
}
