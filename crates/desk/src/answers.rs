//! What becomes of an answer from outside.

use millrace_core::finding::OtherCase;
use millrace_core::rules::Severity;
use millrace_wording::desk::frame;

use crate::exchange::{Answer, CaseId, Placed, Request, SheetRow};
use crate::frame::conflict::Choices;
use crate::session::Session;
use crate::signed::Lock;
use crate::state::{Invented, OpenCase, State};
use crate::whereabouts::{Front, Side};

pub(crate) fn hear(state: &mut State, answer: Answer) {
    match answer {
        Answer::Opened {
            case,
            revision,
            draft,
            sheets,
            other_cases,
        } => {
            let session = Session::open(case, revision, *draft, &state.around.limits);
            let open = OpenCase::new(session, sheets);
            state.open = Some(open);
            others_found(state, other_cases);
            state.side = Side::Page;
            state.front = Front::Page;
            state.came_from = None;
        }
        Answer::Saved {
            case,
            revision,
            at,
            other_cases,
        } => {
            let limits = state.around.limits.clone();
            if let Some(open) = of(state, &case) {
                open.session.saved(revision, at);
                open.session.take_others(other_cases, &limits);
                // What the sheets are worth may have changed with it.
                state.requests.push(Request::ListSheets(case));
            }
            state.renew_lists();
            state.invented = Invented::Changed;
        }
        Answer::NotSaved { case, why } => not_saved(state, &case, why),
        Answer::Conflict { case, conflict } => {
            if let Some(open) = of(state, &case) {
                open.session.conflicts();
                open.newer = None;
                open.conflict = Some(conflict);
                open.choices = Choices::default();
            }
        }
        Answer::Sheets { case, sheets } => {
            if let Some(open) = of(state, &case) {
                open.pages.sheet.sheets = Some(sheets);
            }
        }
        Answer::Signed { case, sheets } => signed(state, &case, sheets),
        Answer::Newer(newer) => {
            if let Some(open) = of(state, &newer.case.clone()) {
                open.newer = Some(newer);
            }
            state.renew_lists();
        }
        Answer::Left(texts) => state.typing.offer(texts),
        Answer::Pages { of, pages } => {
            if let Some(open) = self::of(state, &of.case) {
                open.pages.sheet.preview.take(of, pages);
            }
        }
        Answer::Listed(listed) => state.list.take(listed),
        Answer::Day(list) => state.day.take(list),
        Answer::Ordered(places) => ordered(state, places),
        Answer::LensesRead(records) => state.settings_page.look_at_lenses(records),
        Answer::ListChanged => state.renew_lists(),
        Answer::Done { message } => state.tell(Severity::Note, message),
        Answer::Failed { message } => state.tell(Severity::Stop, message),
    }
}

/// The open case goes on from the revision that has its place.
fn ordered(state: &mut State, places: Result<Vec<Placed>, String>) {
    state.renew_lists();
    let placed = match places {
        Ok(placed) => placed,
        Err(why) => {
            state.tell(Severity::Stop, why);
            Vec::new()
        }
    };
    if !placed.is_empty() {
        state.invented = Invented::Changed;
    }
    if let Some(open) = &mut state.open {
        let case = open.session.case();
        let placed = placed.into_iter().find(|it| it.case == *case);
        open.session.ordered(placed);
    }
}

/// What the register has of other cases now: a case that is planned takes it over and is stored with it; of a
/// signed one, or one that is set aside, the person is told.
fn others_found(state: &mut State, others: Vec<OtherCase>) {
    let words = state.settings.words;
    let limits = state.around.limits.clone();
    let Some(open) = &mut state.open else { return };
    if open.session.draft().other_cases == others {
        return;
    }
    if !open.is_locked() {
        return open.session.learn(others, &limits);
    }
    if !others.is_empty() {
        let told = frame::other_cases_now(words, words.clauses(&others));
        state.tell(Severity::Review, told);
    }
}

fn not_saved(state: &mut State, case: &CaseId, why: String) {
    if let Some(open) = of(state, case) {
        open.session.not_saved(why);
    } else {
        let told = frame::earlier_case_not_saved(state.settings.words, why);
        state.tell(Severity::Stop, told);
    }
}

/// A signature is news for the lists, and holds the case again.
fn signed(state: &mut State, case: &CaseId, sheets: Result<Vec<SheetRow>, Vec<String>>) {
    if let Ok(sheets) = &sheets {
        if let Some(number) = sheets.last().map(|sheet| sheet.number) {
            let told = frame::signed_as(state.settings.words, number);
            state.tell(Severity::Note, told);
        }
        state.renew_lists();
    }
    if let Some(open) = of(state, case) {
        if sheets.is_ok() {
            open.lock = Lock::Closed;
        }
        open.pages.sheet.signed(sheets);
    }
}

fn of<'a>(state: &'a mut State, case: &CaseId) -> Option<&'a mut OpenCase> {
    state
        .open
        .as_mut()
        .filter(|open| open.session.case() == case)
}
