//! What keeps the cases. The register fits behind this; so does a store in memory.

use core::ops::Range;

use millrace_core::case::Draft;
use millrace_desk::exchange::{Answer, CaseId, Revision};

/// Keeps cases. Called on a thread of its own; each call answers when it is done.
pub(crate) trait Store: Send {
    /// Stores a draft as the next revision after `seen`: [`Answer::Saved`] once it is durable,
    /// [`Answer::Conflict`] if another revision came first, [`Answer::NotSaved`] otherwise.
    fn save(&mut self, case: &CaseId, change: Change) -> Answer;

    /// Keeps a new case: [`Answer::Opened`].
    fn begin(&mut self, draft: Draft, author: &str) -> Answer;

    /// A stored case: [`Answer::Opened`].
    fn open(&mut self, case: &CaseId) -> Answer;

    /// Rows of the list, by day, then name: [`Answer::Listed`].
    fn list(&mut self, search: &str, rows: Range<usize>) -> Answer;
}

/// A draft to store.
pub(crate) struct Change {
    /// The revision it started from.
    pub(crate) seen: Revision,
    /// What to store.
    pub(crate) draft: Draft,
    /// Who changed it.
    pub(crate) author: String,
}
