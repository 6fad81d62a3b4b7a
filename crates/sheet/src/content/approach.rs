//! How the nucleus comes out, and what theatre needs for it.

use millrace_core::case::Told;
use millrace_core::quantity::Direction;

use super::{NOT_STATED, Subject, fact, stated};
use crate::data::Fact;

impl Subject<'_> {
    pub(super) fn approach(self) -> Vec<Fact> {
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
            None => "not asked".to_owned(),
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
        format!("{} at {direction}", self.side.place(direction))
    }

    fn nucleus(self) -> String {
        let approach = &self.draft.approach;
        let state = &self.draft.eyes.get(self.side).state;
        let mut parts = vec![state
            .nucleus
            .map_or_else(|| "grade not stated".to_owned(), |grade| grade.to_string())];
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
