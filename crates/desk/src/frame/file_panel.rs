//! Opening and writing a case file: by the system's dialog, or by a path that is typed, where the
//! system has no dialog.

use egui::{TextEdit, Ui};
use millrace_core::rules::Severity;

use super::Action;
use crate::exchange::Place;
use crate::theme::measures;
use crate::widgets::notice;

/// What is to become of the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileUse {
    /// It is read, as a new case.
    Open,
    /// The open case is written to it.
    Write,
}

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

/// Shows the panel.
pub fn show(ui: &mut Ui, panel: &mut FilePanel) -> Vec<Action> {
    let mut actions = Vec::new();
    let (title, word, act): (_, _, fn(Place) -> Action) = match panel.file_use {
        FileUse::Open => (
            "Open a case file; it becomes a new case",
            "Open",
            Action::OpenFile,
        ),
        FileUse::Write => (
            "Write this case to a file; one that exists is left as it is",
            "Write",
            Action::WriteFile,
        ),
    };
    notice(ui, Severity::Note, |ui| {
        ui.label(title);
        ui.horizontal_wrapped(|ui| {
            let width = (ui.available_width() - 260.0).clamp(160.0, 420.0);
            let field = TextEdit::singleline(&mut panel.path)
                .hint_text("path of the file")
                .desired_width(width);
            let field = ui.add(field);
            field.widget_info(|| {
                egui::WidgetInfo::labeled(
                    egui::accesskit::Role::TextInput,
                    true,
                    "Path of the file",
                )
            });
            if core::mem::take(&mut panel.is_new) {
                field.request_focus();
            }
            let is_named = !panel.path.trim().is_empty();
            let enter = field.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
            let button = ui.add_enabled(is_named, egui::Button::new(word));
            if is_named && (enter || button.clicked()) {
                actions.push(act(Place::Path(panel.path.trim().to_owned())));
            }
            if ui.button("Choose…").clicked() {
                actions.push(act(Place::Dialog));
            }
            let escape =
                field.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Escape));
            if ui.button("Not now").clicked() || escape {
                actions.push(Action::PutFileAway);
            }
        });
        ui.add_space(measures::TIGHT);
    });
    actions
}
