//! What was being typed when a window ended otherwise than by being closed: offered, never put in by itself.

use egui::Ui;
use millrace_core::rules::Severity;
use millrace_wording::desk::frame as say;

use crate::exchange::{CaseId, LeftText, Request};
use crate::message::Message;
use crate::widgets::{Fields, minor_button, notice, typed};
use crate::words::in_use;

/// How many texts of other cases are shown; the rest is counted.
const SHOWN: usize = 3;

/// What is offered beside which case.
#[derive(Clone, Copy)]
pub struct LeftView<'a> {
    pub left: &'a [LeftText],
    pub open: Option<&'a CaseId>,
    /// Whether the fields of the open case take anything.
    pub fields: Fields,
}

/// Shows the texts of the open case, each with the way into its field; and of which other cases there are
/// some.
pub fn show(ui: &mut Ui, view: &LeftView<'_>) -> Vec<Message> {
    let mut messages = Vec::new();
    let is_here = |left: &&LeftText| Some(&left.typed.case) == view.open;
    let here = view.left.iter().filter(is_here);
    let elsewhere = view.left.iter().filter(|left| !is_here(left));
    for left in here {
        notice(ui, Severity::Review, |ui| {
            messages.extend(of_this_case(ui, left, view.fields));
        });
    }
    for left in elsewhere.clone().take(SHOWN) {
        notice(ui, Severity::Review, |ui| {
            messages.extend(of_another(ui, left));
        });
    }
    if let Some(more) = elsewhere
        .count()
        .checked_sub(SHOWN)
        .filter(|more| 0 < *more)
    {
        let words = in_use(ui);
        notice(ui, Severity::Review, |ui| {
            ui.label(say::more_left(words, more));
        });
    }
    messages
}

fn of_this_case(ui: &mut Ui, left: &LeftText, fields: Fields) -> Option<Message> {
    let words = in_use(ui);
    let (what, text) = (&left.typed.what, &left.typed.text);
    typed(ui, say::left_here(words, what, text, left.at));
    let mut asked = None;
    ui.horizontal_wrapped(|ui| {
        let is_open = fields == Fields::Open;
        let button = egui::Button::new(say::put_in(words));
        let button = ui.add_enabled(is_open, button);
        let button = button.on_disabled_hover_text(say::is_locked(words));
        if button.clicked() {
            asked = Some(Message::PutIn(left.id));
        }
        button.accessible_name(say::put_in_named(words, what));
        if leave_out(ui, left) {
            asked = Some(Message::LeaveOut(left.id));
        }
    });
    asked
}

fn of_another(ui: &mut Ui, left: &LeftText) -> Option<Message> {
    let words = in_use(ui);
    let what = &left.typed.what;
    let patient = left.patient.as_deref();
    let patient = patient.unwrap_or_else(|| say::somebody_unnamed(words));
    typed(ui, say::left_elsewhere(words, patient, what, left.at));
    let mut asked = None;
    ui.horizontal_wrapped(|ui| {
        let button = ui.button(say::open_that_case(words));
        if button.clicked() {
            let case = left.typed.case.clone();
            asked = Some(Message::Ask(Request::OpenCase(case)));
        }
        button.accessible_name(say::open_case_of(words, patient));
        if leave_out(ui, left) {
            asked = Some(Message::LeaveOut(left.id));
        }
    });
    asked
}

fn leave_out(ui: &mut Ui, left: &LeftText) -> bool {
    let words = in_use(ui);
    let button = minor_button(ui, say::dismiss(words));
    let is_clicked = button.clicked();
    button.accessible_name(say::leave_out_named(words, &left.typed.what));
    is_clicked
}
