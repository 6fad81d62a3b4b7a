//! What is kept beside the register of that which is not in it yet, and what a window left behind there.

use core::time::Duration;

use egui::Context;

use crate::exchange::{CaseId, LeftId, LeftText, Request, TypedText};
use crate::widgets::half_typed::{self, HalfTyped, WITHIN};

/// Passes after which a field that is to take a text is not on its page.
const PATIENCE: u8 = 3;

#[derive(Debug, Default)]
pub struct Typing {
    /// What was handed out last.
    kept: Vec<TypedText>,
    /// Since when something else stands in the fields, seconds of the window.
    differs_since: Option<f64>,
    /// What windows left behind, to be offered.
    left: Vec<LeftText>,
    /// On its way into its field, and how many passes it may still take.
    put: Option<(LeftId, u8)>,
}

/// What became of a text on its way into its field.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Put {
    /// It stands there as if it were typed.
    Done(LeftId),
    /// Its field is not on the page; it is offered as before.
    NoField(String),
}

impl Typing {
    /// What windows left behind is offered.
    pub fn offer(&mut self, texts: Vec<LeftText>) {
        self.left = texts;
    }

    /// What is offered, of every case.
    pub fn left(&self) -> &[LeftText] {
        &self.left
    }

    /// Begins to put a text of this case into its field; tells the page it stands on.
    pub fn begin_to_put(&mut self, ctx: &Context, id: LeftId) -> Option<&str> {
        let left = self.left.iter().find(|left| left.id == id)?;
        half_typed::put(ctx, left.typed.field, left.typed.text.clone());
        self.put = Some((id, PATIENCE));
        Some(&left.typed.page)
    }

    /// It is not wanted.
    pub fn leave_out(&mut self, id: LeftId) -> Request {
        self.left.retain(|left| left.id != id);
        Request::SettleLeft(id)
    }

    /// What became of the text on its way, once that is known.
    pub(crate) fn put(&mut self, ctx: &Context) -> Option<Put> {
        let (id, passes) = self.put?;
        if !half_typed::is_being_put(ctx) {
            self.put = None;
            return Some(Put::Done(id));
        }
        ctx.request_repaint();
        if let Some(fewer) = passes.checked_sub(1) {
            self.put = Some((id, fewer));
            return None;
        }
        half_typed::give_up_putting(ctx);
        self.put = None;
        let left = self.left.iter().find(|left| left.id == id)?;
        Some(Put::NoField(left.typed.text.clone()))
    }

    /// Hands out what stands in the fields, if that changed, before a second has passed. A text that was put
    /// into its field is handed out before it is forgotten where it was left behind.
    pub(crate) fn keep(&mut self, ctx: &Context, put: Option<&Put>) -> Vec<Request> {
        let now: Vec<_> = half_typed::all(ctx).into_iter().map(typed).collect();
        let done = match put {
            Some(Put::Done(id)) => Some(self.leave_out(*id)),
            _ => None,
        };
        let mut asked = Vec::new();
        if now == self.kept {
            self.differs_since = None;
        } else {
            let time = ctx.input(|input| input.time);
            let since = *self.differs_since.get_or_insert(time);
            let left = WITHIN.as_secs_f64() - (time - since);
            if done.is_none() && 0.0 < left {
                ctx.request_repaint_after(Duration::from_secs_f64(left));
            } else {
                self.differs_since = None;
                self.kept.clone_from(&now);
                asked.push(Request::KeepTyped(now));
            }
        }
        asked.extend(done);
        asked
    }

    /// Nothing of it is wanted any more: what stands in the fields goes with the window.
    pub fn give_up(&mut self) -> Option<Request> {
        let kept = core::mem::take(&mut self.kept);
        (!kept.is_empty()).then(|| Request::KeepTyped(Vec::new()))
    }
}

fn typed(half: HalfTyped) -> TypedText {
    TypedText {
        case: CaseId(half.ground.case),
        page: half.ground.page.to_owned(),
        field: half.field,
        what: half.what,
        text: half.text,
    }
}
