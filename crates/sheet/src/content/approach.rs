//! How the nucleus comes out, and what theatre needs for it.

use millrace_core::quantity::Direction;

use super::{Subject, fact, stated};
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
        facts.push(fact(
            "Capsulorhexis",
            stated(approach.capsulorhexis),
        ));
        facts.push(fact("Nucleus", self.nucleus()));
        facts
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
        format!("{} at {direction}", self.plan.side.place(direction))
    }

    fn nucleus(self) -> String {
        let approach = &self.draft.approach;
        let state = &self.draft.eyes.get(self.plan.side).state;
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
