//! What was told of allergies and medicines: beside the lens, whatever it is, also that nobody asked.

use millrace_core::case::Told;
use millrace_wording::sheet as say;
use millrace_wording::text::plan;

use super::{Subject, fact};
use crate::What;
use crate::data::Fact;

impl Subject<'_> {
    pub(super) fn told(self) -> Vec<Fact> {
        let (theatre, words) = (&self.draft.theatre, self.words);
        let thins = match self.draft.patient.anticoagulant {
            None => say::not_asked(words),
            Some(true) => say::takes_it(words),
            Some(false) => say::takes_none(words),
        };
        vec![
            self.these(
                (plan::allergies(words), What::Allergies),
                theatre.allergies.as_ref(),
            ),
            Fact {
                strong: true,
                ..fact(say::anticoagulant(words), thins)
            },
            self.these(
                (plan::medicines(words), What::Medicines),
                theatre.medicines.as_ref(),
            ),
        ]
    }

    fn these(self, (name, what): (&'static str, What), told: Option<&Told>) -> Fact {
        let words = self.words;
        let text = match told {
            None => say::not_asked(words).to_owned(),
            Some(Told::NoneKnown) => plan::none_known(words).to_owned(),
            Some(Told::These(list)) => words.clauses(list),
        };
        Fact {
            typed: Some(what),
            strong: true,
            ..fact(name, text)
        }
    }
}
