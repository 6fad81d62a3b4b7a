//! One line of typed text with a beginning and an end: the ground under every field here.
//!
//! egui's own number widget rewrites values it merely shows, drops text it cannot read and reports
//! the end of an edit twice. This one keeps the text apart until the person is done with it.
//!
//! - The text is selected when the focus arrives.
//! - Enter, Tab and a click elsewhere end the edit; Escape gives the old text back.
//! - Text that was not changed ends in nothing. A change ends exactly once.
//! - Text that is refused stays where it is, and is taken as soon as it is no longer refused.

use egui::{
    Align2, EventFilter, FontSelection, Id, Key, Stroke, TextBuffer, TextEdit, TextStyle, Ui,
};
use millrace_wording::desk::widgets as say;

use super::caret::{keep_caret_inside, select_all};
use super::field::{Field, Named};
use super::half_typed::{self, Became};
use super::reading_order::{reads_from_right, typed_galley};
use super::value_order::{self, Step};
use super::{lock, sought, waiting};
use crate::theme::{Palette, measures};
use crate::words::in_use;

/// What the field looks like and holds.
pub(super) struct Line<'a> {
    pub(super) field: Field<'a>,
    /// The text that stands for what is recorded now.
    pub(super) shown: String,
    pub(super) align: Align2,
    pub(super) width: f32,
    /// What a screen reader adds to the name: unit and range. Made when one listens.
    pub(super) about: &'a dyn Fn() -> String,
    /// What an empty field says of itself.
    pub(super) hint: &'static str,
    pub(super) ends: Ends,
}

/// What takes the text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ends {
    /// Enter, Tab and a click elsewhere.
    OnLeaving,
    /// Nothing but a button of its own: the text stays where it is.
    ByAct,
}

#[derive(Debug, Default)]
pub(super) struct LineEnd {
    pub(super) finished: Option<String>,
    /// Why the text that stands there is not taken.
    pub(super) problem: Option<String>,
}

/// An edit that is under way, or was refused.
#[derive(Clone, PartialEq)]
struct Edit {
    text: String,
    base: String,
    left: bool,
    /// Whether the pointer was here since the focus came: the first click selects, later ones place
    /// the caret, so that digits typed after one click never end up among old ones.
    clicked: bool,
    /// Whether the person left this very text and was told what is wrong with it: while it is typed, a
    /// number that is not whole yet is nothing to be told of.
    told: bool,
}

impl Edit {
    fn of(text: &str) -> Self {
        Self {
            text: text.to_owned(),
            base: text.to_owned(),
            left: false,
            clicked: false,
            told: false,
        }
    }

    fn is_changed(&self) -> bool {
        self.text.trim() != self.base.trim()
    }
}

/// Whether the field with the focus holds typed text that is not yet taken: then undo belongs to it.
pub(crate) fn is_being_typed(ui: &Ui) -> bool {
    let Some(focused) = ui.memory(egui::Memory::focused) else {
        return false;
    };
    edit(ui, focused).is_some_and(|edit| edit.is_changed())
}

/// The typed text of a field that was not taken, without spaces around it; nothing if there is none.
pub(super) fn stands(ui: &Ui, field: Id) -> Option<String> {
    let text = edit(ui, field)?.text.trim().to_owned();
    (!text.is_empty()).then_some(text)
}

/// A value offered beside a field for the text that stands in it; whether it is taken. Then the field shows
/// what is recorded, and has the focus again.
pub(super) fn offer(ui: &mut Ui, field: Id, value: &str) -> bool {
    let is_taken = value_order::act(ui, field.with(value), value, Step::Act).clicked();
    if is_taken {
        give_back(ui, field);
        ui.memory_mut(|memory| memory.request_focus(field));
    }
    is_taken
}

/// Whether the field has the focus.
pub(super) fn is_in(ui: &Ui, field: Id) -> bool {
    ui.memory(|memory| memory.has_focus(field))
}

/// What is being typed into a field that has the focus.
pub(super) fn typed_into(ui: &Ui, field: Id) -> Option<String> {
    let edit = edit(ui, field).filter(|_| is_in(ui, field));
    edit.map(|edit| edit.text)
}

/// Gives a field back what is recorded, whatever stands in it.
pub fn give_back(ctx: &egui::Context, field: Id) {
    ctx.data_mut(|data| data.remove::<Edit>(field));
    waiting::keep(ctx, field, "", None);
    half_typed::forget(ctx, field);
    ctx.request_repaint();
}

fn edit(ui: &Ui, id: Id) -> Option<Edit> {
    ui.data(|data| data.get_temp(id))
}

/// Shows the line. `judge` says what is wrong with a text that is not empty.
pub(super) fn show(
    ui: &mut Ui,
    line: &Line<'_>,
    judge: &dyn Fn(&str) -> Result<(), String>,
) -> LineEnd {
    let before = put_in(ui, line).or_else(|| edit(ui, line.field.id));
    let mut text = before
        .as_ref()
        .map_or_else(|| line.shown.clone(), |edit| edit.text.clone());
    let looks = Looks {
        is_changed: before.as_ref().is_some_and(Edit::is_changed),
        is_refused: before
            .as_ref()
            .is_some_and(|edit| refusal(edit, judge).is_some()),
    };
    let response = text_edit(ui, line, &mut text, looks);

    let mut now = before.clone();
    let typed = Typed {
        response: &response,
        text: &text,
    };
    let focused = follow_focus(ui, line, &mut now, before.as_ref(), typed);
    let entered = ui.input(|input| input.key_pressed(Key::Enter));
    let end = match line.ends {
        Ends::OnLeaving if !focused || entered => conclude(&mut now, judge),
        Ends::ByAct if !focused => left(&mut now, judge),
        Ends::OnLeaving if now.as_ref().is_some_and(|edit| !edit.told) => LineEnd::default(),
        Ends::OnLeaving | Ends::ByAct => under_way(now.as_mut(), judge),
    };
    if line.ends == Ends::OnLeaving {
        let is_refused = end.problem.is_some();
        let step = if is_refused {
            Step::Refused
        } else {
            Step::Value
        };
        value_order::pass(ui, line.field.id, line.field.id, step);
    }
    let stands = now
        .as_ref()
        .filter(|edit| edit.is_changed())
        .map(|edit| edit.text.clone());
    if now != before {
        ui.data_mut(|data| match now {
            Some(edit) => {
                data.insert_temp(line.field.id, edit);
            }
            None => data.remove::<Edit>(line.field.id),
        });
        ui.request_repaint();
    }
    let problem = end.problem.as_deref();
    half_typed::keep(
        ui,
        line.field,
        Became::of(stands.as_deref(), end.finished.as_deref()),
    );
    waiting::keep(
        ui,
        line.field.id,
        line.field.named.words(),
        problem.filter(|_| !focused || entered),
    );
    describe(ui, line, problem);
    end
}

/// A text that was left behind, put here as if it were typed: what stood here is written over.
fn put_in(ui: &Ui, line: &Line<'_>) -> Option<Edit> {
    let text = half_typed::put_into(ui, line.field.id)?;
    ui.memory_mut(|memory| memory.request_focus(line.field.id));
    let edit = Edit {
        text,
        // The next click places the caret.
        clicked: true,
        ..Edit::of(&line.shown)
    };
    // Also where it is what the field shows already.
    ui.data_mut(|data| data.insert_temp(line.field.id, edit.clone()));
    Some(edit)
}

/// What a pass typed, and where.
#[derive(Clone, Copy)]
struct Typed<'a> {
    response: &'a egui::Response,
    text: &'a str,
}

/// Brings the edit up to what this pass typed; tells whether the field has the focus.
fn follow_focus(
    ui: &Ui,
    line: &Line<'_>,
    now: &mut Option<Edit>,
    before: Option<&Edit>,
    Typed { response, text }: Typed<'_>,
) -> bool {
    let focused = response.has_focus();
    let escaped = ui.input(|input| input.key_pressed(Key::Escape));
    let was_open = before.is_some_and(|edit| !edit.left);
    if escaped && was_open {
        let gives_back = before.is_some_and(Edit::is_changed);
        if gives_back && !focused {
            ui.memory_mut(|memory| memory.request_focus(line.field.id));
        }
        *now = (focused || gives_back).then(|| Edit::of(&line.shown));
        return focused || gives_back;
    }
    if focused {
        if before.is_none() && !response.changed() {
            select_all(ui, line.field.id, text);
        }
        let edit = now.get_or_insert_with(|| Edit::of(&line.shown));
        edit.left = false;
        if response.clicked() && !edit.clicked {
            edit.clicked = true;
            select_all(ui, line.field.id, text);
        }
        // An undo behind the field: what stands there is only shown, so it follows.
        if !edit.is_changed() && text == edit.text && edit.base != line.shown {
            *edit = Edit::of(&line.shown);
        } else {
            edit.told = edit.told && text == edit.text;
            text.clone_into(&mut edit.text);
        }
    } else if response.changed() {
        // A screen reader sets the whole text without moving the focus.
        let mut edit = Edit::of(&line.shown);
        text.clone_into(&mut edit.text);
        *now = Some(edit);
    }
    focused
}

/// Why the typed text is not taken; text that was not changed is not judged.
fn refusal(edit: &Edit, judge: &dyn Fn(&str) -> Result<(), String>) -> Option<String> {
    let text = edit.text.trim();
    if !edit.is_changed() || text.is_empty() {
        return None;
    }
    judge(text).err()
}

/// Judges while somebody types, and takes nothing.
fn under_way(edit: Option<&mut Edit>, judge: &dyn Fn(&str) -> Result<(), String>) -> LineEnd {
    LineEnd {
        finished: None,
        problem: edit.and_then(|edit| refusal(edit, judge)),
    }
}

/// Keeps what was typed for the act that takes it.
fn left(edit: &mut Option<Edit>, judge: &dyn Fn(&str) -> Result<(), String>) -> LineEnd {
    if edit.as_ref().is_some_and(|edit| !edit.is_changed()) {
        *edit = None;
    }
    if let Some(edit) = edit.as_mut() {
        (edit.left, edit.clicked) = (true, false);
    }
    under_way(edit.as_mut(), judge)
}

/// Ends an edit that is over: taken, or kept with what is wrong with it.
fn conclude(edit: &mut Option<Edit>, judge: &dyn Fn(&str) -> Result<(), String>) -> LineEnd {
    let Some(current) = edit.as_mut() else {
        return LineEnd::default();
    };
    let problem = refusal(current, judge);
    if problem.is_some() {
        (current.left, current.clicked, current.told) = (true, false, true);
        return LineEnd {
            finished: None,
            problem,
        };
    }
    let done = current.is_changed().then(|| current.text.trim().to_owned());
    *edit = None;
    LineEnd {
        finished: done,
        problem: None,
    }
}

/// What shows in the field's outline and decides what Escape does.
#[derive(Clone, Copy)]
struct Looks {
    is_changed: bool,
    is_refused: bool,
}

fn text_edit(ui: &mut Ui, line: &Line<'_>, text: &mut String, looks: Looks) -> egui::Response {
    let palette = Palette::current(ui);
    let focused = ui.memory(|memory| memory.has_focus(line.field.id));
    let is_at_rest = !focused && reads_from_right(text);
    let output = ui
        .scope(|ui| {
            if looks.is_refused && !focused {
                let outline = Stroke::new(measures::FOCUS, palette.stop);
                let widgets = &mut ui.visuals_mut().widgets;
                widgets.inactive.bg_stroke = outline;
                widgets.hovered.bg_stroke = outline;
            }
            let font = TextStyle::Body.resolve(ui.style());
            // At rest it is read; the toolkit cannot edit what it did not set itself.
            let mut in_order = |ui: &Ui, text: &dyn TextBuffer, _: f32| {
                let text = (text.as_str(), palette.ink);
                typed_galley(ui.painter(), text, font.clone(), f32::INFINITY)
            };
            let mut field = TextEdit::singleline(text);
            if is_at_rest {
                field = field.layouter(&mut in_order);
            }
            field
                .id(line.field.id)
                .font(FontSelection::Style(TextStyle::Body))
                .align(line.align)
                .desired_width(line.width)
                .min_size(egui::vec2(line.width, measures::CONTROL))
                .hint_text(line.hint)
                .return_key(None)
                .interactive(!lock::is_locked(ui))
                .event_filter(EventFilter {
                    horizontal_arrows: true,
                    vertical_arrows: true,
                    // The first Escape gives the old text back; the next one leaves the field.
                    escape: looks.is_changed,
                    tab: false,
                })
                .show(ui)
        })
        .inner;
    if reads_from_right(text) {
        keep_caret_inside(ui, line.field.id, text);
    }
    let response = output.response.response;
    sought::meet(ui, line.field.id, line.field.named.words(), response.rect);
    if response.gained_focus() {
        select_all(ui, line.field.id, text);
        ui.scroll_to_rect(response.rect.expand(measures::NEAR), None);
    }
    match line.field.named {
        Named::By(label, _) => response.labelled_by(label),
        Named::As(words) => response.accessible_name(words),
    }
}

fn describe(ui: &Ui, line: &Line<'_>, problem: Option<&str>) {
    let words = in_use(ui);
    let told = sought::told(ui, line.field.named.words());
    ui.accesskit_node_builder(line.field.id, |node| {
        let mut about = (line.about)();
        if let Some(told) = &told {
            about = [about.as_str(), told].join(if about.is_empty() { "" } else { "; " });
        }
        if let Some(problem) = problem {
            node.set_invalid(egui::accesskit::Invalid::True);
            node.set_description(say::described(words, problem, &about));
        } else if !about.is_empty() {
            node.set_description(about);
        }
    });
}
