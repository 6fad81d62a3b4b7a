//! What rules say: every sentence that is made from their facts, once, for the text, the desk and the
//! sheet. None has a full stop.

pub(crate) mod detail;
pub(crate) mod fact;
pub(crate) mod limit;
pub(crate) mod missing;
pub(crate) mod quantity;
pub(crate) mod risk;
pub(crate) mod second_eye;
#[cfg(test)]
mod tests;
mod trial;

use std::borrow::Cow;

use millrace_core::case::Slot;
use millrace_core::lens::Place;
use millrace_core::rules::{Certainty, Finding, Limit};

use crate::number::percent;
use crate::{Show, Words, sentence};

pub use risk::{applies, borderline_depth, risk_items};
pub use second_eye::{error_convention, prediction_error};

messages! {
    title_of_lens(lens, title) = "{lens}: {title}";
    id_of_lens(id, lens) = "{id}, {lens}";
    with_limit(measured, limit) = "{measured} (limit: {limit})";
    with_proposal(measured, proposal) = "{measured} (proposed: {proposal})";
    with_what_follows(measured, follows) = "{measured}; {follows}";
    under_the_limit(chance) = "{chance} chance that the true depth is under the limit";
    borderline(chance) = "borderline; {chance}";
    borderline_in_capitals(chance) = "BORDERLINE, {chance}";
}

impl Show for Finding {
    /// What was found and what it stands against.
    fn show(&self, words: Words) -> Cow<'_, str> {
        let (measured, limit) = (&self.measured, &self.limit);
        match limit {
            Limit::ProposedPower { .. } | Limit::ProposedCylinder { .. } => {
                with_proposal(words, measured, limit)
            }
            Limit::TwoLooksAgree
            | Limit::AnotherPerson
            | Limit::NoDrift
            | Limit::Refinement { .. }
            | Limit::MayDecide => with_what_follows(words, measured, limit),
            _ => with_limit(words, measured, limit),
        }
        .into()
    }
}

/// What a finding says, after the backup lens it is about, if it is about one; `title` is that of the
/// rule.
pub fn title(words: Words, title: &'static str, backup: Option<Place>) -> Cow<'static, str> {
    let title = words.reference(title);
    backup.map_or(title.into(), |place| {
        let lens = Slot::Backup(place);
        title_of_lens(words, sentence(&lens.show(words)), title).into()
    })
}

/// A rule by its id, with the backup lens it is about, if it is about one.
pub fn id(words: Words, id: &str, backup: Option<Place>) -> Cow<'_, str> {
    backup.map_or(id.into(), |place| {
        id_of_lens(words, id, Slot::Backup(place)).into()
    })
}

/// What else there is to know of it; nothing if there is no more.
pub fn details(words: Words, finding: &Finding) -> Option<String> {
    (!finding.details.is_empty()).then(|| words.clauses(&finding.details))
}

/// How sure it is; nothing for one that is as measured.
pub fn certainty(words: Words, certainty: Certainty) -> Option<String> {
    let chance = |chance| under_the_limit(words, percent(words, chance));
    match certainty {
        Certainty::AsMeasured => None,
        Certainty::Clear { chance: it } => Some(chance(it)),
        Certainty::Borderline { chance: it } => Some(borderline(words, chance(it))),
    }
}

/// A finding with how sure it is.
pub fn finding_and_certainty(words: Words, it: &Finding) -> String {
    let certainty = match it.certainty {
        Certainty::AsMeasured => return it.show(words).into_owned(),
        Certainty::Clear { chance } => under_the_limit(words, percent(words, chance)),
        Certainty::Borderline { chance } => {
            borderline_in_capitals(words, under_the_limit(words, percent(words, chance)))
        }
    };
    with_what_follows(words, it, certainty)
}
