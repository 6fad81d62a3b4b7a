//! What can happen to the desk. Pages and panels say it, and one `update` does it.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use millrace_core::case::Command;

use crate::exchange::{Answer, CaseId, LeftId, Place, Request, Toward};
use crate::signed::Lock;
use crate::whereabouts::{Aim, Front, Page, Side};

/// Everything that can happen to the desk.
#[derive(Clone, Debug, PartialEq)]
pub enum Message {
    Change(Command),
    /// Take the last change back.
    Undo,
    Redo,
    /// Have something done outside; what it means for the desk is done here.
    Ask(Request),
    Heard(Answer),
    Show(Page),
    /// Show this in front of the pages, or leave it.
    Turn(Front),
    /// Show this side instead of the page, where there is no room for both.
    ShowSide(Side),
    ShowShortcuts,
    /// Ask which file, or no longer.
    AskForFile(FileUse),
    UseFile(FileUse, Place),
    PutFileAway,
    /// Leave what covers the page, the uppermost first.
    Leave,
    /// The page is back: so is the focus.
    ComeBack,
    /// Let the fields show again what is recorded, whatever stands in them.
    GiveBack,
    /// Put a text that was left behind into its field again, as if it were typed.
    PutIn(LeftId),
    /// A text that was left behind is not wanted.
    LeaveOut(LeftId),
    Save,
    /// Keep a signed case as it is, or let it be changed.
    Hold(Lock),
    /// Set the open case aside; where there is anything to explain, its reason is asked for first.
    SetAside,
    /// Move a case in the order of the day that is shown.
    Reorder(CaseId, Toward),
    /// Bring the field to the front that a finding is about.
    GoTo(Aim),
    /// Two drafts were stored side by side: go on from this one.
    GoOnFrom(Whose),
    /// Two drafts were stored side by side: save one's own with these values of the other, as their files name
    /// them.
    SaveTogether {
        of_theirs: BTreeSet<Vec<String>>,
        /// Of which state of one's own draft it was chosen.
        version: u64,
    },
    Search,
    /// Move the focus to the next panel.
    NextPanel,
    Dismiss,
}

/// What is to become of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileUse {
    Open,
    /// The open case is written to it.
    Write,
    /// The sheets of a day are written into it: it is a folder.
    Day(NaiveDate),
    /// Lens records are brought in from it.
    ReadLenses,
    /// The clinic's lens records are written to it.
    WriteLenses,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// One's own, on top of what was stored elsewhere.
    Mine,
    Theirs,
}

impl Message {
    /// Whether a field may go out of sight over it: then what is being typed ends first, and this is
    /// done one pass later.
    pub const fn ends_typing(&self) -> bool {
        match self {
            Self::Change(_) | Self::Heard(_) | Self::Reorder(..) | Self::Dismiss => false,
            Self::Ask(_) => self.leaves_the_case(),
            _ => true,
        }
    }

    /// Whether something comes in front of the page, which is left again by the Escape key.
    pub const fn covers_the_page(&self) -> bool {
        matches!(
            self,
            Self::Turn(_)
                | Self::ShowSide(_)
                | Self::ShowShortcuts
                | Self::AskForFile(_)
                | Self::Hold(Lock::Asked)
                | Self::SetAside
        )
    }

    /// Whether another case may come in place of the open one: it has to be stored before.
    pub const fn leaves_the_case(&self) -> bool {
        use Request::{ImportFile, NewCase, OpenCase, OpenDemo, OpenOwn, Quit};
        matches!(
            self,
            Self::Ask(OpenCase(_) | NewCase | ImportFile(_) | OpenDemo | OpenOwn | Quit)
                | Self::UseFile(FileUse::Open, _)
        )
    }

    /// Whether another register comes in place of this one, or none.
    pub const fn leaves_the_register(&self) -> bool {
        matches!(self, Self::Ask(Request::OpenOwn | Request::Quit))
    }
}
