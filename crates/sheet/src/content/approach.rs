//! How the nucleus comes out, and what theatre needs for it.

use millrace_core::case::{Approach, JudgedNucleus};
use millrace_core::quantity::Direction;
use millrace_wording::text::{plan, proximity, toric};
use millrace_wording::{Show, desk, measurements, sentence, sheet as say, terms};

use super::{Subject, fact};
use crate::What;
use crate::data::Fact;

/// What stands behind a name, or why nothing does.
enum Entry {
    Said(Fact),
    NotStated(&'static str),
}

impl Entry {
    fn map(self, change: impl FnOnce(Fact) -> Fact) -> Self {
        match self {
            Self::Said(fact) => Self::Said(change(fact)),
            other @ Self::NotStated(_) => other,
        }
    }

    /// To be seen first.
    fn strong(self) -> Self {
        self.map(|fact| Fact {
            strong: true,
            ..fact
        })
    }

    fn typed(self, what: What) -> Self {
        self.map(|fact| Fact {
            typed: Some(what),
            ..fact
        })
    }
}

impl Subject<'_> {
    /// What was not stated, in words of its own so that it is not overlooked in a list.
    pub(super) fn approach_missing(self) -> String {
        let entries = self.all_of_the_approach().into_iter();
        let not_stated: Vec<_> = entries
            .filter_map(|entry| match entry {
                Entry::Said(_) => None,
                Entry::NotStated(name) => Some(name.to_lowercase()),
            })
            .collect();
        if not_stated.is_empty() {
            return String::new();
        }
        say::not_stated(self.words, self.words.clauses(not_stated))
    }

    pub(super) fn approach(self) -> Vec<Fact> {
        let entries = self.all_of_the_approach().into_iter();
        entries
            .filter_map(|entry| match entry {
                Entry::Said(fact) => Some(fact),
                Entry::NotStated(_) => None,
            })
            .collect()
    }

    fn all_of_the_approach(self) -> Vec<Entry> {
        let (approach, words) = (&self.draft.approach, self.words);
        let said = |name, text| Entry::Said(fact(name, text));
        let mut entries = vec![
            self.entry(plan::approach(words), approach.approach)
                .strong(),
            said(toric::incision(words), self.incision()).strong(),
            self.entry(desk::approach::capsulorhexis(words), approach.capsulorhexis),
            said(measurements::nucleus(words), self.nucleus()),
        ];
        entries.extend(self.hard_nucleus().map(Entry::Said));
        let estimate = self.estimate();
        entries.extend(estimate.map(|text| said(say::estimate_at_rest(words), text)));
        entries.extend(self.theatre());
        entries
    }

    fn entry(self, name: &'static str, value: Option<impl Show>) -> Entry {
        value.map_or(Entry::NotStated(name), |value| {
            Entry::Said(fact(name, value.show(self.words)))
        })
    }

    fn theatre(self) -> [Entry; 4] {
        let (theatre, words) = (&self.draft.theatre, self.words);
        let listed = |list: &[String]| (!list.is_empty()).then(|| words.clauses(list));
        [
            self.entry(plan::anesthesia(words), theatre.anesthesia),
            self.entry(plan::technique(words), listed(&theatre.technique))
                .typed(What::Technique),
            self.entry(plan::viscoelastic(words), theatre.viscoelastic.as_ref())
                .typed(What::Viscoelastic),
            self.entry(plan::in_room(words), listed(&theatre.in_room))
                .typed(What::InRoom)
                .strong(),
        ]
    }

    fn incision(self) -> String {
        let approach = &self.draft.approach;
        let width = self.stated(approach.incision_width);
        match approach.incision_direction {
            Some(direction) => say::incision(self.words, width, self.place(direction)),
            None => say::incision_without_place(self.words, width),
        }
    }

    /// "temporal at 180°".
    pub(crate) fn place(self, direction: Direction) -> String {
        terms::place(self.words, self.side, direction)
    }

    /// Whether it counts as hard; one that somebody judged says who, when and why, to be seen first.
    fn hard_nucleus(self) -> Option<Fact> {
        let (words, judged) = (self.words, self.draft.approach.nucleus_judged.as_ref());
        let judgment = self.results.nucleus?;
        // The grade stands above; that it is not hard says nothing more to theatre.
        if judged.is_none() && judgment.is_no() {
            return None;
        }
        let text = match judged {
            None => sentence(&judgment.show(words)),
            Some(JudgedNucleus {
                hard: _,
                reason,
                by,
                on,
            }) => say::judged_nucleus(words, sentence(&judgment.show(words)), by, *on, reason),
        };
        Some(Fact {
            typed: judged.map(|_| What::Reason),
            strong: judged.is_some(),
            ..fact(say::hard_nucleus(words), text)
        })
    }

    fn nucleus(self) -> String {
        let (approach, words) = (&self.draft.approach, self.words);
        let grade = self.draft.eyes.get(self.side).state.nucleus;
        let grade = grade.map_or_else(
            || say::grade_not_stated(words).to_owned(),
            |grade| grade.show(words).into_owned(),
        );
        let size = approach
            .nucleus
            .map(|it| say::nucleus_size(words, it.diameter(), it.thickness()));
        let pieces = approach.divided_into();
        let pieces = pieces.map(|pieces| proximity::pieces(words, pieces));
        let how = match approach.approach {
            Some(Approach::SmallIncision) => {
                approach.delivery.map(|it| proximity::delivered(words, it))
            }
            _ => approach.working_plane.map(|it| it.show(words).into_owned()),
        };
        words.clauses([Some(grade), size, pieces, how].into_iter().flatten())
    }

    /// How near the pieces come as planned, or what the whole nucleus needs; nothing where the plan
    /// does not say, or an earlier program did not compute it.
    fn estimate(self) -> Option<String> {
        let (approach, words) = (&self.draft.approach, self.words);
        let near = self.results.chamber.proximity.as_ref()?;
        if approach.approach == Some(Approach::SmallIncision) {
            return approach
                .delivery
                .map(|_| proximity::whole(words, &near.whole));
        }
        let at = near.at(approach.working_plane?)?;
        let near = at.of_pieces(approach.divided_into()?)?;
        let parts = [
            proximity::margin(words, near),
            proximity::directions(words, near),
        ];
        Some(words.clauses(parts))
    }
}
