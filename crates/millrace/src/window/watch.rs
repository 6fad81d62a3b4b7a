//! What other windows and programs store in the register while this one is open: looked for every few seconds
//! in which the desk asks for nothing.

use core::time::Duration;

use millrace_desk::exchange::{Answer, CaseId, Newer, Revision};

use super::register_store::{RegisterStore, who};
use crate::clock;

/// How often is looked: a look costs some microseconds, and draws nothing unless there is news.
pub(super) const EVERY: Duration = Duration::from_secs(2);

/// What the desk shows.
#[derive(Default)]
pub(crate) struct Watch {
    /// The open case, and its revision that the desk knows of.
    shown: Option<(millrace_register::CaseId, u32)>,
    /// How often others had written when it was looked last.
    seen: Option<i64>,
}

impl Watch {
    /// The desk has this revision of its open case.
    pub(super) const fn shows(&mut self, case: millrace_register::CaseId, revision: u32) {
        self.shown = Some((case, revision));
    }

    /// The desk knows of this revision of a case, should it be the open one.
    pub(super) fn goes_on(&mut self, case: millrace_register::CaseId, revision: u32) {
        if let Some((shown, known)) = &mut self.shown
            && *shown == case
        {
            *known = revision;
        }
    }
}

impl RegisterStore {
    /// What others stored since the last look: nothing if they did not, or if it cannot be read now, which is
    /// told when something is asked for.
    pub(crate) fn look_around(&mut self) -> Vec<Answer> {
        if self.is_thrown_away() {
            return Vec::new();
        }
        let Ok(now) = self.register.changes_of_others() else {
            return Vec::new();
        };
        let before = self.watch.seen.replace(now);
        if before.is_none_or(|before| before == now) {
            return Vec::new();
        }
        let mut answers = vec![Answer::ListChanged];
        answers.extend(self.news_of_the_open_case());
        answers
    }

    fn news_of_the_open_case(&mut self) -> Option<Answer> {
        let (case, shown) = self.watch.shown?;
        let newest = self.register.load(case).ok()?;
        let sheets = self.rows(case).ok();
        let id = CaseId(case.to_string());
        let entry = newest.entry;
        if entry.number == shown {
            // Somebody may have signed it.
            return sheets.map(|sheets| Answer::Sheets { case: id, sheets });
        }
        self.watch.shown = Some((case, entry.number));
        Some(Answer::Newer(Newer {
            case: id,
            revision: Revision(entry.number.to_string()),
            draft: Box::new(newest.draft),
            sheets,
            at: clock::on_the_wall(entry.saved_at),
            by: who(entry),
        }))
    }
}
