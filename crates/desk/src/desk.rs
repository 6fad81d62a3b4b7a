//! The desk as a whole, and its loop: it is shown, it gathers what happened, and one `update` does it.

use chrono::NaiveDate;
use egui::{Context, Ui};
use millrace_core::case::Draft;
use millrace_core::rules::Severity;
use millrace_wording::desk::frame;

use crate::exchange::{Answer, Keeps, Request, Surroundings};
use crate::follow;
use crate::frame::{shortcuts, tabs};
use crate::message::Message;
use crate::panels;
use crate::session::{SaveState, Session};
use crate::settings::Settings;
use crate::state::{State, who};
use crate::theme;
use crate::typing::Put;
use crate::update::{focus, only_for_the_front, update};
use crate::whereabouts::{Page, Whereabouts};
use crate::widgets::{act_once, half_typed, keep_arrows, waiting};
use crate::words::in_use;

pub struct Desk {
    state: State,
    /// From outside, not yet seen by a pass.
    incoming: Vec<Message>,
}

impl Desk {
    /// A desk with no case open.
    pub fn new(around: Surroundings, settings: Settings) -> Self {
        Self {
            state: State::new(around, settings),
            incoming: Vec::new(),
        }
    }

    /// Tells the desk what day it is.
    pub fn set_today(&mut self, today: NaiveDate) {
        self.state.around.today = today;
    }

    pub const fn settings(&self) -> &Settings {
        &self.state.settings
    }

    pub fn session(&self) -> Option<&Session> {
        self.state.session()
    }

    pub const fn page(&self) -> Page {
        self.state.page
    }

    /// Brings a page to the front.
    pub fn show_page(&mut self, page: Page) {
        self.state.show_page(page);
    }

    /// Where a person is: what to come back to.
    pub fn whereabouts(&self) -> Whereabouts {
        Whereabouts {
            page: self.state.page,
            case: self.session().map(|session| session.case().clone()),
        }
    }

    pub fn come_back(&mut self, whereabouts: Whereabouts) {
        self.state.page = whereabouts.page;
        let case = whereabouts.case.map(Request::OpenCase);
        self.state.requests.extend(case);
    }

    /// What is to be done outside, in order; each is told once.
    pub fn take_requests(&mut self) -> Vec<Request> {
        core::mem::take(&mut self.state.requests)
    }

    /// Takes an answer in: the next pass shows it.
    pub fn accept(&mut self, answer: Answer) {
        self.incoming.push(Message::Heard(answer));
    }

    /// Asks for something as a person at the desk would: what is being typed is taken and stored
    /// before another case, or none, comes in place of the open one.
    pub fn ask(&mut self, request: Request) {
        let message = Message::Ask(request);
        let is_asked = self.incoming.contains(&message) || self.state.deferred.contains(&message);
        if !is_asked && !self.state.is_quitting {
            self.incoming.push(message);
        }
    }

    /// Shows the desk and takes what the person did.
    pub fn show(&mut self, ui: &mut Ui) {
        let state = &mut self.state;
        theme::follow(ui.ctx(), &state.settings);
        keep_arrows(ui);
        act_once(ui);
        // From the last pass; fields that lost the focus over it end in this one.
        let due = core::mem::take(&mut state.deferred);
        let mut messages = Vec::new();
        for message in core::mem::take(&mut self.incoming) {
            if message.ends_typing() {
                messages.push(message);
            } else {
                update(state, ui.ctx(), message);
            }
        }
        waiting::belong_to(ui.ctx(), state.ground());
        half_typed::belong_to(ui.ctx(), state.typing_ground());
        messages.extend(shortcuts::pressed(ui, &state.settings));
        let may_leave =
            !state.shows_shortcuts && state.reading.is_none() && shortcuts::may_leave(ui);
        messages.extend(panels::show(state, ui));
        if may_leave && state.is_covered() && shortcuts::leaves(ui) {
            messages.push(Message::Leave);
        }
        only_for_the_front(state, &mut messages);
        if !state.is_covered() && messages.iter().any(Message::covers_the_page) {
            state.came_from = ui.memory(egui::Memory::focused);
        }
        let (later, now): (Vec<_>, Vec<_>) = messages.into_iter().partition(Message::ends_typing);
        if !now.is_empty() {
            ui.request_repaint();
        }
        for message in now.into_iter().chain(due) {
            update(state, ui.ctx(), message);
        }
        if state.open.is_some() && core::mem::take(&mut state.goes_to_page) {
            go_to_the_case(state, ui);
        }
        defer(state, ui, later);
        follow::follow(state, ui.ctx());
        autosave(state);
        keep_typed(state, ui.ctx());
    }
}

/// A case that was asked for is there: to the tab of its page, or to the name of a new one, which its page
/// begins with.
fn go_to_the_case(state: &mut State, ui: &Ui) {
    let is_new = state
        .session()
        .is_some_and(|it| *it.draft() == Draft::default());
    if is_new {
        state.show_page(Page::Biometry);
    } else {
        focus(ui.ctx(), tabs::tab_id(state.page));
    }
}

/// Ends what is being typed now and does the rest in the next pass, so that nothing typed is lost to a
/// page that goes away.
fn defer(state: &mut State, ui: &Ui, messages: Vec<Message>) {
    if messages.is_empty() {
        return;
    }
    if let Some(focused) = ui.memory(egui::Memory::focused) {
        ui.memory_mut(|memory| memory.surrender_focus(focused));
    }
    state.deferred.extend(messages);
    ui.request_repaint();
}

/// Has the open case stored after each change, one save at a time.
fn autosave(state: &mut State) {
    let Some(open) = &mut state.open else {
        return;
    };
    let is_apart = open.session.save_state() == SaveState::Conflict;
    if !is_apart && !open.session.wants_saving() {
        return;
    }
    let by = who(&state.settings, &state.around);
    if open.conflict.is_none() && open.session.wants_saving() {
        let save = open.session.begin_saving(by.clone());
        state.requests.push(Request::Save(save));
    }
    let aside = open.session.keep_aside(by);
    state.requests.extend(aside.map(Request::KeepAside));
}

/// Has what is being typed kept beside the register, before a second has passed, and what was left behind put
/// into its field.
fn keep_typed(state: &mut State, ctx: &Context) {
    if state.is_quitting || state.around.keeps == Keeps::Nothing {
        return;
    }
    if let Some(open) = &state.open {
        let session = &open.session;
        let unfinished = open.pages.biometry.unfinished(in_use(ctx), session.draft());
        if session.save_state() == SaveState::Saved && unfinished.is_empty() {
            half_typed::stored(ctx, &session.case().0);
        }
    }
    let put = state.typing.put(ctx);
    if let Some(Put::NoField(text)) = &put {
        let told = frame::no_field_for(state.settings.words, text);
        state.tell(Severity::Review, told);
    }
    let asked = state.typing.keep(ctx, put.as_ref());
    state.requests.extend(asked);
}
