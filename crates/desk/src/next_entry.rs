//! Where the next entry is made on a page that somebody turns to.

use egui::Context;
use millrace_core::signing::ready;
use millrace_wording::desk::{lens, sheet};

use crate::frame::tabs::tab_id;
use crate::state::State;
use crate::whereabouts::Page;
use crate::widgets::sought::seek;

/// Turns to a page: to its tab, or to the field it waits for.
pub(crate) fn turn_to(state: &mut State, ctx: &Context, page: Page) {
    state.show_page(page);
    ctx.memory_mut(|memory| memory.request_focus(tab_id(page)));
    if let Some(name) = next_entry(state, ctx, page) {
        seek(ctx, name.to_owned());
    }
    ctx.request_repaint();
}

/// What the field is called in which the page waits for an entry before anything else on it can be decided;
/// nothing where somebody looks first.
fn next_entry(state: &State, ctx: &Context, page: Page) -> Option<&'static str> {
    let open = state.open.as_ref().filter(|open| !open.is_locked())?;
    let words = state.settings.words;
    match page {
        Page::Lens => {
            let plan = &open.session.draft().lens;
            match (plan.target, plan.consented_target) {
                (None, _) => Some(lens::target(words)),
                (Some(_), None) => Some(lens::consented_target(words)),
                (Some(_), Some(_)) => None,
            }
        }
        Page::Sheet => {
            let plan = open.session.plan().ok()?;
            let can_be_signed = ready(plan).is_empty() && state.waiting(ctx).is_empty();
            can_be_signed.then(|| sheet::target_again(words))
        }
        Page::Biometry | Page::Approach | Page::Outcome => None,
    }
}
