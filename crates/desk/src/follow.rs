//! What somebody else stored of the open case: shown by itself where nobody is doing anything, told otherwise.

use egui::Context;
use millrace_core::case_file::{Difference, differences};
use millrace_core::rules::Severity;
use millrace_wording::desk::frame as say;
use millrace_wording::{Words, sentence};

use crate::exchange::Newer;
use crate::frame::conflict;
use crate::session::SaveState;
use crate::signed::Lock;
use crate::state::State;
use crate::whereabouts::Front;
use crate::widgets::half_typed;

/// How many changed entries are told; the rest is counted.
const TOLD: usize = 3;

/// Shows a newer revision as soon as nothing is being done here that it could disturb; tells of it before.
pub(crate) fn follow(state: &mut State, ctx: &Context) {
    if state.open.as_ref().is_none_or(|open| open.newer.is_none()) {
        return;
    }
    let is_quiet = is_quiet(state, ctx);
    let words = state.settings.words;
    let Some(open) = &mut state.open else {
        return;
    };
    if !is_quiet {
        return tell_of_it(state);
    }
    let Some(newer) = open.newer.take() else {
        return;
    };
    if *open.session.revision() == newer.revision {
        return;
    }
    let found = differences(open.session.draft(), &newer.draft);
    let told = told(words, &newer, &found.unwrap_or_default());
    let limits = &state.around.limits;
    open.session.follow(newer.revision, *newer.draft, limits);
    open.pages.sheet.sheets = newer.sheets;
    // They may have signed it.
    open.lock = Lock::Closed;
    state.tell(Severity::Note, told);
    ctx.request_repaint();
}

/// Tells once that there is a newer revision, which waits.
fn tell_of_it(state: &mut State) {
    let words = state.settings.words;
    let Some(open) = &mut state.open else {
        return;
    };
    let Some(newer) = &open.newer else {
        return;
    };
    let revision = Some(newer.revision.clone());
    if open.told_of_newer != revision {
        open.told_of_newer = revision;
        let told = say::newer_is_stored(words, conflict::who(words, &newer.by), newer.at);
        state.tell(Severity::Review, told);
    }
}

/// Whether everything of the open case is on the drive, and nothing is being typed, asked or looked at that a
/// change of the case would disturb.
fn is_quiet(state: &State, ctx: &Context) -> bool {
    let Some(open) = &state.open else {
        return false;
    };
    let case = &open.session.case().0;
    let is_typed = half_typed::all(ctx)
        .iter()
        .any(|it| it.ground.case == *case);
    state.front != Front::SecondLook
        && open.session.save_state() == SaveState::Saved
        && state.deferred.is_empty()
        && open.lock != Lock::Asked
        && !is_typed
        && state.waiting(ctx).is_empty()
}

fn told(words: Words, newer: &Newer, found: &[Difference]) -> String {
    let told = found.iter().take(TOLD).map(|difference| {
        let entry = sentence(&say::entry(words, &difference.entry));
        let before = conflict::value(words, difference.first.as_deref());
        let after = conflict::value(words, difference.second.as_deref());
        say::entry_changed(words, entry, before, after)
    });
    let mut told: Vec<_> = told.collect();
    if let Some(more) = found.len().checked_sub(TOLD).filter(|more| 0 < *more) {
        told.push(say::and_more(words, more));
    }
    let who = conflict::who(words, &newer.by);
    if told.is_empty() {
        return say::stored_again(words, who, newer.at);
    }
    say::changed_by(words, who, newer.at, told.join("; "))
}
