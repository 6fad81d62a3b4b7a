//! Opening and writing files: by the system's dialog, or by a path that is typed, where the
//! system has no dialog.

use std::borrow::Cow;

use egui::text::{CCursor, CCursorRange};
use egui::{Id, TextEdit, Ui};
use millrace_core::biometry::Side;
use millrace_core::case::Draft;
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
    /// With a place and a name to go on from: in the person's own directory, of what identifies without naming
    /// anybody.
    pub fn new(file_use: FileUse, draft: Option<&Draft>) -> Self {
        let name = match file_use {
            FileUse::Open | FileUse::ReadLenses => String::new(),
            FileUse::WriteLenses => "lens-records.ron".to_owned(),
            FileUse::Write => draft.map(file_name).unwrap_or_default(),
            FileUse::Day(date) => format!("sheets-{date}"),
        };
        Self {
            file_use,
            path: format!("~/{name}"),
            is_new: true,
        }
    }
}

/// Of the hospital number, as far as any system takes it in a name, and the eye: "40-2291-right.ron".
fn file_name(draft: &Draft) -> String {
    let number = draft.patient.number.as_deref().unwrap_or("case");
    let fits = |c: char| c.is_alphanumeric() || c == '-';
    let mut name: String = number.chars().filter(|c| fits(*c)).collect();
    match draft.operation.eye {
        Some(Side::Right) => name.push_str("-right"),
        Some(Side::Left) => name.push_str("-left"),
        None => {}
    }
    name.push_str(".ron");
    name
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
        FileUse::ReadLenses => (
            say::read_lenses_title(words).into(),
            say::open(words),
            say::path_of_file(words),
        ),
        FileUse::WriteLenses => (
            say::write_lenses_title(words).into(),
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

/// What is proposed is selected: whoever types or pastes a path of their own writes over it.
fn select_all(ui: &Ui, id: Id, path: &str) {
    let mut state = TextEdit::load_state(ui, id).unwrap_or_default();
    let end = path.chars().count();
    let all = CCursorRange::two(CCursor::new(0), CCursor::new(end));
    state.cursor.set_char_range(Some(all));
    TextEdit::store_state(ui, id, state);
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
                select_all(ui, field.id, &panel.path);
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
