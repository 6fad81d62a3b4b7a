//! Opening and writing files: by the system's dialog, or by a path that is typed, where the
//! system has no dialog.

use std::borrow::Cow;

use egui::{TextEdit, Ui};
use millrace_core::rules::Severity;
use millrace_wording::Words;
use millrace_wording::desk::frame as say;

use crate::exchange::Place;
use crate::message::{FileUse, Message};
use crate::theme::measures;
use crate::widgets::notice;
use crate::words::in_use;

/// The panel while it is shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FilePanel {
    pub file_use: FileUse,
    path: String,
    is_new: bool,
}

impl FilePanel {
    pub const fn new(file_use: FileUse) -> Self {
        Self {
            file_use,
            path: String::new(),
            is_new: true,
        }
    }
}

/// What it is for, the word of its button, and what is typed.
fn texts(words: Words, file_use: FileUse) -> (Cow<'static, str>, &'static str, &'static str) {
    match file_use {
        FileUse::Open => (
            say::open_title(words).into(),
            say::open(words),
            say::path_of_file(words),
        ),
        FileUse::Write => (
            say::write_title(words).into(),
            say::write(words),
            say::path_of_file(words),
        ),
        FileUse::Day(date) => (
            say::day_title(words, date).into(),
            say::write(words),
            say::path_of_folder(words),
        ),
    }
}

pub fn show(ui: &mut Ui, panel: &mut FilePanel) -> Vec<Message> {
    let mut actions = Vec::new();
    let file_use = panel.file_use;
    let words = in_use(ui);
    let (title, word, hint) = texts(words, file_use);
    let act = |place| Message::UseFile(file_use, place);
    notice(ui, Severity::Note, |ui| {
        ui.label(title);
        ui.horizontal_wrapped(|ui| {
            let width = (ui.available_width() - 260.0).clamp(160.0, 420.0);
            let field = TextEdit::singleline(&mut panel.path)
                .hint_text(hint)
                .desired_width(width);
            let field = ui.add(field);
            field.widget_info(|| {
                egui::WidgetInfo::labeled(egui::accesskit::Role::TextInput, true, hint)
            });
            if core::mem::take(&mut panel.is_new) {
                field.request_focus();
            }
            let is_named = !panel.path.trim().is_empty();
            let enter = field.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
            let button = ui.add_enabled(is_named, egui::Button::new(word));
            if is_named && (enter || button.clicked()) {
                actions.push(act(Place::Typed(panel.path.trim().to_owned())));
            }
            if ui.button(say::choose(words)).clicked() {
                actions.push(act(Place::Dialog));
            }
            if ui.button(say::not_now(words)).clicked() {
                actions.push(Message::PutFileAway);
            }
        });
        ui.add_space(measures::TIGHT);
    });
    actions
}
