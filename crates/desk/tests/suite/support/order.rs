//! The order of a day in the pretended store.

use millrace_core::case::{Command, Draft, update};
use millrace_desk::exchange::{Answer, CaseId, OrderRequest, Placed, Revision};

use super::Bench;

impl Bench {
    /// As the register does: all of them or none, a revision for each whose place changes.
    pub(super) fn order(&mut self, order: &OrderRequest) {
        let is_seen = |place: &Placed| {
            let is_it = |(id, revision, _): &(CaseId, Revision, Draft)| {
                *id == place.case && *revision == place.revision
            };
            self.cases.iter().any(is_it)
        };
        if !order.places.iter().all(is_seen) {
            let why = "changed meanwhile".to_owned();
            return self.desk.accept(Answer::Ordered(Err(why)));
        }
        let mut placed = Vec::new();
        for place in &order.places {
            let stored = self.cases.iter_mut().find(|(id, _, _)| *id == place.case);
            let (_, revision, draft) = stored.expect("a known case");
            if draft.operation.list_number != Some(place.number) {
                let command = Command::SetListNumber(Some(place.number));
                *draft = update(draft, command).expect("a place in the order");
                *revision = Revision(format!("{}+", revision.0));
                placed.push(Placed {
                    revision: revision.clone(),
                    ..place.clone()
                });
            }
        }
        self.desk.accept(Answer::Ordered(Ok(placed)));
    }
}
