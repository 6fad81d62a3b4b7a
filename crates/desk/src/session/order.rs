//! The place of the open case in the order of its day, which is stored beside its changes.

use super::{Session, Trouble};
use crate::exchange::Placed;

impl Session {
    /// The order of its day is being stored: until that is done, nothing else of the case is.
    pub fn begin_ordering(&mut self) {
        self.storing.is_ordered = true;
        self.storing.under_way = Some(self.storing.stored);
    }

    /// The order of its day is durable, or came to nothing. The place is no change of the case: it goes with every
    /// step that has the same day, and undo leaves it.
    pub fn ordered(&mut self, placed: Option<Placed>) {
        if !core::mem::take(&mut self.storing.is_ordered) {
            return;
        }
        self.storing.under_way = None;
        let is_apart = matches!(self.storing.trouble, Some(Trouble::Conflict));
        let Some(placed) = placed.filter(|_| !is_apart) else {
            return;
        };
        self.storing.revision = placed.revision;
        let day = self.draft.operation.date;
        let steps = self.undo.iter_mut().chain(&mut self.redo);
        for draft in steps.map(|step| &mut step.draft).chain([&mut self.draft]) {
            if draft.operation.date == day {
                draft.operation.list_number = Some(placed.number);
            }
        }
    }
}
