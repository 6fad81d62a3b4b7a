//! The open case: draft and plan, the way back, and what of it is stored.

mod order;

use std::borrow::Cow;

use chrono::NaiveTime;
use millrace_core::case::{Command, CommandRefused, Draft, update};
use millrace_core::finding::OtherCase;
use millrace_core::limits::Limits;
use millrace_core::plan::{Plan, PlanRefused};
use millrace_wording::desk::changes;
use millrace_wording::{Show, Words};

use crate::exchange::{CaseId, Revision, SaveRequest, Who};
use crate::power_lines::PowerLines;

/// The open case. Its plan is computed once for each change, not for each picture.
#[derive(Debug)]
pub struct Session {
    case: CaseId,
    draft: Draft,
    plan: Result<Plan, PlanRefused>,
    /// The powers of the plan's lens.
    powers: PowerLines,
    undo: Vec<Step>,
    redo: Vec<Step>,
    refused: Option<CommandRefused>,
    /// Counts the changes.
    version: u64,
    storing: Storing,
}

#[derive(Clone, Debug)]
struct Storing {
    revision: Revision,
    stored: u64,
    under_way: Option<u64>,
    trouble: Option<Trouble>,
    /// When the last save from here was on the drive.
    at: Option<NaiveTime>,
    /// The order of its day is being stored.
    is_ordered: bool,
    /// The newest version that is kept aside while two drafts stand side by side.
    aside: u64,
}

impl Storing {
    /// This version of the draft is what stands in the register.
    const fn of(revision: Revision, version: u64) -> Self {
        Self {
            revision,
            stored: version,
            under_way: None,
            trouble: None,
            at: None,
            is_ordered: false,
            aside: 0,
        }
    }
}

/// Why the last save did not come about.
#[derive(Clone, Debug)]
enum Trouble {
    /// It failed; the next change tries again.
    Failed(String),
    /// Somebody else stored another revision; nothing is tried until a person chooses.
    Conflict,
}

/// A draft to go back or forth to.
#[derive(Clone, Debug)]
struct Step {
    draft: Draft,
    what: Change,
}

/// What a step back or forth is about.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    ByHand(Box<Command>),
    /// Somebody else's draft was taken over.
    TakenOver,
}

impl Show for Change {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::ByHand(command) => command.show(words),
            Self::TakenOver => changes::taken_over(words).into(),
        }
    }
}

/// What the person is told about storing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SaveState {
    Saved,
    Saving,
    Failed(String),
    /// It was changed elsewhere; a person has to choose.
    Conflict,
    /// A change waits to be stored.
    Unsaved,
}

impl Session {
    pub fn open(case: CaseId, revision: Revision, draft: Draft, limits: &Limits) -> Self {
        let plan = Plan::of(&draft, limits);
        Self {
            case,
            draft,
            powers: powers_of(&plan),
            plan,
            undo: Vec::new(),
            redo: Vec::new(),
            refused: None,
            version: 0,
            storing: Storing::of(revision, 0),
        }
    }

    pub const fn case(&self) -> &CaseId {
        &self.case
    }

    /// What was entered so far.
    pub const fn draft(&self) -> &Draft {
        &self.draft
    }

    pub const fn plan(&self) -> Result<&Plan, &PlanRefused> {
        self.plan.as_ref()
    }

    /// The powers of the plan's lens, each with what is said of it.
    pub const fn powers(&self) -> &PowerLines {
        &self.powers
    }

    /// Why the last command was not carried out.
    pub const fn refused(&self) -> Option<&CommandRefused> {
        self.refused.as_ref()
    }

    /// Applies one change; a refused one changes nothing but the message.
    pub fn apply(&mut self, command: Command, limits: &Limits) {
        let what = Change::ByHand(Box::new(command.clone()));
        match update(&self.draft, command) {
            Err(refused) => self.refused = Some(refused),
            Ok(next) => {
                self.refused = None;
                if next == self.draft {
                    return;
                }
                let draft = core::mem::replace(&mut self.draft, next);
                self.undo.push(Step { draft, what });
                self.redo.clear();
                self.changed(limits);
            }
        }
    }

    /// Takes over what is stored of other cases: it is the register's to say, and nothing to store again.
    pub fn take_others(&mut self, others: Vec<OtherCase>, limits: &Limits) {
        if self.draft.other_cases != others {
            self.draft.other_cases = others;
            self.replan(limits);
        }
    }

    /// Takes over what the register found of other cases and has not stored yet; there is no way back from it.
    pub fn learn(&mut self, others: Vec<OtherCase>, limits: &Limits) {
        let learned = update(&self.draft, Command::SetOtherCases(others));
        if let Ok(next) = learned {
            self.draft = next;
            self.changed(limits);
        }
    }

    /// What undoing would take back.
    pub fn undoes(&self) -> Option<&Change> {
        self.undo.last().map(|step| &step.what)
    }

    /// What redoing would bring back.
    pub fn redoes(&self) -> Option<&Change> {
        self.redo.last().map(|step| &step.what)
    }

    /// Takes the last change back.
    pub fn undo(&mut self, limits: &Limits) {
        if let Some(Step { draft, what }) = self.undo.pop() {
            let draft = core::mem::replace(&mut self.draft, draft);
            self.redo.push(Step { draft, what });
            self.changed(limits);
        }
    }

    /// Brings the change back that was taken back last.
    pub fn redo(&mut self, limits: &Limits) {
        if let Some(Step { draft, what }) = self.redo.pop() {
            let draft = core::mem::replace(&mut self.draft, draft);
            self.undo.push(Step { draft, what });
            self.changed(limits);
        }
    }

    /// Computes the plan anew, after a change of draft or limits.
    pub fn replan(&mut self, limits: &Limits) {
        self.plan = Plan::of(&self.draft, limits);
        self.powers = powers_of(&self.plan);
    }

    fn changed(&mut self, limits: &Limits) {
        self.version += 1;
        self.refused = None;
        self.retry_saving();
        self.replan(limits);
    }

    /// Whether there is anything to store that is not being stored.
    pub fn wants_saving(&self) -> bool {
        self.storing.stored < self.version
            && self.storing.under_way.is_none()
            && self.storing.trouble.is_none()
    }

    /// The stored revision the draft follows.
    pub const fn revision(&self) -> &Revision {
        &self.storing.revision
    }

    /// Counts the changes of the draft.
    pub const fn version(&self) -> u64 {
        self.version
    }

    pub fn save_state(&self) -> SaveState {
        match &self.storing.trouble {
            Some(Trouble::Failed(why)) => return SaveState::Failed(why.clone()),
            Some(Trouble::Conflict) => return SaveState::Conflict,
            None => {}
        }
        if self.storing.under_way.is_some() {
            return SaveState::Saving;
        }
        if self.storing.stored < self.version {
            return SaveState::Unsaved;
        }
        SaveState::Saved
    }

    /// What is to be stored, changed by this person; a save is under way from now on.
    pub fn begin_saving(&mut self, by: Who) -> SaveRequest {
        self.storing.under_way = Some(self.version);
        self.storing.trouble = None;
        self.to_store(by)
    }

    fn to_store(&self, by: Who) -> SaveRequest {
        SaveRequest {
            case: self.case.clone(),
            seen: self.storing.revision.clone(),
            draft: Box::new(self.draft.clone()),
            by,
        }
    }

    /// What is to be kept aside while two drafts stand side by side: a change after the one that met the other.
    pub fn keep_aside(&mut self, by: Who) -> Option<SaveRequest> {
        let is_newer = self.storing.aside < self.version;
        let is_apart = matches!(self.storing.trouble, Some(Trouble::Conflict));
        (is_apart && is_newer).then(|| {
            self.storing.aside = self.version;
            self.to_store(by)
        })
    }

    /// When the last save from this desk was on the drive; nothing before the first.
    pub const fn saved_at(&self) -> Option<NaiveTime> {
        self.storing.at
    }

    /// The save under way is durable.
    pub fn saved(&mut self, revision: Revision, at: NaiveTime) {
        if let Some(version) = self.storing.under_way.take() {
            self.storing.stored = version;
        }
        self.storing.revision = revision;
        self.storing.trouble = None;
        self.storing.at = Some(at);
    }

    /// The save under way failed.
    pub fn not_saved(&mut self, why: String) {
        self.storing.under_way = None;
        self.storing.trouble = Some(Trouble::Failed(why));
    }

    /// Somebody else stored another revision: nothing is stored until a person chooses.
    pub fn conflicts(&mut self) {
        // Who met it kept that version aside.
        self.storing.aside = self.storing.under_way.unwrap_or(self.version);
        self.storing.under_way = None;
        self.storing.trouble = Some(Trouble::Conflict);
    }

    /// Tries again what failed; a conflict is settled by [`Self::keep_mine`] or
    /// [`Self::take_theirs`] alone.
    pub fn retry_saving(&mut self) {
        if matches!(self.storing.trouble, Some(Trouble::Failed(_))) {
            self.storing.trouble = None;
        }
    }

    /// Keeps this draft on top of somebody else's revision: theirs stays in the history.
    pub fn keep_mine(&mut self, revision: Revision) {
        self.storing.revision = revision;
        self.storing.under_way = None;
        self.storing.trouble = None;
        self.version += 1;
    }

    /// Goes on from both, on top of somebody else's revision; undo brings one's own back.
    pub fn put_together(&mut self, revision: Revision, made: Draft, limits: &Limits) {
        let draft = core::mem::replace(&mut self.draft, made);
        self.undo.push(Step {
            draft,
            what: Change::TakenOver,
        });
        self.redo.clear();
        self.keep_mine(revision);
        self.replan(limits);
    }

    /// Shows somebody else's revision, of a case in which nothing waits to be stored. What was done before is
    /// not undone over it.
    pub fn follow(&mut self, revision: Revision, theirs: Draft, limits: &Limits) {
        self.draft = theirs;
        self.undo.clear();
        self.redo.clear();
        self.changed(limits);
        self.storing = Storing::of(revision, self.version);
    }

    /// Goes on from somebody else's revision; undo brings one's own back.
    pub fn take_theirs(&mut self, revision: Revision, theirs: Draft, limits: &Limits) {
        let draft = core::mem::replace(&mut self.draft, theirs);
        self.undo.push(Step {
            draft,
            what: Change::TakenOver,
        });
        self.redo.clear();
        self.changed(limits);
        self.storing = Storing::of(revision, self.version);
    }
}

fn powers_of(plan: &Result<Plan, PlanRefused>) -> PowerLines {
    plan.as_ref()
        .map_or_else(|_| PowerLines::default(), PowerLines::of)
}

#[cfg(test)]
mod tests;
