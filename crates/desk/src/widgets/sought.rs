//! The fields that findings are about: marked where they are shown, and brought to the front when asked for.
//!
//! A field is meant by its name, which a person reads beside it and hears from a screen reader; a page
//! shows each name once.

use std::collections::BTreeMap;

use egui::{Context, Id, Rect, Ui, pos2};
use millrace_core::rules::Severity;

use super::shapes::severity_mark;
use crate::theme::measures;

/// What stands against the entry of a field.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// The gravest of them.
    pub severity: Severity,
    /// What they say, in words.
    pub told: String,
}

pub type Marks = BTreeMap<String, Mark>;

/// Passes after which a field that was not shown is no longer looked for.
const PATIENCE: u8 = 3;

#[derive(Clone, Debug, Default)]
struct Sought {
    marks: Marks,
    name: Option<String>,
    patience: u8,
}

fn with<R>(ctx: &Context, act: impl FnOnce(&mut Sought) -> R) -> R {
    ctx.data_mut(|data| act(data.get_temp_mut_or_default(Id::unique("sought fields"))))
}

/// The fields shown from now on are marked so.
pub fn mark(ctx: &Context, marks: Marks) {
    with(ctx, |sought| sought.marks = marks);
}

/// The field of this name takes the focus when it is shown next.
pub fn seek(ctx: &Context, name: String) {
    with(ctx, |sought| {
        sought.name = Some(name);
        sought.patience = PATIENCE;
    });
    ctx.request_repaint();
}

/// Whether one of these is looked for: whoever holds it folded away unfolds it.
pub fn is_sought(ctx: &Context, names: &[&str]) -> bool {
    with(ctx, |sought| {
        let name = sought.name.as_deref();
        name.is_some_and(|name| names.contains(&name))
    })
}

/// Once in each pass: what is looked for in vain is given up.
pub fn grow_impatient(ctx: &Context) {
    let goes_on = with(ctx, |sought| {
        sought.patience = sought.patience.saturating_sub(1);
        if sought.patience == 0 {
            sought.name = None;
        }
        sought.name.is_some()
    });
    if goes_on {
        ctx.request_repaint();
    }
}

/// What stands against the entry of the field of this name.
pub(super) fn told(ctx: &Context, name: &str) -> Option<String> {
    with(ctx, |sought| {
        sought.marks.get(name).map(|mark| mark.told.clone())
    })
}

/// A field is shown: it takes the focus if it is looked for, and is marked if something is found of it.
pub(super) fn meet(ui: &Ui, id: Id, name: &str, rect: Rect) {
    let (is_sought, severity) = with(ui, |sought| {
        let is_sought = sought.name.as_deref() == Some(name);
        if is_sought {
            sought.name = None;
        }
        let mark = sought.marks.get(name);
        (is_sought, mark.map(|mark| mark.severity))
    });
    if is_sought {
        ui.memory_mut(|memory| memory.request_focus(id));
        ui.scroll_to_rect(rect.expand(measures::APART), None);
    }
    if let Some(severity) = severity {
        let place = pos2(rect.left() - measures::TIGHT, rect.center().y);
        severity_mark(ui, place, severity);
    }
}
