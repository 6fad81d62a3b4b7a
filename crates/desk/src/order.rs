//! The order of a day, as a person sets it in the day view.

use egui::Context;

use crate::exchange::{CaseId, OrderRequest, Request, Toward};
use crate::message::Message;
use crate::session::SaveState;
use crate::state::{State, who};
use crate::whereabouts::{Front, Side};

/// Moves a case in the order of the day that is shown. The order is that of the day and of every case on it: it is
/// stored at once, and the other act takes it back.
pub(crate) fn reorder(state: &mut State, ctx: &Context, case: CaseId, toward: Toward) {
    let is_shown = state.front == Front::Day || state.open.is_none();
    if !is_shown || state.side != Side::Page {
        return;
    }
    let is_being_stored = state.session().is_some_and(|session| {
        matches!(session.save_state(), SaveState::Saving | SaveState::Unsaved)
    });
    let Some(list) = state.day.list().filter(|_| !is_being_stored) else {
        // What it is moved among is on its way.
        state.deferred.push(Message::Reorder(case, toward));
        return ctx.request_repaint();
    };
    let Some(places) = list.with_moved(&case, toward) else {
        return;
    };
    if let Some(open) = &mut state.open
        && places.iter().any(|it| it.case == *open.session.case())
    {
        open.session.begin_ordering();
    }
    let by = who(&state.settings, &state.around);
    state
        .requests
        .push(Request::Order(OrderRequest { places, by }));
    state.day.renew();
}
