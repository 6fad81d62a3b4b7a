//! The pages. Each is a function of a view, which returns commands and changes nothing.

pub mod approach;
pub mod biometry;
mod incision_parts;
pub mod lens;
mod outcome;
pub mod second_look;
pub mod settings;
pub mod sheet;
pub mod use_mine;

use chrono::NaiveDate;
use egui::{Id, Ui};
use millrace_core::case::{Command, Draft};
use millrace_core::lens::LensRecord;
use millrace_core::limits::Limits;
use millrace_core::plan::{Plan, PlanRefused};

use crate::exchange::{CaseId, Surroundings};
use crate::power_lines::PowerLines;
use crate::session::Session;
use crate::settings::{OwnWays, Settings};
use crate::whereabouts::Page;

/// What a page is shown: the case, its plan, and who looks at it today.
#[derive(Clone, Copy)]
pub struct CaseView<'a> {
    /// Sets the fields of this case apart from those of another; the ground of every id on a page.
    pub ground: Id,
    pub draft: &'a Draft,
    /// What follows from it, or why nothing does.
    pub plan: Result<&'a Plan, &'a PlanRefused>,
    /// The powers of its lens, each with what is said of it.
    pub powers: &'a PowerLines,
    pub limits: &'a Limits,
    /// The clinic's lens records.
    pub lenses: &'a [LensRecord],
    /// Who is at the desk; empty until it was said.
    pub author: &'a str,
    /// How this surgeon usually plans, to be offered.
    pub own: &'a OwnWays,
    pub today: NaiveDate,
}

/// Sets the fields of a case apart from those of another.
pub(crate) fn ground(case: &CaseId) -> Id {
    Id::unique(("case", &case.0))
}

impl<'a> CaseView<'a> {
    /// What the pages of the open case are shown.
    pub(crate) fn of(
        session: &'a Session,
        around: &'a Surroundings,
        settings: &'a Settings,
    ) -> Self {
        Self {
            ground: ground(session.case()),
            draft: session.draft(),
            plan: session.plan(),
            powers: session.powers(),
            limits: &around.limits,
            lenses: &around.lenses,
            author: &settings.author,
            own: &settings.own,
            today: around.today,
        }
    }
}

/// What the pages remember of one case beside its draft: half-entered readings, what is opened.
#[derive(Default)]
pub struct PagesState {
    pub biometry: biometry::BiometryState,
    pub lens: lens::LensState,
    pub approach: approach::ApproachState,
    pub sheet: sheet::SheetState,
    pub second_look: second_look::SecondLookState,
}

/// Shows one page that asks for nothing beyond changes of the case; the Sheet page asks for more and is
/// shown by [`sheet::sheet_page`].
pub fn show(ui: &mut Ui, page: Page, view: &CaseView<'_>, state: &mut PagesState) -> Vec<Command> {
    match page {
        Page::Biometry => biometry::biometry_page(ui, view, &mut state.biometry),
        Page::Lens => lens::lens_page(ui, view, &mut state.lens),
        Page::Approach => approach::approach_page(ui, view, &mut state.approach),
        Page::Sheet => Vec::new(),
        Page::Outcome => outcome::outcome_page(ui),
    }
}
