//! The one place where the desk changes.

use std::collections::BTreeSet;

use egui::{Context, Id};
use millrace_core::case::{Command, SetAside};
use millrace_core::case_file;
use millrace_core::rules::Severity;
use millrace_wording::desk::{aside, frame};

use crate::answers;
use crate::exchange::{Keeps, LeftId, Place, Request};
use crate::frame::file_panel::FilePanel;
use crate::frame::{aside_band, findings, tabs, theatre_list};
use crate::message::{FileUse, Message, Whose};
use crate::next_entry;
use crate::order;
use crate::pages;
use crate::session::{SaveState, Session};
use crate::signed::{self, Lock};
use crate::state::{Invented, OpenCase, State};
use crate::whereabouts::{Front, Page, Side};
use crate::widgets;

pub(crate) fn update(state: &mut State, ctx: &Context, message: Message) {
    if message.leaves_the_case() && !is_stored(state, ctx, &message) {
        return;
    }
    if message.leaves_the_register() && !is_told_of_the_demo(state) {
        return;
    }
    match message {
        Message::Change(_) | Message::Undo | Message::Redo => change(state, message),
        Message::Hold(lock) => hold(state, lock),
        Message::SetAside => set_aside(state, ctx),
        Message::Reorder(case, toward) => order::reorder(state, ctx, case, toward),
        Message::GoTo(aim) => {
            state.show_page(aim.page);
            widgets::sought::seek(ctx, aim.name);
        }
        Message::Ask(request) => ask(state, request),
        Message::Heard(answer) => answers::hear(state, answer),
        Message::Show(page) => next_entry::turn_to(state, ctx, page),
        Message::Turn(_)
        | Message::ShowSide(_)
        | Message::ShowShortcuts
        | Message::AskForFile(_)
        | Message::PutFileAway
        | Message::Leave => cover(state, ctx, &message),
        Message::ComeBack => {
            if let Some(id) = state.came_from.take() {
                focus(ctx, id);
            }
        }
        Message::UseFile(file_use, place) => use_file(state, file_use, place),
        Message::GiveBack => {
            for field in state.waiting(ctx).iter().filter_map(|it| it.field) {
                widgets::give_back(ctx, field);
            }
        }
        Message::PutIn(left) => put_in(state, ctx, left),
        Message::LeaveOut(left) => {
            let settled = state.typing.leave_out(left);
            state.requests.push(settled);
        }
        Message::Save => {
            if let Some(open) = &mut state.open {
                open.session.retry_saving();
            }
        }
        Message::GoOnFrom(whose) => settle(state, whose),
        Message::SaveTogether { of_theirs, version } => save_together(state, &of_theirs, version),
        Message::Search => {
            state.side = Side::List;
            focus(ctx, theatre_list::search_id());
        }
        Message::NextPanel => next_panel(state, ctx),
        Message::Dismiss => state.notice = None,
    }
}

/// Leaves out what would change the case behind what stands in front: there undo belongs to the
/// settings, and to nothing during a second look.
pub(crate) fn only_for_the_front(state: &mut State, messages: &mut Vec<Message>) {
    if state.front == Front::Settings && messages.contains(&Message::Undo) {
        state.settings_page.ask_to_undo();
    }
    // The day view stands before the case, which is out of sight.
    if matches!(state.front, Front::Settings | Front::Day) {
        messages.retain(|message| !matches!(message, Message::Undo | Message::Redo));
    }
    if state.is_blind() {
        messages.retain(|message| {
            use Message::{NextPanel, Redo, Search, ShowSide, Undo};
            !matches!(message, Undo | Redo | Search | NextPanel | ShowSide(_))
        });
    }
}

/// What a request means for the desk itself, which does not wait for an answer.
fn ask(state: &mut State, request: Request) {
    match &request {
        Request::OpenCase(_) | Request::NewCase => state.goes_to_page = true,
        Request::Quit => {
            state.is_quitting = true;
            state.requests.extend(state.typing.give_up());
        }
        Request::OpenDemo => state.requests.extend(state.typing.give_up()),
        Request::KeepSettings(settings) => state.settings.clone_from(settings),
        Request::KeepLimits(limits) => {
            if let Some(open) = &mut state.open {
                open.session.replan(limits);
            }
            state.around.limits.clone_from(limits);
            state.day.renew();
        }
        Request::KeepLenses(lenses) => state.around.lenses.clone_from(lenses),
        _ => {}
    }
    state.requests.push(request);
}

/// Puts a text that was left behind into its field of the open case, on whatever page that stands.
fn put_in(state: &mut State, ctx: &Context, left: LeftId) {
    if state.open.as_ref().is_none_or(OpenCase::is_locked) {
        return;
    }
    let page = state.typing.begin_to_put(ctx, left);
    if let Some(page) = page.and_then(Page::with_code) {
        state.show_page(page);
        ctx.request_repaint();
    }
}

/// Asks which file, or no longer.
fn ask_for_file(state: &mut State, file_use: FileUse) {
    if file_use == FileUse::Write && state.open.is_none() {
        return;
    }
    let is_asked = state.file_panel.as_ref().map(|panel| panel.file_use) == Some(file_use);
    let draft = state.session().map(Session::draft);
    state.file_panel = (!is_asked).then(|| FilePanel::new(file_use, draft));
    state.side = Side::Page;
}

fn use_file(state: &mut State, file_use: FileUse, place: Place) {
    state.file_panel = None;
    let request = match (file_use, &state.open) {
        (FileUse::Open, _) => Request::ImportFile(place),
        (FileUse::Write, Some(open)) => {
            Request::ExportFile(Box::new(open.session.draft().clone()), place)
        }
        (FileUse::Write, None) => return,
        (FileUse::ReadLenses, _) => Request::ReadLenses(place),
        (FileUse::WriteLenses, _) => Request::WriteLenses(state.around.lenses.clone(), place),
        (FileUse::Day(day), _) => Request::WriteDay(day, state.settings.paper, place),
    };
    state.requests.push(request);
}

/// Brings something in front of the page, or leaves it. Where the page is back, the focus is where it was.
fn cover(state: &mut State, ctx: &Context, message: &Message) {
    let was_covered = state.is_covered();
    match message {
        Message::Turn(front) => turn_to(state, *front),
        Message::ShowSide(side) => {
            let is_there = state.side == *side;
            state.side = if is_there { Side::Page } else { *side };
        }
        Message::ShowShortcuts => state.shows_shortcuts = !state.shows_shortcuts,
        Message::AskForFile(file_use) => ask_for_file(state, *file_use),
        Message::PutFileAway => state.file_panel = None,
        _ => leave(state),
    }
    if was_covered && !state.is_covered() {
        // A pass later: the toolkit keeps the focus in a sheet that was just closed.
        state.deferred.push(Message::ComeBack);
        ctx.request_repaint();
    }
}

/// Leaves the uppermost of what covers the page.
fn leave(state: &mut State) {
    if state.file_panel.take().is_some() {
        return;
    }
    if state.side != Side::Page {
        state.side = Side::Page;
    } else if state.front != Front::Page {
        state.front = Front::Page;
    } else {
        if let Some(open) = &mut state.open {
            open.asks_why_aside = false;
        }
        hold(state, Lock::Closed);
    }
}

/// To the front with it, or back to the page if it is there already.
fn turn_to(state: &mut State, front: Front) {
    if front == Front::SecondLook && state.open.is_none() {
        return;
    }
    let is_there = state.front == front;
    state.front = if is_there { Front::Page } else { front };
    state.side = Side::Page;
}

/// Whether the open case is stored. If not, the message waits for the answer; if it cannot be
/// stored, the person is told and nothing is closed.
fn is_stored(state: &mut State, ctx: &Context, message: &Message) -> bool {
    let Some(open) = &state.open else {
        return true;
    };
    let words = state.settings.words;
    match open.session.save_state() {
        SaveState::Saved => is_nothing_lost(state, ctx),
        SaveState::Saving | SaveState::Unsaved => {
            state.deferred.push(message.clone());
            ctx.request_repaint();
            false
        }
        SaveState::Failed(_) => {
            state.tell(Severity::Stop, frame::stays_open_unsaved(words));
            false
        }
        SaveState::Conflict => {
            state.tell(Severity::Stop, frame::stays_open_conflict(words));
            state.front = Front::Page;
            state.side = Side::Page;
            false
        }
    }
}

/// Whether the person was told once that what was changed in the demo goes with it.
fn is_told_of_the_demo(state: &mut State) -> bool {
    if state.around.keeps == Keeps::Everything || state.invented != Invented::Changed {
        return true;
    }
    state.invented = Invented::Told;
    state.tell(Severity::Review, frame::demo_goes(state.settings.words));
    false
}

/// Whether the person was told once of what stands in the fields and is not taken: it is not stored and
/// goes with the window.
fn is_nothing_lost(state: &mut State, ctx: &Context) -> bool {
    let waiting = state.waiting(ctx);
    let Some(open) = &mut state.open else {
        return true;
    };
    if waiting.is_empty() || open.told == waiting {
        return true;
    }
    let names: Vec<_> = waiting.iter().map(|it| it.what.as_str()).collect();
    let told = frame::leaves_out(state.settings.words, names.join(", "));
    open.told = waiting;
    state.tell(Severity::Review, told);
    false
}

/// Changes the open case, unless it is signed and nobody said that the plan is to be changed.
fn change(state: &mut State, message: Message) {
    let Some(open) = &mut state.open else {
        return;
    };
    if open.holds_a_sheet() {
        let told = frame::is_locked(state.settings.words);
        return state.tell(Severity::Review, told);
    }
    let (before, limits) = (open.session.version(), &state.around.limits);
    if matches!(message, Message::Change(Command::SetAside(_))) {
        open.asks_why_aside = false;
    }
    match message {
        Message::Change(command) => open.session.apply(command, limits),
        Message::Undo => open.session.undo(limits),
        _ => open.session.redo(limits),
    }
    if open.session.version() == before {
        return;
    }
    if let Some(sheets) = &mut open.pages.sheet.sheets {
        signed::changed(sheets);
    }
}

/// An empty case is set aside at once; any other when its reason is given.
fn set_aside(state: &mut State, ctx: &Context) {
    let Some(open) = &mut state.open else {
        return;
    };
    if open.is_locked() {
        return;
    }
    if !open.session.draft().is_empty() {
        open.asks_why_aside = true;
        state.side = Side::Page;
        state.front = Front::Page;
        let ground = pages::ground(open.session.case());
        return focus(ctx, aside_band::reason_id(ground));
    }
    if state.settings.author.trim().is_empty() {
        return state.tell(Severity::Review, aside::name_first(state.settings.words));
    }
    let said = SetAside {
        reason: None,
        by: state.settings.author.clone(),
        on: state.around.today,
    };
    change(state, Message::Change(Command::SetAside(said)));
}

/// Keeps a signed case as it is, or lets it be changed. What was said of its signature is no longer news.
fn hold(state: &mut State, lock: Lock) {
    if let Some(open) = &mut state.open {
        open.lock = lock;
        state.notice = None;
    }
}

fn settle(state: &mut State, whose: Whose) {
    let Some(open) = &mut state.open else {
        return;
    };
    let Some(conflict) = open.conflict.take() else {
        return;
    };
    match whose {
        Whose::Mine => open.session.keep_mine(conflict.revision),
        Whose::Theirs => {
            let limits = &state.around.limits;
            open.session
                .take_theirs(conflict.revision, *conflict.theirs, limits);
            // They may have signed it: until its sheets are known, it is held.
            open.lock = Lock::Closed;
            open.pages.sheet.sheets = None;
            let case = open.session.case().clone();
            state.requests.push(Request::ListSheets(case));
        }
    }
}

/// Saves one's own draft with these values of the other one, on top of it. Where that is one of the two as it
/// is, it goes on from that; what the register has of other cases makes no third one.
fn save_together(state: &mut State, of_theirs: &BTreeSet<Vec<String>>, version: u64) {
    let words = state.settings.words;
    let Some(open) = &mut state.open else {
        return;
    };
    let Some(conflict) = &open.conflict else {
        return;
    };
    // What was being typed ended with the act: nobody has chosen between that and theirs.
    if open.session.version() != version {
        return;
    }
    let mine = open.session.draft();
    match case_file::together(mine, &conflict.theirs, of_theirs) {
        Ok(made) if made == *conflict.theirs => settle(state, Whose::Theirs),
        Ok(made) if of_theirs.is_empty() => {
            let limits = &state.around.limits;
            open.session.take_others(made.other_cases, limits);
            settle(state, Whose::Mine);
        }
        Ok(made) => {
            let revision = conflict.revision.clone();
            let limits = &state.around.limits;
            open.session.put_together(revision, made, limits);
            open.conflict = None;
        }
        Err(error) => state.tell(Severity::Stop, frame::not_together(words, error)),
    }
}

pub(crate) fn focus(ctx: &Context, id: Id) {
    ctx.memory_mut(|memory| memory.request_focus(id));
}

/// List → page → findings → list.
fn next_panel(state: &State, ctx: &Context) {
    let stops = [
        theatre_list::search_id(),
        tabs::tab_id(state.page),
        findings::landing_id(),
    ];
    let key = Id::unique("panel with the focus");
    let last = ctx.data(|data| data.get_temp::<usize>(key));
    let next = last.map_or(1, |last| (last + 1) % stops.len());
    ctx.data_mut(|data| data.insert_temp(key, next));
    if let Some(id) = stops.get(next) {
        focus(ctx, *id);
    }
}
