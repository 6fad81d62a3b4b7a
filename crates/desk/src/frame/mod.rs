//! What stands around every page: banner, theatre list, tabs, findings, status.

pub mod banner;
pub mod conflict;
pub mod file_panel;
pub mod findings;
pub mod first_run;
pub mod shortcuts;
pub mod status;
pub mod tabs;
pub mod theatre_list;

use chrono::NaiveDate;
use millrace_core::lens::LensRecord;
use millrace_core::limits::Limits;

use crate::exchange::{CaseId, Place};
use crate::pages::Page;
use crate::settings::Settings;

/// What a person asks of the desk itself, rather than of the case.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// Show this page.
    Show(Page),
    /// Show or leave the settings.
    ShowSettings,
    /// Show or leave the second look.
    ShowSecondLook,
    /// Show or leave the shortcut sheet.
    ShowShortcuts,
    /// Show this side instead of the page, where there is no room for both.
    ShowSide(Side),
    /// Open a stored case.
    Open(CaseId),
    /// Begin a case.
    New,
    /// Ask which case file to open, or no longer.
    Import,
    /// Ask where to write the case, or no longer.
    Export,
    /// Open this case file.
    OpenFile(Place),
    /// Write the case there.
    WriteFile(Place),
    /// Ask where to write the sheets of this day, or no longer.
    AskForDay(NaiveDate),
    /// Write the sheets of this day there.
    WriteDay(NaiveDate, Place),
    /// No file after all.
    PutFileAway,
    /// Open the invented cases.
    Demo,
    /// Take the last change back.
    Undo,
    /// Bring it back again.
    Redo,
    /// Let the fields show again what is recorded, whatever stands in them.
    GiveBack,
    /// Store now.
    Save,
    /// Keep one's own draft on top of what was stored elsewhere.
    KeepMine,
    /// Go on from what was stored elsewhere.
    TakeTheirs,
    /// Follow other settings.
    Follow(Settings),
    /// Plan by other limits.
    KeepLimits(Box<Limits>),
    /// Offer other lens records.
    KeepLenses(Vec<LensRecord>),
    /// Type into the search of the list.
    Search,
    /// Move the focus to the next panel.
    NextPanel,
    /// Put a message away.
    Dismiss,
    /// Close the window.
    Quit,
}

/// What stands beside the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The page itself.
    Page,
    /// The theatre list.
    List,
    /// The findings.
    Findings,
}
