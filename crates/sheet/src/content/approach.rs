//! How the nucleus comes out, and what theatre needs for it.

use millrace_core::case::Told;
use millrace_core::quantity::Direction;
use millrace_wording::{Show as _, Words};

use super::{NOT_STATED, Subject, fact, stated};
use crate::data::Fact;

/// What stands where a question was not put to the patient.
const NOT_ASKED: &str = "not asked";

impl Subject<'_> {
    /// What was not stated, in words of its own so that it is not overlooked in a list.
    pub(super) fn approach_missing(self) -> String {
        let facts = self.all_of_the_approach();
        let lacking = |what: &str| {
            let names = facts.iter().filter(|fact| fact.text == what);
            names
                .map(|fact| fact.name.to_lowercase())
                .collect::<Vec<_>>()
        };
        let mut sentences = Vec::new();
        for (title, what) in [("Not stated", NOT_STATED), ("Not asked", NOT_ASKED)] {
            let names = lacking(what);
            if !names.is_empty() {
                sentences.push(format!("{title}: {}.", names.join("; ")));
            }
        }
        sentences.join(" ")
    }

    pub(super) fn approach(self) -> Vec<Fact> {
        let mut facts = self.all_of_the_approach();
        facts.retain(|fact| fact.text != NOT_STATED && fact.text != NOT_ASKED);
        facts
    }

    fn all_of_the_approach(self) -> Vec<Fact> {
        let approach = &self.draft.approach;
        let mut facts = vec![
            Fact {
                strong: true,
                ..fact("Approach", stated(approach.approach))
            },
            Fact {
                strong: true,
                ..fact("Incision", self.incision())
            },
        ];
        facts.push(fact("Capsulorhexis", stated(approach.capsulorhexis)));
        facts.push(fact("Nucleus", self.nucleus()));
        facts.extend(self.theatre());
        facts
    }

    /// What nobody entered stands as not stated; what nobody asked, as not asked.
    fn theatre(self) -> [Fact; 6] {
        let theatre = &self.draft.theatre;
        let listed = |list: &[String]| {
            if list.is_empty() {
                NOT_STATED.to_owned()
            } else {
                list.join("; ")
            }
        };
        let told = |told: Option<&Told>| match told {
            None => NOT_ASKED.to_owned(),
            Some(Told::NoneKnown) => "none known".to_owned(),
            Some(Told::These(list)) => list.join("; "),
        };
        let typed = |name, text| Fact {
            typed: true,
            ..fact(name, text)
        };
        let strong = |fact: Fact| Fact {
            strong: true,
            ..fact
        };
        [
            fact("Anesthesia", stated(theatre.anesthesia)),
            typed("Technique", listed(&theatre.technique)),
            typed("Viscoelastic", stated(theatre.viscoelastic.as_ref())),
            strong(typed("Have in the room", listed(&theatre.in_room))),
            strong(typed("Allergies", told(theatre.allergies.as_ref()))),
            typed("Medicines", told(theatre.medicines.as_ref())),
        ]
    }

    fn incision(self) -> String {
        let approach = &self.draft.approach;
        let width = stated(approach.incision_width);
        match approach.incision_direction {
            Some(direction) => format!("{width}, {}", self.place(direction)),
            None => format!("width {width}, place not stated"),
        }
    }

    /// "temporal at 180°".
    pub(crate) fn place(self, direction: Direction) -> String {
        format!(
            "{} at {direction}",
            self.side.sector(direction).show(Words::ENGLISH)
        )
    }

    fn nucleus(self) -> String {
        let approach = &self.draft.approach;
        let state = &self.draft.eyes.get(self.side).state;
        let mut parts = vec![
            state
                .nucleus
                .map_or_else(|| "grade not stated".to_owned(), |grade| grade.to_string()),
        ];
        if let Some(nucleus) = approach.nucleus {
            parts.push(format!(
                "{} × {}, as stated",
                nucleus.diameter(),
                nucleus.thickness()
            ));
        }
        if let Some(pieces) = approach.divided_into() {
            parts.push(format!("{pieces} pieces"));
        }
        parts.join("; ")
    }
}
