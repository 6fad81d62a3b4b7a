//! What can be done at the list beside opening a case of it.

use chrono::NaiveDate;
use egui::{Key, Ui, vec2};
use millrace_wording::Words;
use millrace_wording::desk::{aside, list as say};

use crate::exchange::{CaseId, Request};
use crate::message::{FileUse, Message};
use crate::theme::measures;
use crate::whereabouts::Front;
use crate::words::in_use;

/// The open case, as the list knows it.
#[derive(Clone, Copy)]
pub struct OpenRow<'a> {
    pub case: &'a CaseId,
    /// The day it is planned for.
    pub day: Option<NaiveDate>,
    /// How it can be set aside now, if it can.
    pub aside: Option<Aside>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aside {
    /// Nothing was entered.
    Discard,
    WithReason,
}

/// What can be done beside opening a case of the list: the rarer acts, with files, sheets and the whole case,
/// stand together under one button.
pub(super) fn buttons(
    ui: &mut Ui,
    open: Option<OpenRow<'_>>,
    is_unfolded: &mut bool,
) -> Option<Message> {
    let words = in_use(ui);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(measures::TIGHT, measures::TIGHT);
        let mut message = None;
        let mut button = |ui: &mut Ui, text: &str, act: Message| {
            let is_clicked = ui.button(text).clicked();
            if is_clicked {
                message = Some(act);
            }
            is_clicked
        };
        button(ui, say::day(words), Message::Turn(Front::Day));
        button(ui, say::new_case(words), Message::Ask(Request::NewCase));
        unfold(ui, is_unfolded);
        if *is_unfolded {
            for (text, act) in rarer(words, open) {
                if button(ui, &text, act) {
                    *is_unfolded = false;
                }
            }
        }
        message
    })
    .inner
}

fn unfold(ui: &mut Ui, is_unfolded: &mut bool) {
    let button = ui.button(say::more_acts(in_use(ui)));
    if button.clicked() {
        *is_unfolded = !*is_unfolded;
    }
    ui.accesskit_node_builder(button.id, |node| node.set_expanded(*is_unfolded));
}

fn rarer(words: Words, open: Option<OpenRow<'_>>) -> Vec<(String, Message)> {
    let mut acts = vec![(
        say::open_file(words).to_owned(),
        Message::AskForFile(FileUse::Open),
    )];
    if let Some(open) = open {
        let write = say::write_file(words).to_owned();
        acts.push((write, Message::AskForFile(FileUse::Write)));
        acts.extend(open.day.map(|date| {
            let text = say::sheets_of(words, date);
            (text, Message::AskForFile(FileUse::Day(date)))
        }));
        acts.extend(open.aside.map(|aside| {
            let text = match aside {
                Aside::Discard => aside::discard(words),
                Aside::WithReason => aside::set_aside(words),
            };
            (text.to_owned(), Message::SetAside)
        }));
    }
    acts
}

/// Whether a sheet in somebody's hand is the one to work by: its fingerprint, typed or scanned.
pub(super) fn check_field(ui: &mut Ui, fingerprint: &mut String) -> Option<Request> {
    let field = egui::TextEdit::singleline(fingerprint)
        .hint_text(say::check_hint(in_use(ui)))
        .desired_width(f32::INFINITY);
    let field = ui.add(field);
    let enter = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    field.accessible_name(say::check(in_use(ui)));
    let text = fingerprint.trim();
    if !enter || text.is_empty() {
        return None;
    }
    Some(Request::Verify(text.to_owned()))
}
