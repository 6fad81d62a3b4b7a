//! What the desk holds: the open case, where the person is, and what waits.

use egui::{Context, Id};
use millrace_core::rules::Severity;

use crate::exchange::{Conflict, Keeps, Newer, Request, Revision, SheetRow, Surroundings, Who};
use crate::frame::conflict::Choices;
use crate::frame::day::DayState;
use crate::frame::file_panel::FilePanel;
use crate::frame::findings::FindingsState;
use crate::frame::reference::Reading;
use crate::frame::theatre_list::ListState;
use crate::message::Message;
use crate::pages::settings::SettingsState;
use crate::pages::{PagesState, ground};
use crate::session::Session;
use crate::settings::Settings;
use crate::signed::{Lock, Signed};
use crate::typing::Typing;
use crate::whereabouts::{Front, Page, Side};
use crate::widgets::half_typed;
use crate::widgets::waiting::{self, Waiting};
use crate::words::in_use;

pub(crate) struct State {
    pub(crate) around: Surroundings,
    pub(crate) settings: Settings,
    pub(crate) open: Option<OpenCase>,
    pub(crate) list: ListState,
    pub(crate) day: DayState,
    pub(crate) page: Page,
    pub(crate) side: Side,
    pub(crate) front: Front,
    pub(crate) settings_page: SettingsState,
    pub(crate) shows_shortcuts: bool,
    /// The text of reference that is being read.
    pub(crate) reading: Option<Reading>,
    pub(crate) notice: Option<(Severity, String)>,
    pub(crate) file_panel: Option<FilePanel>,
    /// What waits for the next pass, or for the open case to be stored.
    pub(crate) deferred: Vec<Message>,
    pub(crate) requests: Vec<Request>,
    pub(crate) is_quitting: bool,
    /// Of the invented cases: what of them was changed, and whether the person was told that it goes.
    pub(crate) invented: Invented,
    /// What had the focus when something came in front of the page.
    pub(crate) came_from: Option<Id>,
    /// A case that was asked for takes the focus to its page once it is there.
    pub(crate) goes_to_page: bool,
    /// What is kept beside the register of that which is not in it yet.
    pub(crate) typing: Typing,
}

/// What became of the invented cases.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Invented {
    AsTheyCame,
    Changed,
    /// The person knows that the changes go.
    Told,
}

/// The open case and what is remembered beside it.
pub(crate) struct OpenCase {
    pub(crate) session: Session,
    pub(crate) pages: PagesState,
    pub(crate) findings: FindingsState,
    pub(crate) conflict: Option<Conflict>,
    /// What of it was chosen.
    pub(crate) choices: Choices,
    /// What somebody else stored since, while something was being done here.
    pub(crate) newer: Option<Newer>,
    /// Which of those the person was told of.
    pub(crate) told_of_newer: Option<Revision>,
    /// Keeps a signed case as it is.
    pub(crate) lock: Lock,
    /// It is asked why the case is to be set aside.
    pub(crate) asks_why_aside: bool,
    /// What the person was told of that is not taken, before the case is left.
    pub(crate) told: Vec<Waiting>,
}

impl OpenCase {
    /// A case that was just opened.
    pub(crate) fn new(session: Session, sheets: Option<Vec<SheetRow>>) -> Self {
        let mut pages = PagesState::default();
        pages.sheet.sheets = sheets;
        Self {
            session,
            pages,
            findings: FindingsState::default(),
            conflict: None,
            choices: Choices::default(),
            newer: None,
            told_of_newer: None,
            lock: Lock::Closed,
            asks_why_aside: false,
            told: Vec::new(),
        }
    }

    /// What its sheets say of it.
    pub(crate) fn signed(&self) -> Signed {
        Signed::of(self.pages.sheet.sheets.as_deref())
    }

    /// Whether it is signed and nobody said that the plan is to be changed.
    pub(crate) fn holds_a_sheet(&self) -> bool {
        self.signed().is_locked(self.lock)
    }

    /// Whether nothing of it may change now.
    pub(crate) fn is_locked(&self) -> bool {
        self.holds_a_sheet() || self.session.draft().set_aside.is_some()
    }
}

/// Who sits at the desk, and what it is called: by its own name, or by that of the computer.
pub(crate) fn who(settings: &Settings, around: &Surroundings) -> Who {
    let names = [&settings.desk, &around.computer];
    let named = names.into_iter().find(|name| !name.trim().is_empty());
    Who {
        person: settings.author.clone(),
        desk: named.cloned(),
    }
}

impl State {
    pub(crate) fn new(around: Surroundings, settings: Settings) -> Self {
        Self {
            around,
            settings,
            open: None,
            list: ListState::default(),
            day: DayState::default(),
            page: Page::default(),
            side: Side::Page,
            front: Front::Page,
            settings_page: SettingsState::default(),
            shows_shortcuts: false,
            reading: None,
            notice: None,
            file_panel: None,
            deferred: Vec::new(),
            requests: Vec::new(),
            is_quitting: false,
            invented: Invented::AsTheyCame,
            came_from: None,
            goes_to_page: false,
            typing: Typing::default(),
        }
    }

    pub(crate) fn session(&self) -> Option<&Session> {
        self.open.as_ref().map(|open| &open.session)
    }

    /// Sets the fields of the open case apart from those of another.
    pub(crate) fn ground(&self) -> Option<Id> {
        self.session().map(|session| ground(session.case()))
    }

    /// Where the texts of the fields that are shown belong to: what stands in front of the pages is typed
    /// anew, and of the invented cases nothing is kept.
    pub(crate) fn typing_ground(&self) -> Option<half_typed::Ground> {
        let session = self.session()?;
        let is_kept = self.front == Front::Page && self.around.keeps == Keeps::Everything;
        is_kept.then(|| half_typed::Ground {
            case: session.case().0.clone(),
            page: self.page.code(),
        })
    }

    /// Whether something stands in front of the page, or in its place, that can be left for it.
    pub(crate) fn is_covered(&self) -> bool {
        let asks = |open: &OpenCase| open.lock == Lock::Asked || open.asks_why_aside;
        let asks = self.open.as_ref().is_some_and(asks);
        asks || self.shows_shortcuts
            || self.reading.is_some()
            || self.file_panel.is_some()
            || self.side != Side::Page
            || self.front != Front::Page
    }

    /// Brings a page to the front.
    pub(crate) fn show_page(&mut self, page: Page) {
        self.came_from = None;
        self.page = page;
        self.front = Front::Page;
        self.side = Side::Page;
    }

    /// What the list and the day view have may be old.
    pub(crate) fn renew_lists(&mut self) {
        self.list.renew();
        self.day.renew();
    }

    /// Whether a second look is being taken: then nothing on the desk may show a first number.
    pub(crate) fn is_blind(&self) -> bool {
        let open = self.open.as_ref();
        self.front == Front::SecondLook
            && open.is_some_and(|open| {
                let draft = open.session.draft();
                open.pages.second_look.is_being_taken(draft)
            })
    }

    /// What stands in the fields of the open case and is not taken, wherever they are.
    pub(crate) fn waiting(&self, ctx: &Context) -> Vec<Waiting> {
        let Some(open) = &self.open else {
            return Vec::new();
        };
        let mut found = waiting::of(ctx, ground(open.session.case()));
        found.extend(
            open.pages
                .biometry
                .unfinished(in_use(ctx), open.session.draft()),
        );
        found
    }

    /// Whether a text is being typed that the open case does not hold.
    pub(crate) fn is_typing(&self, ctx: &Context) -> bool {
        let focused = ctx.memory(egui::Memory::focused);
        let Some((session, focused)) = self.session().zip(focused) else {
            return false;
        };
        let is_here = |it: &half_typed::HalfTyped| {
            it.field == focused.value() && it.ground.case == session.case().0
        };
        half_typed::all(ctx)
            .iter()
            .any(|it| is_here(it) && !it.is_taken)
    }

    /// Tells the person something at the head of the page.
    pub(crate) fn tell(&mut self, severity: Severity, words: impl Into<String>) {
        self.notice = Some((severity, words.into()));
    }
}
