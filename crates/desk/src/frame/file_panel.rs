//! Opening and writing files: by the system's dialog, or by a path that is typed, where the
//! system has no dialog.

use egui::{TextEdit, Ui};
use millrace_core::rules::Severity;

use crate::exchange::Place;
use crate::message::{FileUse, Message};
use crate::theme::measures;
use crate::widgets::notice;
use crate::words::day;

/// The panel while it is shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FilePanel {
    /// What for.
    pub file_use: FileUse,
    path: String,
    is_new: bool,
}

impl FilePanel {
    /// Nothing typed yet.
    #[must_use]
    pub const fn new(file_use: FileUse) -> Self {
        Self {
            file_use,
            path: String::new(),
            is_new: true,
        }
    }
}

/// What it is for, the word of its button, and what is typed.
fn words(file_use: FileUse) -> (String, &'static str, &'static str) {
    match file_use {
        FileUse::Open => (
            "Open a case file; it becomes a new case".to_owned(),
            "Open",
            "Path of the file",
        ),
        FileUse::Write => (
            "Write this case to a file; one that exists is left as it is".to_owned(),
            "Write",
            "Path of the file",
        ),
        FileUse::Day(date) => (
            format!(
                "Write every current sheet of {} into a folder, with a page that lists them and \
                 names who has none",
                day(date)
            ),
            "Write",
            "Path of the folder",
        ),
    }
}

/// Shows the panel.
pub fn show(ui: &mut Ui, panel: &mut FilePanel) -> Vec<Message> {
    let mut actions = Vec::new();
    let file_use = panel.file_use;
    let (title, word, hint) = words(file_use);
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
            if ui.button("Choose…").clicked() {
                actions.push(act(Place::Dialog));
            }
            let escape =
                field.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Escape));
            if ui.button("Not now").clicked() || escape {
                actions.push(Message::PutFileAway);
            }
        });
        ui.add_space(measures::TIGHT);
    });
    actions
}
