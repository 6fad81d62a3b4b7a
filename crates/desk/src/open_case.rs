//! The open case: what is remembered of it, and what its pages are shown.

use egui::{Context, Id};

use crate::desk::{Desk, Surroundings};
use crate::exchange::CaseId;
use crate::frame::conflict::Conflict;
use crate::frame::findings::FindingsState;
use crate::pages::{CaseView, PagesState};
use crate::session::Session;
use crate::settings::Settings;
use crate::widgets::waiting::{self, Waiting};

/// The case and what is remembered beside it.
pub(crate) struct OpenCase {
    pub(crate) session: Session,
    pub(crate) pages: PagesState,
    pub(crate) findings: FindingsState,
    pub(crate) conflict: Option<Conflict>,
    /// What the person was told of that is not taken, before the case is left.
    pub(crate) told: Vec<Waiting>,
}

impl Desk {
    /// What stands in the fields of the open case and is not taken, wherever they are.
    pub(crate) fn waiting(&self, ctx: &Context) -> Vec<Waiting> {
        let Some(open) = &self.open else {
            return Vec::new();
        };
        let mut found = waiting::of(ctx, ground(open.session.case()));
        found.extend(open.pages.biometry.unfinished(open.session.draft()));
        found
    }
}

/// Sets the fields of a case apart from those of another.
pub(crate) fn ground(case: &CaseId) -> Id {
    Id::unique(("case", &case.0))
}

pub(crate) fn view<'a>(
    session: &'a Session,
    around: &'a Surroundings,
    settings: &'a Settings,
) -> CaseView<'a> {
    CaseView {
        ground: ground(session.case()),
        draft: session.draft(),
        plan: session.plan(),
        limits: &around.limits,
        lenses: &around.lenses,
        author: &settings.author,
        own: &settings.own,
        today: around.today,
    }
}
