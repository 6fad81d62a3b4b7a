//! What becomes of an action, one pass after it was asked for.

use egui::{Id, Ui};
use millrace_core::rules::Severity;

use crate::desk::Desk;
use crate::exchange::Request;
use crate::frame::file_panel::FileUse;
use crate::frame::{Action, Side, findings, tabs, theatre_list};
use crate::front::Front;
use crate::session::SaveState;

pub(crate) fn act(desk: &mut Desk, ui: &Ui, action: Action) {
    if leaves_the_case(&action) && !is_stored(desk, ui, &action) {
        return;
    }
    match action {
        Action::Show(page) => {
            desk.show_page(page);
            focus(ui, tabs::tab_id(page));
        }
        Action::ShowSettings => turn_to(desk, Front::Settings),
        Action::ShowSecondLook | Action::Export if desk.open.is_none() => {}
        Action::ShowSecondLook => turn_to(desk, Front::SecondLook),
        Action::ShowShortcuts => desk.shows_shortcuts = !desk.shows_shortcuts,
        Action::ShowSide(side) => {
            desk.side = if desk.side == side { Side::Page } else { side };
        }
        Action::Open(case) => {
            desk.goes_to_page = true;
            desk.requests.push(Request::OpenCase(case));
        }
        Action::New => {
            desk.goes_to_page = true;
            desk.requests.push(Request::NewCase);
        }
        Action::Import
        | Action::OpenFile(_)
        | Action::Export
        | Action::WriteFile(_)
        | Action::AskForDay(_)
        | Action::WriteDay(..) => with_files(desk, action),
        Action::PutFileAway => desk.file_panel = None,
        Action::Demo => desk.requests.push(Request::OpenDemo),
        Action::Quit => {
            desk.is_quitting = true;
            desk.requests.push(Request::Quit);
        }
        Action::GiveBack => give_back(desk, ui),
        Action::Undo | Action::Redo | Action::Save => on_session(desk, &action),
        Action::KeepMine | Action::TakeTheirs => settle(desk, &action),
        Action::Follow(settings) => {
            desk.requests.push(Request::KeepSettings(settings.clone()));
            desk.settings = settings;
        }
        Action::KeepLimits(limits) => {
            if let Some(open) = &mut desk.open {
                open.session.replan(&limits);
            }
            desk.around.limits = (*limits).clone();
            desk.requests.push(Request::KeepLimits(limits));
        }
        Action::KeepLenses(lenses) => {
            desk.around.lenses.clone_from(&lenses);
            desk.requests.push(Request::KeepLenses(lenses));
        }
        Action::Search => {
            desk.side = Side::List;
            focus(ui, theatre_list::search_id());
        }
        Action::NextPanel => next_panel(desk, ui),
        Action::Dismiss => desk.message = None,
    }
}

/// Files that are asked for, read and written.
fn with_files(desk: &mut Desk, action: Action) {
    match action {
        Action::Import => desk.ask_for_file(FileUse::Open),
        Action::OpenFile(place) => {
            desk.file_panel = None;
            desk.requests.push(Request::ImportFile(place));
        }
        Action::Export => desk.ask_for_file(FileUse::Write),
        Action::WriteFile(place) => {
            desk.file_panel = None;
            if let Some(open) = &desk.open {
                let draft = Box::new(open.session.draft().clone());
                desk.requests.push(Request::ExportFile { draft, place });
            }
        }
        Action::AskForDay(day) => desk.ask_for_file(FileUse::Day(day)),
        Action::WriteDay(day, place) => {
            desk.file_panel = None;
            let paper = desk.settings.paper;
            desk.requests.push(Request::WriteDay(day, paper, place));
        }
        _ => {}
    }
}

/// To the front with it, or back to the page if it is there already.
fn turn_to(desk: &mut Desk, front: Front) {
    let is_there = desk.front == front;
    desk.front = if is_there { Front::Page } else { front };
    desk.side = Side::Page;
}

const fn leaves_the_case(action: &Action) -> bool {
    matches!(
        action,
        Action::Open(_) | Action::New | Action::OpenFile(_) | Action::Demo | Action::Quit
    )
}

/// Whether the open case is stored. If not, the action waits for the answer; if it cannot be
/// stored, the person is told and nothing is closed.
fn is_stored(desk: &mut Desk, ui: &Ui, action: &Action) -> bool {
    let Some(open) = &desk.open else {
        return true;
    };
    match open.session.save_state() {
        SaveState::Saved => is_nothing_lost(desk, ui),
        SaveState::Saving | SaveState::Unsaved => {
            desk.deferred.push(action.clone());
            ui.request_repaint();
            false
        }
        SaveState::Failed(_) => {
            let message = "The last changes of this case could not be saved, so it stays open. Try again, or write it to a file first";
            desk.message = Some((Severity::Stop, message.to_owned()));
            false
        }
        SaveState::Conflict => {
            let message = "This case was changed elsewhere, so it stays open: choose on the page which of the two goes on";
            desk.message = Some((Severity::Stop, message.to_owned()));
            desk.front = Front::Page;
            desk.side = Side::Page;
            false
        }
    }
}

/// Whether the person was told once of what stands in the fields and is not taken: it is not stored and
/// goes with the window.
fn is_nothing_lost(desk: &mut Desk, ui: &Ui) -> bool {
    let waiting = desk.waiting(ui.ctx());
    let Some(open) = &mut desk.open else {
        return true;
    };
    if waiting.is_empty() || open.told == waiting {
        return true;
    }
    let names: Vec<_> = waiting.iter().map(|it| it.what.as_str()).collect();
    let message = format!(
        "Not taken, and so not stored: {}. Correct it, or go on once more to leave it out",
        names.join(", ")
    );
    desk.message = Some((Severity::Review, message));
    open.told = waiting;
    false
}

fn give_back(desk: &Desk, ui: &Ui) {
    for waiting in desk.waiting(ui.ctx()) {
        if let Some(field) = waiting.field {
            crate::widgets::give_back(ui.ctx(), field);
        }
    }
}

fn on_session(desk: &mut Desk, action: &Action) {
    let Some(open) = &mut desk.open else {
        return;
    };
    let limits = &desk.around.limits;
    match action {
        Action::Undo => open.session.undo(limits),
        Action::Redo => open.session.redo(limits),
        _ => open.session.retry_saving(),
    }
}

fn settle(desk: &mut Desk, action: &Action) {
    let Some(open) = &mut desk.open else {
        return;
    };
    let Some(conflict) = open.conflict.take() else {
        return;
    };
    if *action == Action::KeepMine {
        open.session.keep_mine(conflict.revision);
    } else {
        let limits = &desk.around.limits;
        open.session
            .take_theirs(conflict.revision, *conflict.theirs, limits);
    }
}

pub(crate) fn focus(ui: &Ui, id: Id) {
    ui.memory_mut(|memory| memory.request_focus(id));
}

/// List → page → findings → list.
fn next_panel(desk: &mut Desk, ui: &Ui) {
    let stops = [
        theatre_list::search_id(),
        tabs::tab_id(desk.page),
        findings::landing_id(),
    ];
    let last = ui.data(|data| data.get_temp::<usize>(Id::unique("panel with the focus")));
    let next = last.map_or(1, |last| (last + 1) % stops.len());
    ui.data_mut(|data| data.insert_temp(Id::unique("panel with the focus"), next));
    if let Some(id) = stops.get(next) {
        focus(ui, *id);
    }
}
