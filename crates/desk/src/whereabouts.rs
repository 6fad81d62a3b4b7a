//! Where a person is at the desk, to come back to it another day, and the file that is asked for on the
//! way.

use crate::desk::Desk;
use crate::exchange::{CaseId, Request};
use crate::frame::Side;
use crate::frame::file_panel::{FilePanel, FileUse};
use crate::pages::Page;

/// Where a person is.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Whereabouts {
    /// The page.
    pub page: Page,
    /// The open case.
    pub case: Option<CaseId>,
}

impl Desk {
    /// Where a person is: what to come back to.
    #[must_use]
    pub fn whereabouts(&self) -> Whereabouts {
        Whereabouts {
            page: self.page,
            case: self.session().map(|session| session.case().clone()),
        }
    }

    /// Comes back to where a person was.
    pub fn come_back(&mut self, whereabouts: Whereabouts) {
        self.page = whereabouts.page;
        self.requests
            .extend(whereabouts.case.map(Request::OpenCase));
    }

    /// Asks which file, or no longer.
    pub(crate) fn ask_for_file(&mut self, file_use: FileUse) {
        let is_asked = self.file_panel.as_ref().map(|panel| panel.file_use) == Some(file_use);
        self.file_panel = (!is_asked).then(|| FilePanel::new(file_use));
        self.side = Side::Page;
    }
}
