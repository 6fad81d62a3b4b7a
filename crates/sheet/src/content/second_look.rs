//! Whether somebody entered the critical numbers once more, and what came of it.

use millrace_core::case::Critical;
use millrace_core::rules::{Fact as Found, TwoLooks, Verdict};
use millrace_wording::sheet as say;

use super::{Subject, fact};
use crate::What;
use crate::data::Fact;

/// The rule that compares both looks: what it found is what was signed.
const COMPARED_BY: &str = "SL-01";

impl Subject<'_> {
    pub(super) fn second_look(self) -> Fact {
        let words = self.words;
        let name = say::second_look(words);
        let Some(look) = &self.draft.second_look else {
            return Fact {
                strong: true,
                ..fact(name, say::no_second_look(words))
            };
        };
        let rules = self.results.rules.iter();
        let compared = rules.into_iter().find(|rule| rule.id == COMPARED_BY);
        let (text, strong) = match compared.map(|rule| &rule.verdict) {
            Some(Verdict::Satisfied) => (say::second_look_agrees(words, &look.by, look.on), false),
            Some(Verdict::Finding(finding)) => {
                let differ = match &finding.measured {
                    Found::TwoLooks(looks) => looks.iter().map(what).collect(),
                    _ => Vec::new(),
                };
                let differ = words.list(differ);
                (
                    say::second_look_differs(words, &look.by, look.on, differ),
                    true,
                )
            }
            Some(Verdict::NotApplicable(_) | Verdict::NotEvaluated(_)) | None => (
                say::second_look_not_compared(words, &look.by, look.on),
                true,
            ),
        };
        Fact {
            typed: Some(What::SecondLooker),
            strong,
            ..fact(name, text)
        }
    }
}

const fn what(differs: &TwoLooks) -> Critical {
    match differs {
        TwoLooks::Number => Critical::Number,
        TwoLooks::Eye { .. } => Critical::Eye,
        TwoLooks::Meridian { what, .. } | TwoLooks::Quantity { what, .. } => *what,
    }
}
